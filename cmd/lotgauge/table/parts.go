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
		{head: "In 80 of 100 cases", right: true}, {head: "From", flex: true},
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
func interval(r *valuation.PriceRange) string { return figure(&r.P10) + " to " + figure(&r.P90) }

// In short, the parts that are shown.
const (
	fewParts    = 6
	likelyParts = 0.1 // chance from which one is worth a line
)

// parts shows what may have to be bought, likeliest first.
func (p *printer) parts(a *valuation.Appraisal) {
	parts := likeliest(a.Parts)
	if len(parts) == 0 {
		return
	}
	shown := len(parts)
	if i := slices.IndexFunc(parts, func(n valuation.PartNeed) bool { return n.Chance < likelyParts }); i > 0 {
		shown = p.most(min(i, fewParts), shown)
	} else {
		shown = p.most(fewParts, shown)
	}
	p.heading("Parts that may have to be bought, postage in, " + a.Currency + " each")
	p.grid(p.partGrid(parts[:shown]))
	if more := len(parts) - shown; more > 0 {
		p.note(plain, "And "+counted(more, "more part")+", none of them likelier to be needed.")
	}
	text := capital(in100(a.AllPartsFound)) + " cases all that is needed can be found in time."
	if a.RepairShare != nil {
		text += " Putting everything right costs " + percent(*a.RepairShare) + " of what it brings restored, on average."
	}
	p.note(plain, text)
}

// likeliest are the parts that may be needed, the likeliest first.
func likeliest(parts []valuation.PartNeed) []valuation.PartNeed {
	parts = slices.DeleteFunc(slices.Clone(parts), func(n valuation.PartNeed) bool { return n.Needed <= 0 })
	slices.SortStableFunc(parts, func(x, y valuation.PartNeed) int { return cmp.Compare(y.Chance, x.Chance) })
	return parts
}

func (p *printer) partGrid(parts []valuation.PartNeed) *grid {
	g := &grid{columns: []column{
		{head: "Part", flex: true}, {head: "Needed", right: true}, {head: "Price", right: true},
		{head: "In 80 of 100 cases", right: true, spare: 3}, {head: "Found\nin time", right: true, spare: 1},
		{head: "Times\nseen", right: true, spare: 2}, {head: "Pieces", right: true},
	}}
	for _, n := range parts {
		price, spread := "no price", ""
		if n.Price != nil {
			price, spread = figure(&n.Price.Mean), interval(n.Price)
		}
		id := ""
		if p.full {
			id = idNote(n.ID, n.Title)
		}
		g.add(words(n.Title, id), words(percent(valuation.Share(n.Chance))), words(price), words(spread),
			words(percent(n.FindChance)), words(fmt.Sprint(n.Sightings)), words(pieces(n.Needed)))
		g.note(scarcity(&n))
		if n.SetAside > 0 && p.full {
			g.note(counted(n.SetAside, "price") + " set aside, far out of line")
		}
	}
	if !p.full {
		return g.without(len(g.columns) - 1)
	}
	return g
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
	p.heading("What to do with it, and what that brings after all costs but the purchase, " + a.Currency)
	g := &grid{columns: []column{
		{flex: true}, {head: "On\naverage", right: true}, {head: "1 in 10\nbelow", right: true, spare: 2},
		{head: "1 in 10\nabove", right: true, spare: 3}, {head: "Stop\nat " + a.Purchase.Currency, right: true}, {head: "Best\nin", right: true, spare: 1},
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
	p.note(faint, supposed)
}

// supposed is what the bid at which to stop takes for granted.
const supposed = "The stop supposes that you choose among these after having seen the model."
