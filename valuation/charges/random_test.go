package charges

import (
	"fmt"
	"math/rand/v2"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// A maker makes random sheets that hold every kind of charge, with bounds and
// amounts that lie where the bids are. The seed is fixed, so that a failure
// names a sheet that comes again.
type maker struct {
	*rand.Rand
	scale int64 // amounts go up to about this many minor units
}

func newMaker(seed uint64, scale int64) *maker {
	return &maker{rand.New(rand.NewPCG(seed, 2)), scale}
}

// sheet is a random buying sheet of up to n charges.
func (m *maker) sheet(n int) *Sheet {
	s := &Sheet{Side: Buy, Currency: pick[money.Currency](m, "GBP", "JPY", "KWD"), Rounding: m.rounding()}
	s.Margin = money.NewRatio(decimal.NewFromInt(m.Int64N(40)), decimal.NewFromInt(1000))
	for i := range m.IntN(n + 1) {
		s.Charges = append(s.Charges, m.charge(s, i))
	}
	return s
}

// ladder gives the sheet increments: stretches with uneven steps, also longer
// than the stretch.
func (m *maker) ladder(s *Sheet) {
	from := decimal.Decimal{}
	for range 1 + m.IntN(4) {
		step := m.units(s, 1+m.scale/20)
		s.Increment = append(s.Increment, Rung{From: from, Step: step})
		from = from.Add(m.units(s, m.scale/4))
	}
}

func (m *maker) rounding() money.Rounding { return pick(m, money.HalfUp, money.HalfEven, money.Down) }

// units is a random amount from one minor unit upwards.
func (m *maker) units(s *Sheet, most int64) decimal.Decimal {
	return s.Currency.Unit().Mul(decimal.NewFromInt(1 + m.Int64N(max(most, 1))))
}

// maybe is an amount in one of n cases.
func (m *maker) maybe(n int, s *Sheet, most int64) *decimal.Decimal {
	if m.IntN(n) > 0 {
		return nil
	}
	d := m.units(s, most)
	return &d
}

// on is a random choice of the lines before charge i.
func (m *maker) on(i int) []int {
	on := []int{m.IntN(i + 1)}
	for line := range i + 1 {
		if line != on[0] && m.IntN(3) == 0 {
			on = append(on, line)
		}
	}
	return on
}

func (m *maker) rate() money.Ratio {
	top := decimal.NewFromInt(m.Int64N(50))
	if m.IntN(3) == 0 {
		return money.NewRatio(top, decimal.NewFromInt(1+m.Int64N(150)))
	}
	return money.WholeRatio(top.Shift(-2))
}

func (m *maker) charge(s *Sheet, i int) Charge {
	c := Charge{ID: fmt.Sprintf("c%d", i+1), Rounding: m.rounding(), RoundTo: s.Currency.Unit(), Memo: m.IntN(6) == 0}
	switch m.IntN(10) {
	case 0, 1:
		c.RoundTo = m.units(s, m.scale/20)
	case 2: // finer than the minor unit
		c.RoundTo = m.units(s, 9).Shift(-1)
	}
	if m.IntN(3) == 0 {
		c.When = &When{On: m.on(i), Above: m.maybe(2, s, m.scale/2)}
		if c.When.UpTo = m.maybe(2, s, m.scale); c.When.UpTo != nil && c.When.Above != nil {
			*c.When.UpTo = c.When.UpTo.Add(*c.When.Above)
		}
	}
	if m.IntN(6) == 0 {
		c.Amount = m.maybe(1, s, m.scale/10)
		return c
	}
	c.On = m.on(i)
	c.Min, c.Max = m.maybe(4, s, m.scale/20), m.maybe(4, s, m.scale/4)
	if c.Min != nil && c.Max != nil {
		*c.Max = c.Max.Add(*c.Min)
	}
	c.Allowance, c.WaivedUpTo = m.maybe(5, s, m.scale/3), m.maybe(5, s, m.scale/20)
	c.Whole = m.IntN(2) == 0
	c.Tiers = m.tiers(s)
	return c
}

func (m *maker) tiers(s *Sheet) []Tier {
	var tiers []Tier
	bound := decimal.Decimal{}
	for range m.IntN(4) {
		bound = bound.Add(m.units(s, m.scale/3))
		tiers = append(tiers, Tier{UpTo: bound, Bounded: true, Rate: m.rate()})
	}
	return append(tiers, Tier{Rate: m.rate()})
}

// conversion is a random rate into a home currency, or none.
func (m *maker) conversion(s *Sheet) Conversion {
	if m.IntN(3) == 0 {
		return Conversion{Home: s.Currency}
	}
	rate := money.NewRatio(decimal.NewFromInt(1+m.Int64N(3000)), decimal.NewFromInt(1+m.Int64N(1500)))
	return Conversion{Rate: rate, Home: pick[money.Currency](m, "EUR", "ISK")}
}

func pick[T any](m *maker, options ...T) T { return options[m.IntN(len(options))] }
