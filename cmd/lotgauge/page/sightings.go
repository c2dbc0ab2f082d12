package page

import (
	"fmt"
	"strings"

	"lotgauge/valuation"
)

// sightings are the prices seen that the estimates rest on, item by item.
type sightings struct {
	Currency string
	First    []item
	Rest     []item
	Guides   bool
}

// An item is a model or part, its prices over time and what is estimated now.
type item struct {
	Title    words
	Kind     string // "a sound one" or "part"
	Plot     *chart
	Rows     []sighting
	Counts   string // head of the column of what each counts as
	States   bool   // a row says what state it was in
	Estimate string
}

type sighting struct {
	Date, Day string
	Price     string
	Counts    string // as a sound one, what was asked after its factor
	State     words  // the grade it was in, and what it lacked
	Kind      string // asked or sold
	SetAside  bool
	Weight    string
	Line      int
}

// firstItems is how many items are shown at once.
const firstItems = 9

func (m *maker) sightings() *sightings {
	line := m.timeline()
	out := &sightings{Currency: clean(m.a.Currency)}
	add := func(x item, seen []valuation.Sighting, r *valuation.PriceRange) {
		if len(seen) == 0 {
			return
		}
		m.item(&x, seen, r, line)
		if len(out.First) < firstItems {
			out.First = append(out.First, x)
		} else {
			out.Rest = append(out.Rest, x)
		}
	}
	models := func(from, to valuation.Share) {
		for i := range m.a.Reading.Models {
			if x := &m.a.Reading.Models[i]; x.Chance >= from && x.Chance < to {
				out.Guides = out.Guides || x.Guide
				add(item{Title: name(x.ID + titled(x.Title)), Kind: "a sound one", Counts: "As a sound one"}, x.Seen, &x.Price)
			}
		}
	}
	models(faint, 2)
	for _, n := range m.needed() {
		add(item{Title: name(titleOr(n.Title, n.ID)), Kind: "part", Counts: "Taken as"}, n.Seen, n.Price)
	}
	models(0, faint)
	if len(out.First) == 0 {
		return nil
	}
	return out
}

// timeline spans all sightings up to the day of the appraisal.
func (m *maker) timeline() timeline {
	last := m.a.Reading.On
	first := last
	span := func(all []valuation.Sighting) {
		for _, s := range all {
			if s.Day.Before(first) {
				first = s.Day
			}
			if s.Day.After(last) {
				last = s.Day
			}
		}
	}
	for _, x := range m.a.Reading.Models {
		span(x.Seen)
	}
	for _, n := range m.a.Parts {
		span(n.Seen)
	}
	return newTimeline(first, last, 13, 86)
}

func (m *maker) item(x *item, seen []valuation.Sighting, r *valuation.PriceRange, line timeline) {
	if r != nil {
		x.Estimate = fmt.Sprintf("%s, 8 in 10 between %s and %s", plain(&r.P50), plain(&r.P10), plain(&r.P90))
	}
	x.Plot = m.dots(x, seen, r, line)
	numbers, counting := make([]string, len(seen)), make([]string, len(seen))
	for i, s := range seen {
		comparable := counts(s)
		numbers[i], counting[i] = plain(&s.Price), plain(&comparable)
	}
	numbers, counting = aligned(numbers), aligned(counting)
	for i, s := range seen {
		x.States = x.States || s.Grade != "" || s.Lacking != ""
		x.Rows = append(x.Rows, sighting{
			Date: s.Day.Format("2006-01-02"), Day: s.Day.Format("2 Jan 2006"), Price: numbers[i], Counts: counting[i], State: wasIn(s),
			Kind: kind(s), SetAside: s.SetAside, Weight: fmt.Sprintf("%.2f", s.Weight), Line: s.Line,
		})
	}
}

// counts is what a price counts as; rows that were not brought to anything count
// as they are.
func counts(s valuation.Sighting) valuation.Money {
	if s.Counts.IsZero() {
		return s.Price
	}
	return s.Counts
}

// wasIn is the state that a model was in, as far as its row says.
func wasIn(s valuation.Sighting) words {
	var all []string
	if s.Grade != "" {
		all = append(all, s.Grade)
	}
	for _, state := range strings.Fields(s.Lacking) {
		all = append(all, strings.Replace(state, ":", " ", 1))
	}
	return name(strings.Join(all, ", "))
}

func kind(s valuation.Sighting) string {
	if s.Asked {
		return "asked"
	}
	return "sold"
}
