package table

import (
	"fmt"
	"slices"
	"strings"

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
		p.rows(m.Seen, guides[m.ID], e.Currency, "As a\nsound one")
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

// rows are the rows of the price table that an estimate rests on; counts heads
// the column of what each counts as.
func (p *printer) rows(seen []valuation.Sighting, guide, currency, counts string) {
	g := &grid{columns: []column{
		{head: "Day"}, {head: "One piece,\n" + currency, right: true}, {head: counts, right: true}, {head: "How"}, {head: "Weight", right: true},
		{head: "Line", right: true, spare: 1}, {head: "State it was in", flex: true},
	}}
	counting := false
	for i := range seen {
		s := &seen[i]
		counting = counting || !s.Counts.IsZero()
		g.add(words(s.Day.Format("2006-01-02")), words(figure(&s.Price)), words(figure(&s.Counts)), words(how(s)),
			words(fmt.Sprintf("%.2f", s.Weight)), words(fmt.Sprint(s.Line)), wasIn(s))
	}
	p.grid(needed(g, counting))
	switch {
	case guide != "":
		p.note(plain, "And a guide price of "+tied(guide)+", which counts as one row of weight 1.")
	case len(seen) == 0:
		p.note(plain, "It rests on no row of the price table and on no guide price.")
	}
	if len(seen) > 0 {
		p.note(faint, "Weight 1 is a sale on the day itself; older rows and prices asked weigh less. "+
			"What was asked counts as somewhat less than it says, and a model as what a sound one would have brought.")
	}
}

// needed is the grid of rows without the columns that have nothing in them.
func needed(g *grid, counting bool) *grid {
	last := len(g.columns) - 1
	if !slices.ContainsFunc(g.rows, func(r row) bool { return len(r.cells[last].lines) > 0 }) {
		g = g.without(last)
	}
	if !counting {
		g = g.without(2)
	}
	return g
}

func how(s *valuation.Sighting) string {
	if s.Asked {
		return "asked"
	}
	return "sold"
}

// wasIn is the state that a model was in, as far as its row says, and whether the
// row was set aside.
func wasIn(s *valuation.Sighting) cell {
	t, all := plain, []string{}
	if s.Grade != "" {
		all = append(all, s.Grade)
	}
	for _, state := range strings.Fields(s.Lacking) {
		all = append(all, strings.Replace(state, ":", " ", 1))
	}
	if s.SetAside {
		t, all = warn, append(all, "set aside")
	}
	return toned(t, strings.Join(all, ", "))
}

// setAside lists the rows of the price table that were set aside as too far from
// the others.
func (p *printer) setAside(a *valuation.Appraisal) {
	g := &grid{columns: []column{{head: "Line", right: true}, {head: "Item", flex: true}, {head: "Day"}, {head: "How"}, {head: "One piece, " + a.Currency, right: true}}}
	add := func(item string, seen []valuation.Sighting) {
		for i := range seen {
			if s := &seen[i]; s.SetAside {
				g.add(words(fmt.Sprint(s.Line)), words(item), words(s.Day.Format("2006-01-02")), words(how(s)), words(figure(&s.Price)))
			}
		}
	}
	for i := range a.Reading.Models {
		add(a.Family+"/"+a.Reading.Models[i].ID, a.Reading.Models[i].Seen)
	}
	for _, n := range likeliest(a.Parts) {
		add(n.ID, n.Seen)
	}
	if len(g.rows) > 0 {
		p.heading("Rows of prices.csv that were set aside, too far from the others")
		p.grid(g)
	}
}
