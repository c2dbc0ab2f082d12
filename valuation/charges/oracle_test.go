package charges

import (
	"math/big"
	"testing"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// An oracle is the sheet once more, written from its description with nothing
// but fractions.
type oracle struct{ *Sheet }

// amounts are the lines of a bill.
func (o oracle) amounts(first *big.Rat) []*big.Rat {
	lines := []*big.Rat{first}
	for i := range o.Charges {
		lines = append(lines, o.charge(&o.Charges[i], lines))
	}
	return lines
}

func (o oracle) charge(c *Charge, lines []*big.Rat) *big.Rat {
	if w := c.When; w != nil {
		base := sumRats(lines, w.On)
		if w.Above != nil && base.Cmp(w.Above.Rat()) <= 0 || w.UpTo != nil && base.Cmp(w.UpTo.Rat()) > 0 {
			return new(big.Rat)
		}
	}
	amount := new(big.Rat)
	if c.Amount != nil {
		amount = c.Amount.Rat()
	} else {
		base := sumRats(lines, c.On)
		if c.Allowance != nil {
			base.Sub(base, c.Allowance.Rat())
		}
		if base.Sign() > 0 {
			amount = rated(c, base)
		}
	}
	amount = roundRat(c.Rounding, amount, c.RoundTo.Rat())
	if c.Min != nil && amount.Cmp(c.Min.Rat()) < 0 {
		amount = c.Min.Rat()
	}
	if c.Max != nil && amount.Cmp(c.Max.Rat()) > 0 {
		amount = c.Max.Rat()
	}
	if c.WaivedUpTo != nil && amount.Cmp(c.WaivedUpTo.Rat()) <= 0 {
		return new(big.Rat)
	}
	return amount
}

// rated sums over the tiers the part of base that has the tier's rate.
func rated(c *Charge, base *big.Rat) *big.Rat {
	total, from := new(big.Rat), new(big.Rat)
	for _, t := range c.Tiers {
		inside := !t.Bounded || base.Cmp(t.UpTo.Rat()) <= 0
		part := new(big.Rat)
		switch {
		case c.Whole && inside:
			part.Set(base)
		case c.Whole:
		case inside:
			part.Sub(base, from)
		default:
			part.Sub(t.UpTo.Rat(), from)
		}
		total.Add(total, part.Mul(part, t.Rate.Rat()))
		if inside {
			break
		}
		from = t.UpTo.Rat()
	}
	return total
}

func sumRats(lines []*big.Rat, on []int) *big.Rat {
	total := new(big.Rat)
	for _, i := range on {
		total.Add(total, lines[i])
	}
	return total
}

// roundRat rounds x, which is not negative, by floor(x/step + shift).
func roundRat(rule money.Rounding, x, step *big.Rat) *big.Rat {
	x = new(big.Rat).Quo(x, step)
	half := big.NewRat(1, 2)
	if rule != money.Down {
		x.Add(x, half)
	}
	floor := new(big.Int).Div(x.Num(), x.Denom())
	if rule == money.HalfEven && x.IsInt() && floor.Bit(0) == 1 {
		floor.Sub(floor, big.NewInt(1)) // a tie that went up to an odd number
	}
	return new(big.Rat).Mul(new(big.Rat).SetInt(floor), step)
}

// landed is the total in home currency.
func (o oracle) landed(first *big.Rat, c Conversion) *big.Rat {
	total := o.total(o.amounts(first))
	if c.Home != o.Currency {
		total.Mul(total, c.Rate.Rat())
		total.Mul(total, new(big.Rat).Add(big.NewRat(1, 1), o.Margin.Rat()))
	}
	return roundRat(o.Rounding, total, c.Home.Unit().Rat())
}

func (o oracle) total(lines []*big.Rat) *big.Rat {
	total := new(big.Rat).Set(lines[0])
	for i, c := range o.Charges {
		if !c.Memo {
			total.Add(total, lines[i+1])
		}
	}
	return total
}

// Bills are exact: every line, the total and the landed cost equal fractions
// to the last digit.
func TestBillsAreExact(t *testing.T) {
	m := newMaker(3, 50_000)
	for n := range 3000 {
		s := m.sheet(8)
		c := m.conversion(s)
		bid := m.units(s, 80_000)
		bill, want := s.Apply(bid), oracle{s}.amounts(bid.Rat())
		for i, line := range bill.Lines {
			if line.Amount.Rat().Cmp(want[i]) != 0 {
				t.Fatalf("sheet %d: %s\nbid %s line %d: got %s, want %s", n, describe(s), bid, i, line.Amount, want[i].RatString())
			}
		}
		if bill.Total.Rat().Cmp(oracle{s}.total(want)) != 0 {
			t.Fatalf("sheet %d: %s\nbid %s: total %s", n, describe(s), bid, bill.Total)
		}
		if got, want := s.Landed(bid, c), (oracle{s}).landed(bid.Rat(), c); got.Rat().Cmp(want) != 0 {
			t.Fatalf("sheet %d: %s\nbid %s: landed %s, want %s", n, describe(s), bid, got, want.RatString())
		}
	}
}

// The lines of a bill sum to its total on both sides; memo lines do not count.
func TestLinesSumToTotal(t *testing.T) {
	m := newMaker(4, 5000)
	for range 2000 {
		s := m.sheet(8)
		s.Side = pick(m, Buy, Sell)
		bill := s.Apply(m.units(s, 8000))
		want := bill.Lines[0].Amount
		for _, line := range bill.Lines[1:] {
			switch {
			case line.Memo:
			case s.Side == Sell:
				want = want.Sub(line.Amount)
			default:
				want = want.Add(line.Amount)
			}
			if line.Amount.Sign() < 0 {
				t.Fatalf("%s\na line below 0: %v", describe(s), line)
			}
		}
		if !bill.Total.Equal(want) {
			t.Fatalf("%s\ntotal %s, lines sum to %s", describe(s), bill.Total, want)
		}
	}
}

// most agrees with its definition: what it gives lands within the budget, and
// one step of the grid more does not.
func TestMost(t *testing.T) {
	m := newMaker(5, 5000)
	for n := range 5000 {
		s := m.sheet(0)
		s.Rounding = m.rounding()
		c := m.conversion(s)
		grid := decimal.New(1, -s.Currency.Digits()-int32(m.IntN(3)))
		budget := c.Home.Unit().Mul(decimal.NewFromInt(m.Int64N(5000)))
		total, ok := s.most(budget, c, grid)
		if !ok || s.land(total, c).GreaterThan(budget) || !s.land(total.Add(grid), c).GreaterThan(budget) {
			t.Fatalf("case %d: %s %s to %s: most %s of grid %s within %s", n, s.Rounding, s.Currency, c.Home, total, grid, budget)
		}
	}
}
