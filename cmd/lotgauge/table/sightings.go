package table

import (
	"fmt"

	"lotgauge/valuation"
)

// modelPrices shows what the prices of sound ones rest on.
func (p *printer) modelPrices(e *valuation.Explanation, guides Guide) {
	few := 0
	for i := range e.Models {
		m := &e.Models[i]
		if m.Chance < negligible {
			few++
			continue
		}
		p.heading("Catalogue number " + m.ID + bracketed(m.Title) + ", what its price rests on")
		p.price(&m.Price, " for a sound one at the reference grade", e.Currency)
		p.rows(m.Seen, guides[m.ID], e.Currency)
	}
	if few > 0 {
		p.blank()
		p.para(plain, "", "", counted(few, "other catalogue number")+" less likely than 1 in 200: prices not shown.")
	}
}

// price is an estimate in a sentence.
func (p *printer) price(r *valuation.PriceRange, of, currency string) {
	if r == nil {
		p.note(bad, "There is no price.")
		return
	}
	p.note(plain, fmt.Sprintf("Estimate: %s on average%s; in 80 of 100 cases %s to %s.",
		tied(amount(&r.Mean, currency)), of, figure(&r.P10), tied(amount(&r.P90, currency))))
}

// rows are the rows of the price table that an estimate rests on.
func (p *printer) rows(seen []valuation.Sighting, guide, currency string) {
	g := &grid{columns: []column{
		{head: "Day"}, {head: "One piece, " + currency, right: true}, {head: "How"}, {head: "Weight", right: true},
		{head: "Line", right: true, spare: 1}, {},
	}}
	aside := 0
	for _, s := range seen {
		how, note := "sold", ""
		if s.Asked {
			how = "asked"
		}
		if s.SetAside {
			note = "set aside"
			aside++
		}
		g.add(words(s.Day.Format("2006-01-02")), words(figure(&s.Price)), words(how),
			words(fmt.Sprintf("%.2f", s.Weight)), words(fmt.Sprint(s.Line)), toned(warn, note))
	}
	if aside == 0 {
		g = g.without(len(g.columns) - 1)
	}
	p.grid(g)
	switch {
	case guide != "":
		p.note(plain, "And a guide price of "+tied(guide)+", which counts as one row of weight 1.")
	case len(seen) == 0:
		p.note(plain, "It rests on no row of the price table and on no guide price.")
	}
	if len(seen) > 0 {
		p.note(faint, "As asked or sold. Weight 1 is a sale on the day itself; older rows and prices asked weigh less.")
	}
}
