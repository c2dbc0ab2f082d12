package table

import (
	"strings"

	"lotgauge/valuation"
)

// missing lists the prices that are missing and how to mend each.
func (p *printer) missing(a *valuation.Appraisal) {
	if len(a.Reading.Missing) == 0 {
		return
	}
	p.heading("Prices that are missing")
	for _, m := range a.Reading.Missing {
		text := m.Title + " (" + m.ID + ")"
		if len(m.Routes) > 0 {
			text += ", without which nobody can say what this brings: " + either(each(m.Routes, routeName))
		}
		p.item(bad, text)
		if m.Row != "" {
			p.para(plain, margin+margin, margin+margin, "prices.csv, a row: "+m.Row)
		}
		if m.Key != "" {
			p.para(plain, margin+margin, margin+margin, "or in the family's file: "+m.Key)
		}
	}
}

// each is what f makes of each.
func each[T any](in []T, f func(T) string) []string {
	out := make([]string, len(in))
	for i, s := range in {
		out[i] = f(s)
	}
	return out
}

// steps shows how the bid comes about, as a column that adds up.
func (p *printer) steps(a *valuation.Appraisal) {
	steps := a.Reading.Steps
	if len(steps) == 0 {
		return
	}
	p.heading("How the figure comes about")
	amounts := make([]string, len(steps))
	for i, s := range steps {
		currency := a.Currency
		if s.Currency != "" {
			currency = s.Currency
		}
		amounts[i] = amount(&s.Amount, currency)
	}
	amounts = aligned(amounts)
	g := &grid{columns: []column{{flex: true}, {right: true}}}
	for i, s := range steps {
		t := plain
		if s.Sum {
			t = strong
			if s.Currency == "" || s.Currency == a.Currency {
				g.add(words(), toned(faint, rule(amounts)))
			}
		}
		g.add(toned(t, s.Title), toned(t, amounts[i]))
	}
	p.grid(g)
}

// rule is a line as long as the longest of the texts.
func rule(texts []string) string {
	most := 0
	for _, s := range texts {
		most = max(most, width(s))
	}
	return strings.Repeat("-", most)
}

// bill shows what the ask costs in the end, line by line.
func (p *printer) bill(a *valuation.Appraisal) {
	b := &a.Purchase
	if b.Ask == nil || b.Total == nil {
		return
	}
	p.heading("What " + tied(amount(b.Ask, b.Currency)) + " asked comes to in all" + bracketed(b.SheetTitle))
	var titles, amounts []string
	add := func(title, amount string) { titles, amounts = append(titles, title), append(amounts, amount) }
	for _, line := range b.Lines {
		title := line.Title
		if line.Memo {
			title += " (only reckoned with, not paid)"
		}
		add(title, amount(&line.Amount, b.Currency))
	}
	add("to pay", amount(b.Total, b.Currency))
	if b.Landed != nil && (b.Currency != a.Currency || !b.Landed.Equal(b.Total.Decimal)) {
		add("in all, in your currency", amount(b.Landed, a.Currency))
	}
	amounts = aligned(amounts)
	g := &grid{columns: []column{{flex: true}, {right: true}}}
	for i := range titles {
		t := plain
		if i >= len(b.Lines) {
			t = strong
		}
		if i == len(b.Lines) {
			g.add(words(), toned(faint, rule(amounts)))
		}
		g.add(toned(t, titles[i]), toned(t, amounts[i]))
	}
	p.grid(g)
}
