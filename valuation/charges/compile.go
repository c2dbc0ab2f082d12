package charges

import (
	"math"
	"math/big"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// compile brings a sheet to integers. It is false where a figure on the sheet
// does not fit into 64 bits, or is below 0, which no sheet read from a file has.
//
// The unit is that of [Sheet.grid], so every amount, bound and step is a whole
// number. The rates of a charge are brought to one denominator, so they are too.
func compile(b *biller) (*program, bool) {
	c := compiler{scale: -b.sheet.grid().Exponent(), ok: true}
	p := &program{exact: b, limit: c.units(b.limit), lines: make([]uint64, 0, len(b.sheet.Charges)+1)}
	for _, st := range b.bids {
		p.bids = append(p.bids, span{c.units(st.first), c.units(st.step), st.start})
	}
	for _, d := range b.drops {
		p.drops = append(p.drops, c.units(d.bound))
	}
	p.steps = make([]step, len(b.sheet.Charges))
	unit := b.sheet.Currency.Unit()
	for i := range b.sheet.Charges {
		c.charge(&p.steps[i], &b.sheet.Charges[i], unit)
	}
	return p, c.ok
}

// A compiler turns amounts into units of 10^-scale. Where one does not fit, it
// goes on with another number and is not ok.
type compiler struct {
	scale int32
	ok    bool
}

// units is d in units.
func (c *compiler) units(d decimal.Decimal) uint64 {
	if units, ok := money.Units(d, c.scale); ok && units >= 0 {
		return uint64(units)
	}
	return c.uint64(d.Shift(c.scale).BigInt())
}

// orElse is the amount in units, or what stands for none.
func (c *compiler) orElse(d *decimal.Decimal, none uint64) uint64 {
	if d == nil {
		return none
	}
	return c.units(*d)
}

// uint64 is x, or some number and not ok.
func (c *compiler) uint64(x *big.Int) uint64 {
	c.ok = c.ok && x.IsUint64()
	return x.Uint64()
}

// charge compiles one charge. What it does not have gets a value with which it
// makes no difference, so that the program need not ask.
func (c *compiler) charge(out *step, in *Charge, unit decimal.Decimal) {
	to := in.step(unit)
	*out = step{
		on: in.On, allowance: c.orElse(in.Allowance, 0), whole: in.Whole,
		rounding: in.Rounding, to: c.units(to),
		min: c.orElse(in.Min, 0), max: c.orElse(in.Max, math.MaxUint64), waived: c.orElse(in.WaivedUpTo, 0),
		upTo: math.MaxUint64, memo: in.Memo,
	}
	if w := in.When; w != nil {
		out.whenOn, out.upTo = w.On, c.orElse(w.UpTo, math.MaxUint64)
		if w.Above != nil { // strictly above is from one unit more
			out.from = c.uint64(new(big.Int).Add(w.Above.Shift(c.scale).BigInt(), big.NewInt(1)))
		}
	}
	if in.Amount != nil { // a rate of nothing, held to the amount
		amount := c.units(in.Rounding.RoundDecimal(*in.Amount, to))
		amount = min(max(amount, out.min), out.max)
		out.min, out.max, out.divisor = amount, amount, out.to
		return
	}
	c.tiers(out, in.Tiers)
}

// tiers compiles the tiers of a charge.
func (c *compiler) tiers(out *step, tiers []Tier) {
	out.tiers = make([]band, len(tiers))
	for i, t := range tiers {
		out.tiers[i].upTo = math.MaxUint64
		if t.Bounded {
			out.tiers[i].upTo = c.units(t.UpTo)
		}
	}
	if !out.smallRates(tiers) {
		c.rates(out, tiers)
	}
}
