package page

import (
	"fmt"

	"lotgauge/valuation"
)

// The dot plot's measures.
const (
	dotsTop  = 14
	dotsBase = 78
	dotsHigh = 94
	nowAt    = 94.0 // percent: where the estimate stands
)

// dots draws the prices over time, and right of them the estimate's range. A
// price set aside may lie above the plot: it is held at its edge.
func (m *maker) dots(x *item, seen []valuation.Sighting, r *valuation.PriceRange, line timeline) *chart {
	up := scale{0, priceTop(seen, r), dotsBase, dotsTop}
	c := m.chart("dots", x.Title.Short+", "+x.Kind+": prices seen",
		fmt.Sprintf("%s. Estimate: %s.", counted(len(seen), "price", "prices"), titleOr(x.Estimate, noFigure)), dotsHigh)
	for _, t := range ticks(0, up.hi, 3) {
		y := up.at(t)
		class := "grid"
		if t == 0 {
			class = "base"
		}
		c.line(class, 0, y, 100, y)
		if t > 0 {
			c.text("axis", 0, y-3, tickLabel(t))
		}
	}
	for _, t := range line.ticks(4) {
		c.line("tick", t.at, dotsBase, t.at, dotsBase+3)
		c.text("axis", t.at, dotsHigh-3, t.label)
	}
	for _, s := range seen {
		dot(c, s, line.place(s.Day), up.at(float(counts(s))))
	}
	if r != nil {
		c.rect("range", nowAt-1.5, nowAt+1.5, up.at(float(r.P90)), up.at(float(r.P10))-up.at(float(r.P90)))
		y := up.at(float(r.P50))
		c.line("middle", nowAt-3.5, y, nowAt+3.5, y)
	}
	return c
}

// priceTop is the highest price of the plot.
func priceTop(seen []valuation.Sighting, r *valuation.PriceRange) float64 {
	top, all := 0.0, 0.0
	for _, s := range seen {
		all = max(all, float(counts(s)))
		if !s.SetAside {
			top = max(top, float(counts(s)))
		}
	}
	if r != nil {
		top = max(top, float(r.P90))
	}
	if top == 0 {
		return max(all, 1)
	}
	return top * 1.05
}

// dot marks one price: sold a disc, asked a ring, set aside a cross.
func dot(c *chart, s valuation.Sighting, x, y float64) {
	switch {
	case s.SetAside:
		c.cross("aside", x, y)
	case s.Asked:
		c.dot("asked", x, y, 3)
	default:
		c.dot("sold", x, y, 3.5)
	}
}
