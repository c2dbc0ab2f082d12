package page

import (
	"cmp"
	"fmt"
	"slices"

	"lotgauge/valuation"
)

// points are what there is to look at, area by area.
type points struct {
	Currency string
	Areas    []area
	Unseen   int
	Of       int
}

type area struct {
	Title  words
	Points []pointRow
}

// A pointRow is one point: whether it was seen, and what is believed of it.
type pointRow struct {
	Title  words
	Seen   string // "seen", "not shown" or "not seen"
	Unseen bool
	Bar    *chart
	States []chance
	Usual  string // how often such a point is sound
	Cost   string
	None   bool // no cost is known
}

// A chance is a state and how likely it is.
type chance struct {
	Name    words
	Percent string
	Most    bool // the likeliest
}

func (m *maker) points() *points {
	if len(m.a.Points) == 0 {
		return nil
	}
	out := &points{Currency: clean(m.a.Currency), Of: len(m.a.Points)}
	costs := make([]string, len(m.a.Points))
	for i, p := range m.a.Points {
		costs[i] = plain(p.ExpectedCost)
	}
	for i := range m.a.Points {
		p := &m.a.Points[i]
		row := m.point(p, costs[i])
		if row.Unseen {
			out.Unseen++
		}
		title := clean(capital(titleOr(p.Area, "elsewhere")))
		at := slices.IndexFunc(out.Areas, func(a area) bool { return a.Title == name(title) })
		if at < 0 {
			at = len(out.Areas)
			out.Areas = append(out.Areas, area{Title: name(title)})
		}
		out.Areas[at].Points = append(out.Areas[at].Points, row)
	}
	return out
}

func (m *maker) point(p *valuation.PointBelief, cost string) pointRow {
	row := pointRow{Title: name(titleOr(p.Title, p.ID)), Cost: cost, None: p.ExpectedCost == nil}
	row.Seen, row.Unseen = m.seen(p)
	if len(p.Usual) > 0 {
		row.Usual = percent(p.Usual[0].Chance)
	}
	row.States = chances(p)
	row.Bar = m.pointBar(p, row)
	return row
}

// seen says whether a point was looked at. Points and findings are told by
// title, as a reader tells them.
func (m *maker) seen(p *valuation.PointBelief) (text string, unseen bool) {
	r := &m.a.Reading
	unseen = slices.Contains(r.Unseen, p.Title)
	for _, f := range r.Findings {
		if f.Title == p.Title && f.By == "hidden" {
			return "not shown", unseen
		}
	}
	if unseen {
		return "not seen", true
	}
	return "seen", false
}

// chances are the states that are possible, the likeliest first, and at the end
// the chance that the model has no such point.
func chances(p *valuation.PointBelief) []chance {
	all := slices.DeleteFunc(slices.Clone(p.States), func(c valuation.Chance) bool { return c.Chance <= 0 })
	slices.SortStableFunc(all, func(x, y valuation.Chance) int { return cmp.Compare(y.Chance, x.Chance) })
	var out []chance
	for i, c := range all {
		out = append(out, chance{Name: name(chanceTitle(c)), Percent: percent(c.Chance), Most: i == 0})
	}
	if none := 1 - p.Applies; none > 1e-9 {
		out = append(out, chance{Name: words{Short: "does not have it"}, Percent: percent(none)})
	}
	return out
}

// pointBar is the states side by side: the sound one solid, the others in
// shades with gaps between; below it a notch where such points usually are.
func (m *maker) pointBar(p *valuation.PointBelief, row pointRow) *chart {
	desc := ""
	for i, c := range row.States {
		if i > 0 {
			desc += ", "
		}
		desc += c.Name.Short + " " + c.Percent
	}
	if row.Usual != "" {
		desc += fmt.Sprintf("; usually sound %s", row.Usual)
	}
	c := m.chart("strip states", "Chances", desc, 16)
	c.rect("rest", 0, 100, 2, 8)
	at := 0.0
	for i, s := range p.States {
		class := "sound"
		if i > 0 {
			class = fmt.Sprintf("fault%d", (i-1)%3+1)
		}
		next := min(at+100*float64(s.Chance), 100)
		if next > at {
			c.rect(class, at, next, 2, 8)
		}
		at = next
	}
	if len(p.Usual) > 0 {
		usual := min(100*float64(p.Usual[0].Chance), 99.7)
		c.line("usual", usual, 0, usual, 15)
	}
	return c
}
