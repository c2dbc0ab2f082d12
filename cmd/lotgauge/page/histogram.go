package page

import (
	"cmp"
	"math"
	"slices"

	"lotgauge/valuation"
)

// A pin is a landed cost drawn into the histogram.
type pin struct {
	label, class string
	value, at    float64
}

// The histogram's measures, in pixels.
const (
	pinRow   = 17 // a label and its space
	barsHigh = 132
	axisHigh = 20
)

// histogram draws how the worth is spread, with the landed costs pinned in.
func (m *maker) histogram(bins []valuation.Bin, w *worth) *chart {
	pins := m.pins()
	across := spreadScale(bins, pins)
	top := float64(pinRow*len(pins) + 4)
	base := top + barsHigh
	c := m.chart("histogram", "How the worth is spread",
		"In 80 of 100 cases it is worth between "+w.P10+" and "+w.P90+". "+m.shading(), int(base)+axisHigh)
	m.bars(c, bins, across, top, base)
	c.line("base", 0, base, 100, base)
	for _, t := range axisTicks(across.lo, across.hi) {
		c.line("tick", across.at(t), base, across.at(t), base+4)
		c.text("axis", across.at(t), base+16, tickLabel(t))
	}
	placePins(c, pins, across, base)
	return c
}

// pins are the landed costs that are known.
func (m *maker) pins() []pin {
	p := &m.a.Purchase
	var out []pin
	for _, x := range []struct {
		label, class string
		landed       *valuation.Money
	}{
		{"stop", "stop", p.BreakEvenLanded},
		{"careful", "careful", p.CarefulLanded},
		{"asked", "ask", p.Landed},
	} {
		if x.landed != nil {
			out = append(out, pin{label: x.label + " " + plain(x.landed), class: x.class, value: float(*x.landed)})
		}
	}
	return out
}

// spreadScale spans the bars, and the pins that are not much farther out.
func spreadScale(bins []valuation.Bin, pins []pin) scale {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, b := range bins {
		lo, hi = min(lo, b.From), max(hi, b.To)
	}
	reach := 0.6 * (hi - lo)
	if reach == 0 {
		reach = max(1, 0.25*math.Abs(hi))
		lo, hi = lo-reach, hi+reach
	}
	low, high := lo, hi
	for _, p := range pins {
		if p.value >= lo-reach && p.value <= hi+reach {
			low, high = min(low, p.value), max(high, p.value)
		}
	}
	return scale{low, high, 1, 99}
}

// bars draws a bar a bin, as high as it is dense. What lies below the cost is
// hollow.
func (m *maker) bars(c *chart, bins []valuation.Bin, across scale, top, base float64) {
	dense := func(b valuation.Bin) float64 {
		if b.To > b.From {
			return b.Share / (b.To - b.From)
		}
		return b.Share
	}
	most := 0.0
	for _, b := range bins {
		most = max(most, dense(b))
	}
	up := scale{0, most, 0, base - top}
	cost := m.cost()
	for _, b := range bins {
		high := up.at(dense(b))
		if most == 0 || high == 0 {
			continue
		}
		if b.To <= b.From {
			c.line("single", across.at(b.From), base-high, across.at(b.From), base)
			continue
		}
		edge := min(max(cost, b.From), b.To)
		if edge > b.From {
			c.rect("lost", across.at(b.From), across.at(edge), base-high, high)
		}
		if edge < b.To {
			c.rect("kept", across.at(edge), across.at(b.To), base-high, high)
		}
	}
}

// cost is what the worth is held against: the landed ask, else the landed
// highest bid, else nothing.
func (m *maker) cost() float64 {
	p := &m.a.Purchase
	switch {
	case p.Landed != nil:
		return float(*p.Landed)
	case p.BreakEvenLanded != nil:
		return float(*p.BreakEvenLanded)
	}
	return math.Inf(-1)
}

// placePins gives each pin a row of its own above the bars, so that no two
// labels meet at any width. Those that read to the right come from the left
// edge downwards, those that read to the left from the right edge: a line down
// then passes no label but across the middle.
func placePins(c *chart, pins []pin, across scale, base float64) {
	for i := range pins {
		pins[i].at = across.at(pins[i].value)
		switch {
		case pins[i].value < across.lo:
			pins[i].label = "← " + pins[i].label
		case pins[i].value > across.hi:
			pins[i].label += " →"
		}
	}
	slices.SortStableFunc(pins, func(a, b pin) int {
		fromEdge := func(p pin) float64 { return min(p.at, 100-p.at) }
		return cmp.Compare(fromEdge(a), fromEdge(b))
	})
	for i, p := range pins {
		c.line("pin "+p.class, p.at, float64(pinRow*i)+3, p.at, base)
	}
	for i, p := range pins {
		c.beside("label "+p.class, p.at, float64(pinRow*i)+13, p.label)
	}
}
