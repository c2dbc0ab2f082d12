package charges

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"
)

// The law of the inverse: it equals a walk over the whole ladder.
func TestHighestEqualsWalk(t *testing.T) {
	const budgets = 4
	sheets := 10_000
	if testing.Short() {
		sheets = 1000
	}
	m := newMaker(1, 300)
	fell, none := 0, 0
	for n := range sheets {
		s := m.sheet(6)
		m.ladder(s)
		c := m.conversion(s)
		walk := walked(s, c, s.land(m.units(s, m.scale), c))
		if walk.falls {
			fell++
		}
		for range budgets {
			budget := walk.budget(m, c)
			want, found := walk.highest(budget)
			got, ok := s.Highest(budget, c)
			if ok != found || !got.Equal(want) {
				t.Fatalf("sheet %d: %s\nbudget %s %s: got %s %v, the walk %s %v", n, describe(s), budget, c.Home, got, ok, want, found)
			}
			if !found {
				none++
			}
		}
	}
	// The law says little if the landed cost hardly ever falls.
	if fell < sheets/10 || none < sheets/100 {
		t.Errorf("the landed cost falls on %d sheets, %d budgets are too small: the sheets are too tame", fell, none)
	}
}

// A walk is a ladder with the landed cost of each bid, as far as bids can be
// landed within most.
type walk struct {
	bids, landed []decimal.Decimal
	most         decimal.Decimal
	falls        bool
}

// walked goes up the ladder, by the definition of the increments and not by
// the code of the inverse.
func walked(s *Sheet, c Conversion, most decimal.Decimal) walk {
	w := walk{most: most}
	factor, beyond := s.factor(c), most.Add(c.Home.Unit())
	for i, r := range s.Increment {
		for bid := r.From; ; bid = bid.Add(r.Step) {
			if i+1 < len(s.Increment) && bid.GreaterThanOrEqual(s.Increment[i+1].From) {
				break
			}
			if factor.MulDecimal(bid).Cmp(beyond) > 0 {
				return w
			}
			if bid.Sign() == 0 {
				continue
			}
			landed := s.Landed(bid, c)
			w.falls = w.falls || len(w.bids) > 0 && landed.LessThan(w.landed[len(w.bids)-1])
			w.bids, w.landed = append(w.bids, bid), append(w.landed, landed)
		}
	}
	return w
}

// budget is any budget up to the most, or the landed cost of some bid or just
// below it.
func (w walk) budget(m *maker, c Conversion) decimal.Decimal {
	unit := c.Home.Unit()
	budget := unit.Mul(decimal.NewFromInt(m.Int64N(1 + w.most.Div(unit).IntPart())))
	if len(w.bids) > 0 && m.IntN(2) == 0 {
		if b := w.landed[m.IntN(len(w.bids))].Sub(unit.Mul(decimal.NewFromInt(m.Int64N(2)))); b.LessThanOrEqual(w.most) {
			return b
		}
	}
	return budget
}

func (w walk) highest(budget decimal.Decimal) (decimal.Decimal, bool) {
	for i := len(w.bids) - 1; i >= 0; i-- {
		if w.landed[i].LessThanOrEqual(budget) {
			return w.bids[i], true
		}
	}
	return decimal.Decimal{}, false
}

// describe prints a sheet made in code.
func describe(s *Sheet) string {
	text := fmt.Sprintf("%s %s margin %s, increments %v", s.Currency, s.Rounding, s.Margin, s.Increment)
	for _, c := range s.Charges {
		text += fmt.Sprintf("\n%s on %v tiers %v whole %v amount %v min %v max %v allowance %v waived %v memo %v %s to %s",
			c.ID, c.On, c.Tiers, c.Whole, c.Amount, c.Min, c.Max, c.Allowance, c.WaivedUpTo, c.Memo, c.Rounding, c.RoundTo)
		if c.When != nil {
			text += fmt.Sprintf(" when %v above %v up to %v", c.When.On, c.When.Above, c.When.UpTo)
		}
	}
	return text
}
