package page

import (
	"cmp"
	"fmt"
	"slices"

	"lotgauge/valuation"
)

// parts are what may have to be bought, the likeliest first.
type parts struct {
	Currency string
	Axis     *chart
	First    []part
	Rest     []part
}

type part struct {
	Title           words
	Note            words // scarce, or dearer than others of its kind
	Needed, Pieces  string
	Mean, Low, High string
	Seen, Aside     string // times seen, and how many prices were set aside
	Found           string
	Scarce          bool
	Priced          bool
	Bar             *chart
}

// firstParts is how many parts are shown at once.
const firstParts = 12

func (m *maker) parts() *parts {
	all := m.needed()
	if len(all) == 0 {
		return nil
	}
	out := &parts{Currency: clean(m.a.Currency)}
	across := partScale(all)
	for i := range all {
		p := m.part(&all[i], across)
		if i < firstParts {
			out.First = append(out.First, p)
		} else {
			out.Rest = append(out.Rest, p)
		}
	}
	if across.hi > across.lo {
		out.Axis = m.axis("What the parts cost, scale", across)
	}
	return out
}

// needed are the parts that may be needed, the likeliest first.
func (m *maker) needed() []valuation.PartNeed {
	all := slices.DeleteFunc(slices.Clone(m.a.Parts), func(n valuation.PartNeed) bool { return n.Needed <= 0 })
	slices.SortStableFunc(all, func(x, y valuation.PartNeed) int { return cmp.Compare(y.Chance, x.Chance) })
	return all
}

func partScale(all []valuation.PartNeed) scale {
	s := scale{0, 0, 0, 98}
	for _, n := range all {
		if n.Price != nil {
			s.hi = max(s.hi, float(n.Price.P90))
		}
	}
	return s
}

func (m *maker) part(n *valuation.PartNeed, across scale) part {
	p := part{
		Title: name(titleOr(n.Title, n.ID)), Note: partNote(n), Scarce: n.Scarce,
		Needed: percent(valuation.Share(n.Chance)), Pieces: pieces(n.Needed),
		Seen: grouped(fmt.Sprint(n.Sightings)), Found: percent(n.FindChance),
		Mean: "no price", Low: "no price", High: "no price",
	}
	if n.SetAside > 0 {
		p.Aside = fmt.Sprintf("%d set aside", n.SetAside)
	}
	if n.Price == nil {
		return p
	}
	p.Priced = true
	p.Mean, p.Low, p.High = plain(&n.Price.Mean), plain(&n.Price.P10), plain(&n.Price.P90)
	p.Bar = m.chart("strip", "Price "+plain(&n.Price.P50),
		fmt.Sprintf("In 80 of 100 cases between %s and %s.", p.Low, p.High), 14)
	p.Bar.line("ground", 0, 0, 0, 14)
	p.Bar.rect("span", across.at(float(n.Price.P10)), across.at(float(n.Price.P90)), 5, 5)
	middle := across.at(float(n.Price.P50))
	p.Bar.line("middle", middle, 1, middle, 14)
	return p
}

// partNote says that a part is hard to get, and what it costs against the
// cheapest of its kind.
func partNote(n *valuation.PartNeed) words {
	if n.Ratio == nil || *n.Ratio <= 1 || n.Cheapest == "" {
		return words{}
	}
	return sentence(fmt.Sprintf("%.1f times the price of %s", float64(*n.Ratio), n.Cheapest))
}

// pieces is an expected number of pieces.
func pieces(s valuation.Share) string {
	if s > 0 && s < 0.005 {
		return "<0.01"
	}
	return fmt.Sprintf("%.2f", float64(s))
}
