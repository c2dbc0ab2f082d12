package page

import (
	"fmt"

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
	Estimate string
}

type sighting struct {
	Date, Day string
	Price     string
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
				add(item{Title: name(x.ID + titled(x.Title)), Kind: "a sound one"}, x.Seen, &x.Price)
			}
		}
	}
	models(faint, 2)
	for _, n := range m.needed() {
		add(item{Title: name(titleOr(n.Title, n.ID)), Kind: "part"}, n.Seen, n.Price)
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
	numbers := make([]string, len(seen))
	for i, s := range seen {
		numbers[i] = plain(&s.Price)
	}
	numbers = aligned(numbers)
	for i, s := range seen {
		x.Rows = append(x.Rows, sighting{
			Date: s.Day.Format("2006-01-02"), Day: s.Day.Format("2 Jan 2006"), Price: numbers[i],
			Kind: kind(s), SetAside: s.SetAside, Weight: fmt.Sprintf("%.2f", s.Weight), Line: s.Line,
		})
	}
}

func kind(s valuation.Sighting) string {
	if s.Asked {
		return "asked"
	}
	return "sold"
}
