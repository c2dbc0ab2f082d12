package charges

import (
	"math/bits"

	"lotgauge/valuation/money"
)

// A program is a sheet in integers: the evaluator of the inverse, which needs
// some hundred bills for one answer. Amounts are whole numbers of a unit of
// which everything on the sheet is a multiple. Products have 128 bits, so
// nothing is rounded but where the sheet says so; where a figure does not fit
// all the same, the bill of that bid is left to decimals.
type program struct {
	exact *biller
	bids  []span
	drops []uint64 // bounds
	steps []step
	limit uint64
	lines []uint64 // of the bid last looked at
}

// A span is a stretch of the ladder.
type span struct {
	first, step uint64
	start       int64
}

// A step is a charge. What it does not have is set so that it makes no
// difference: a waiver up to 0, a max beyond all.
type step struct {
	whenOn     []int
	from, upTo uint64 // the bounds of a when, both included

	on        []int
	allowance uint64
	tiers     []band
	whole     bool

	divisor  uint64 // of the rates, × to
	to       uint64 // what the line is rounded to
	rounding money.Rounding

	min, max, waived uint64
	memo             bool
}

// A band is a tier; the rate is to be divided by the divisor of the step.
type band struct{ upTo, rate uint64 }

// above is as [evaluator] has it.
func (p *program) above(rung int64, i int) bool {
	d := p.exact.drops[i]
	if !p.run(rung, d.charge) {
		return p.exact.above(rung, i)
	}
	base, ok := add(p.lines, d.on)
	if !ok {
		return p.exact.above(rung, i)
	}
	return base > p.drops[i]
}

// fits is as [evaluator] has it.
func (p *program) fits(rung int64, n int) bool {
	if !p.run(rung, n) {
		return p.exact.fits(rung, n)
	}
	total, carry := p.lines[0], uint64(0)
	for i, amount := range p.lines[1:] {
		if p.steps[i].memo {
			continue
		}
		if total, carry = bits.Add64(total, amount, 0); carry != 0 {
			return p.exact.fits(rung, n)
		}
	}
	return total <= p.limit
}

// run sets lines to the first line and the first n charges. It is false where
// a figure is too large. The lines of n are a start of those of more, so a
// search that needs only the base of an early charge does not pay for the rest.
func (p *program) run(rung int64, n int) bool {
	bid, ok := p.bid(rung)
	p.lines = append(p.lines[:0], bid)
	for i := 0; ok && i < n; i++ {
		var amount uint64
		amount, ok = p.steps[i].amount(p.lines)
		p.lines = append(p.lines, amount)
	}
	return ok
}

// bid is the bid of a number. It is false where it is too large.
func (p *program) bid(rung int64) (uint64, bool) {
	sp := p.bids[p.exact.bids.find(rung)]
	high, low := bits.Mul64(sp.step, uint64(rung-sp.start))
	bid, carry := bits.Add64(sp.first, low, 0)
	return bid, high == 0 && carry == 0
}

// amount is the line of the charge after those before it, in the same order as
// [Charge.amount]: condition, base less allowance, rates, rounding, bounds,
// waiver. It is false where a figure is too large.
func (c *step) amount(lines []uint64) (uint64, bool) {
	condition, ok := add(lines, c.whenOn)
	if !ok || condition < c.from || condition > c.upTo {
		return 0, ok
	}
	base, ok := add(lines, c.on)
	if !ok {
		return 0, false
	}
	high, low := c.exact(base - min(base, c.allowance))
	if high >= c.divisor {
		return 0, false
	}
	quotient, carry := c.round(bits.Div64(high, low, c.divisor))
	high, amount := bits.Mul64(quotient, c.to)
	amount = min(max(amount, c.min), c.max)
	if amount <= c.waived {
		amount = 0
	}
	return amount, high == 0 && carry == 0
}

// exact is the charge on base before rounding, to be divided by the divisor. As
// the parts of a base do not sum to more than it, 128 bits always do.
func (c *step) exact(base uint64) (high, low uint64) {
	from, carry := uint64(0), uint64(0)
	for _, t := range c.tiers {
		part := min(base, t.upTo) - from
		if c.whole {
			if part = base; base > t.upTo {
				continue
			}
		}
		h, l := bits.Mul64(part, t.rate)
		low, carry = bits.Add64(low, l, 0)
		high, _ = bits.Add64(high, h, carry)
		if base <= t.upTo {
			break
		}
		from = t.upTo
	}
	return high, low
}

// round rounds a quotient that was cut off, by what was left of the divisor.
// The rest is compared with what it lacks to the divisor, as twice the rest
// might not fit.
func (c *step) round(quotient, rest uint64) (rounded, carry uint64) {
	short := c.divisor - rest // of the next whole number
	switch {
	case c.rounding == money.HalfUp && rest >= short,
		c.rounding == money.HalfEven && (rest > short || rest == short && quotient%2 == 1):
		return bits.Add64(quotient, 1, 0)
	}
	return quotient, 0
}

// add sums the lines named. It is false where the sum is too large.
func add(lines []uint64, on []int) (total uint64, ok bool) {
	var carry uint64
	for _, i := range on {
		if total, carry = bits.Add64(total, lines[i], 0); carry != 0 {
			return 0, false
		}
	}
	return total, true
}
