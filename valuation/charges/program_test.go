package charges

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
)

// The two evaluators agree, on amounts that fit 64 bits and on such that do
// not, so that the inverse may take either.
func TestProgramAgreesWithBills(t *testing.T) {
	tests := []struct {
		scale    int64
		compiled int  // of 500 sheets at least
		beyond   bool // some bills of compiled sheets do not fit
	}{
		{300, 500, false},
		{1_000_000, 500, false},
		{2e18, 50, true},
	}
	for _, test := range tests {
		m := newMaker(uint64(test.scale), test.scale)
		compiled, beyond := 0, 0
		for n := range 500 {
			s := m.sheet(8)
			limit := m.units(s, 4*test.scale)
			b := &biller{s, s.ladder(limit), s.drops(), limit}
			p, ok := compile(b)
			if !ok {
				continue
			}
			compiled++
			for range 20 {
				if !agree(t, n, p, m.Int64N(b.bids.len())) {
					beyond++
				}
			}
		}
		if compiled < test.compiled || beyond > 0 != test.beyond {
			t.Errorf("scale %d: %d sheets compiled, %d bills do not fit", test.scale, compiled, beyond)
		}
	}
}

// agree compares the two at a bid; it is false where the bill is left to decimals.
func agree(t *testing.T, n int, p *program, rung int64) bool {
	t.Helper()
	for count := range len(p.steps) + 1 {
		if got, want := p.fits(rung, count), p.exact.fits(rung, count); got != want {
			t.Fatalf("sheet %d: %s\nrung %d, %d charges: fits %v, the bill says %v", n, describe(p.exact.sheet), rung, count, got, want)
		}
	}
	for i := range p.drops {
		if got, want := p.above(rung, i), p.exact.above(rung, i); got != want {
			t.Fatalf("sheet %d: %s\nrung %d drop %d: above %v, the bill says %v", n, describe(p.exact.sheet), rung, i, got, want)
		}
	}
	want := p.exact.sheet.amounts(p.exact.bids.bid(rung), len(p.steps))
	if !p.run(rung, len(p.steps)) {
		return false
	}
	grid := p.exact.sheet.grid()
	for i, line := range p.lines {
		if got := decimal.NewFromUint64(line).Mul(grid); !got.Equal(want[i]) {
			t.Fatalf("sheet %d: %s\nrung %d line %d: %s, the bill says %s", n, describe(p.exact.sheet), rung, i, got, want[i])
		}
	}
	return true
}

// Each place where 64 or 128 bits may be too few says so.
func TestStepOverflow(t *testing.T) {
	const most = math.MaxUint64
	tests := []struct {
		name  string
		step  step
		lines []uint64
		fits  bool
	}{
		{"all there is", step{on: []int{0}, tiers: []band{{most, 1}}, divisor: 1, to: 1}, []uint64{most}, true},
		{"product of 128 bits", step{on: []int{0}, tiers: []band{{most, most}}, divisor: most, to: 1}, []uint64{most}, true},
		{"base", step{on: []int{0, 1}, divisor: 1, to: 1}, []uint64{most, 1}, false},
		{"condition", step{whenOn: []int{0, 1}, divisor: 1, to: 1}, []uint64{most, 1}, false},
		{"quotient", step{on: []int{0}, tiers: []band{{most, 2}}, divisor: 1, to: 1}, []uint64{most}, false},
		// 253921 × 145295143558111 is 2⁶⁵-1, and half of it, rounded up, 2⁶⁴.
		{"rounding up", step{on: []int{0}, tiers: []band{{most, 145295143558111}}, divisor: 2, to: 1}, []uint64{253921}, false},
		{"multiple of the step", step{on: []int{0}, tiers: []band{{most, 1}}, divisor: 1, to: 2}, []uint64{most}, false},
		{
			"sum of products of 128 bits", step{on: []int{0}, tiers: []band{{most / 4, most}, {most / 2, most}, {most, most}}, divisor: most, to: 1},
			[]uint64{most}, true,
		},
	}
	for _, test := range tests {
		test.step.max, test.step.upTo = most, most
		got, ok := test.step.amount(test.lines)
		if ok != test.fits || ok && got != most {
			t.Errorf("%s: got %d %v, want fits %v", test.name, got, ok, test.fits)
		}
	}
}

// What does not fit 64 bits is worked out all the same: a sheet with all amounts
// as many times larger has bids as much larger.
func TestHighestBeyond64Bits(t *testing.T) {
	m := newMaker(6, 300)
	for n := range 400 {
		s := m.sheet(5)
		m.ladder(s)
		zeros := pick[int32](m, 15, 17, 18, 30)
		for i := range s.Charges { // else the landed cost of the small one alone is rounded
			s.Charges[i].RoundTo = decimal.Max(s.Charges[i].RoundTo, s.Currency.Unit())
		}
		large := enlarged(s, zeros)
		c := Conversion{Home: s.Currency}
		budget := m.units(s, 600)
		want, found := s.Highest(budget, c)
		got, ok := large.Highest(budget.Shift(zeros), c)
		if ok != found || !got.Equal(want.Shift(zeros)) {
			t.Fatalf("sheet %d: %s\nbudget %s: %s %v, with %d zeros more %s %v", n, describe(s), budget, want, found, zeros, got, ok)
		}
	}
}

// enlarged multiplies every amount of a sheet by a power of ten.
func enlarged(s *Sheet, zeros int32) *Sheet {
	large := *s
	large.Increment = nil
	for _, r := range s.Increment {
		large.Increment = append(large.Increment, Rung{r.From.Shift(zeros), r.Step.Shift(zeros)})
	}
	large.Charges = nil
	for _, c := range s.Charges {
		for _, d := range []**decimal.Decimal{&c.Amount, &c.Min, &c.Max, &c.Allowance, &c.WaivedUpTo} {
			*d = shifted(*d, zeros)
		}
		c.RoundTo = c.RoundTo.Shift(zeros)
		tiers := c.Tiers
		c.Tiers = nil
		for _, t := range tiers {
			t.UpTo = t.UpTo.Shift(zeros)
			c.Tiers = append(c.Tiers, t)
		}
		if c.When != nil {
			c.When = &When{On: c.When.On, Above: shifted(c.When.Above, zeros), UpTo: shifted(c.When.UpTo, zeros)}
		}
		large.Charges = append(large.Charges, c)
	}
	return &large
}

func shifted(d *decimal.Decimal, zeros int32) *decimal.Decimal {
	if d == nil {
		return nil
	}
	large := d.Shift(zeros)
	return &large
}
