package table

import (
	"cmp"
	"fmt"
	"slices"

	"lotgauge/valuation"
)

// mostModels is how many variants' prices are shown.
const mostModels = 6

// models shows what a sound one brings and what that is known from.
func (p *printer) models(a *valuation.Appraisal) {
	models := slices.DeleteFunc(slices.Clone(a.Reading.Models), func(m valuation.Model) bool { return m.Chance < negligible })
	if len(models) == 0 {
		return
	}
	p.heading("What a sound one brings, " + a.Currency)
	g := &grid{columns: []column{
		{head: "Catalogue number", flex: true}, {head: "Likely", right: true}, {head: "Price", right: true},
		{head: "10% to 90%", right: true}, {head: "From", flex: true},
	}}
	for _, m := range models[:min(mostModels, len(models))] {
		g.add(words(m.ID+bracketed(m.Title)), words(percent(m.Chance)), words(figure(&m.Price.Mean)),
			words(interval(&m.Price)), words(source(&m)))
	}
	p.grid(g)
}

// source says what the price of a sound one is known from.
func source(m *valuation.Model) string {
	text := counted(len(m.Seen), "price")
	if m.Guide {
		text += ", a guide"
	}
	if m.SetAside > 0 {
		text += fmt.Sprintf(", %d set aside", m.SetAside)
	}
	return text
}

// interval is the 10% and the 90% point of a price.
func interval(r *valuation.PriceRange) string { return figure(&r.P10) + " - " + figure(&r.P90) }

// mostParts is how many parts are shown.
const mostParts = 12

// parts shows what may have to be bought, likeliest first.
func (p *printer) parts(a *valuation.Appraisal) {
	parts := slices.DeleteFunc(slices.Clone(a.Parts), func(n valuation.PartNeed) bool { return n.Needed <= 0 })
	if len(parts) == 0 {
		return
	}
	slices.SortStableFunc(parts, func(x, y valuation.PartNeed) int { return cmp.Compare(y.Chance, x.Chance) })
	p.heading("Parts that may have to be bought, postage in, " + a.Currency + " each")
	g := &grid{columns: []column{
		{head: "Part", flex: true}, {head: "Needed", right: true}, {head: "Pieces", right: true},
		{head: "Price", right: true}, {head: "10% to 90%", right: true}, {head: "Seen", right: true}, {head: "Found\nin time", right: true},
	}}
	for _, n := range parts[:min(mostParts, len(parts))] {
		price, spread := "no price", ""
		if n.Price != nil {
			price, spread = figure(&n.Price.Mean), interval(n.Price)
		}
		g.add(words(n.Title), words(percent(valuation.Share(n.Chance))), words(pieces(n.Needed)),
			words(price), words(spread), words(fmt.Sprint(n.Sightings)), words(percent(n.FindChance)))
		g.note(scarcity(&n))
		if n.SetAside > 0 {
			g.note(counted(n.SetAside, "price") + " set aside, far out of line")
		}
	}
	p.grid(g)
	if more := len(parts) - mostParts; more > 0 {
		p.note(plain, "And "+counted(more, "part")+" less likely to be needed.")
	}
	p.note(plain, capital(in100(a.AllPartsFound))+" cases all that is needed can be found in time.")
	if a.RepairShare != nil {
		p.note(plain, "On average, putting everything right costs "+percent(*a.RepairShare)+" of what it brings restored.")
	}
}

// scarcity says that a part is hard to get, and what it costs against the
// cheapest of its kind.
func scarcity(n *valuation.PartNeed) string {
	text := ""
	if n.Scarce {
		text = "scarce"
	}
	if n.Ratio != nil && *n.Ratio > 1 && n.Cheapest != "" {
		if text != "" {
			text += ", "
		}
		text += fmt.Sprintf("%.1f times the price of %s", float64(*n.Ratio), n.Cheapest)
	}
	return text
}

// routes shows what the ways out bring.
func (p *printer) routes(a *valuation.Appraisal) {
	if len(a.Routes) == 0 {
		return
	}
	p.heading("Ways out, and what each brings after all costs but the purchase, " + a.Currency)
	g := &grid{columns: []column{
		{head: "Way out", flex: true}, {head: "On\naverage", right: true}, {head: "1 in 10\nbelow", right: true},
		{head: "1 in 10\nabove", right: true}, {head: "Stop\nat " + a.Purchase.Currency, right: true}, {head: "Best\nin", right: true},
	}}
	for _, r := range a.Routes {
		best := "-"
		if r.Chosen != nil {
			best = percent(*r.Chosen)
		}
		g.add(words(routeName(r.ID)), words(figure(r.Mean)), words(figure(r.P10)), words(figure(r.P90)),
			words(figure(r.BreakEven)), words(best))
		if len(r.Missing) > 0 {
			g.note("no price for " + listed(r.Missing))
		}
	}
	p.grid(g)
}
