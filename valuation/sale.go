package valuation

import (
	"math"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/money"
)

// sale estimates what a sale brings net of a selling sheet. It is the sheet in
// floats and without rounding, for sums over many draws; what is really paid
// is exact and in package charges. A test holds the two against each other.
//
// Where every charge is a plain rate or amount the net is straight: keep × price
// less a fixed sum. Then expectations over prices are exact.
type sale struct {
	lines    []saleLine
	rate     float64 // home units for one of the sheet
	straight bool
	keep     float64
	less     float64 // home currency
}

type saleLine struct {
	charge    *charges.Charge
	tiers     []saleTier
	amount    float64
	min, max  float64
	allowance float64
	waived    float64
	above     float64
	upTo      float64
}

type saleTier struct{ upTo, rate float64 }

func newSale(s *charges.Sheet, c charges.Conversion) *sale {
	out := &sale{rate: c.Rate.Float(), straight: true}
	for i := range s.Charges {
		line := newSaleLine(&s.Charges[i])
		out.lines = append(out.lines, line)
		out.straight = out.straight && line.isStraight()
	}
	if out.straight {
		at0 := out.walk(0)
		out.keep = out.walk(1) - at0
		out.less = -at0 * out.rate
	}
	return out
}

func newSaleLine(c *charges.Charge) saleLine {
	l := saleLine{
		charge: c,
		min:    orElse(c.Min, math.Inf(-1)), max: orElse(c.Max, math.Inf(1)),
		amount: orElse(c.Amount, 0), allowance: orElse(c.Allowance, 0), waived: orElse(c.WaivedUpTo, math.Inf(-1)),
		above: math.Inf(-1), upTo: math.Inf(1),
	}
	for _, t := range c.Tiers {
		up := math.Inf(1)
		if t.Bounded {
			up = money.Float(t.UpTo)
		}
		l.tiers = append(l.tiers, saleTier{upTo: up, rate: t.Rate.Float()})
	}
	if c.When != nil {
		l.above, l.upTo = orElse(c.When.Above, l.above), orElse(c.When.UpTo, l.upTo)
	}
	return l
}

func orElse(d *decimal.Decimal, def float64) float64 {
	if d == nil {
		return def
	}
	return money.Float(*d)
}

func (l *saleLine) isStraight() bool {
	c := l.charge
	return len(c.Tiers) <= 1 && c.Min == nil && c.Max == nil && c.Allowance == nil && c.WaivedUpTo == nil && c.When == nil
}

// net is what a sale at the gross price brings, home currency both.
func (s *sale) net(gross float64) float64 {
	if s.straight {
		return float64(s.keep*gross) - s.less
	}
	return s.walk(gross/s.rate) * s.rate
}

// walk applies the charges one after the other, in the sheet's currency.
func (s *sale) walk(price float64) float64 {
	var stack [16]float64
	lines := append(stack[:0], price)
	paid := 0.0
	for i := range s.lines {
		l := &s.lines[i]
		v := l.value(lines)
		lines = append(lines, v)
		if !l.charge.Memo {
			paid += v
		}
	}
	return price - paid
}

func (l *saleLine) value(lines []float64) float64 {
	if w := l.charge.When; w != nil {
		if b := pick(lines, w.On); b <= l.above || b > l.upTo {
			return 0
		}
	}
	v := l.amount
	if len(l.tiers) > 0 {
		v = l.tiered(math.Max(0, pick(lines, l.charge.On)-l.allowance))
	}
	v = math.Min(math.Max(v, l.min), l.max)
	if v <= l.waived {
		return 0
	}
	return v
}

func (l *saleLine) tiered(base float64) float64 {
	sum, from := 0.0, 0.0
	for _, t := range l.tiers {
		if l.charge.Whole {
			if base <= t.upTo {
				return base * t.rate
			}
			continue
		}
		if base > from {
			sum += float64((math.Min(base, t.upTo) - from) * t.rate)
		}
		from = t.upTo
	}
	return sum
}

func pick(lines []float64, on []int) float64 {
	sum := 0.0
	for _, i := range on {
		sum += lines[i]
	}
	return sum
}
