package charges

import (
	"math"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// OnLadder reports whether a bid is valid: above 0 and on a step of the
// increments, or, without increments, a multiple of the minor unit.
func (s *Sheet) OnLadder(bid decimal.Decimal) bool {
	if bid.Sign() <= 0 {
		return false
	}
	stretch := Rung{Step: s.Currency.Unit()}
	for _, r := range s.Increment {
		if bid.GreaterThanOrEqual(r.From) {
			stretch = r
		}
	}
	above := bid.Sub(stretch.From)
	return money.Down.RoundDecimal(above, stretch.Step).Equal(above)
}

// A ladder is the valid bids up to a limit, numbered from 0 upwards. Numbers,
// unlike bids, can be halved: they are what the inverse searches.
type ladder []stretch

// A stretch is bids in even steps. The first of them has the number start.
type stretch struct {
	first, step  decimal.Decimal
	start, count int64
}

// maxRungs is where a ladder ends. At one cent a step that is a bid of
// 46 thousand million million.
const maxRungs = 1 << 62

// ladder is the valid bids up to limit, which is included.
func (s *Sheet) ladder(limit decimal.Decimal) ladder {
	increment := s.Increment
	if len(increment) == 0 {
		increment = []Rung{{Step: s.Currency.Unit()}}
	}
	var out ladder
	for i, r := range increment {
		st := stretch{first: r.From, step: r.Step, start: out.len()}
		if r.From.Sign() == 0 {
			st.first = r.Step // a bid of 0 is none
		}
		if i+1 < len(increment) && limit.GreaterThanOrEqual(increment[i+1].From) {
			st.count = rungsBelow(increment[i+1].From, st)
		} else {
			st.count = rungsTo(limit, st)
		}
		if st.count = min(st.count, maxRungs-st.start); st.count > 0 {
			out = append(out, st)
		}
	}
	return out
}

// rungsTo counts the bids of an unending stretch up to and with limit.
func rungsTo(limit decimal.Decimal, st stretch) int64 {
	if limit.LessThan(st.first) {
		return 0
	}
	over := limit.Sub(st.first)
	if num, den, ok := money.NewRatio(over, st.step).Fraction(); ok {
		return num/den + 1
	}
	steps, _ := over.QuoRem(st.step, 0)
	if whole := steps.BigInt(); whole.IsInt64() && whole.Int64() < math.MaxInt64 {
		return whole.Int64() + 1
	}
	return math.MaxInt64
}

// rungsBelow counts the bids of an unending stretch below end.
func rungsBelow(end decimal.Decimal, st stretch) int64 {
	n := rungsTo(end, st)
	if n > 0 && st.bid(n-1).Equal(end) {
		n--
	}
	return n
}

// bid is the k-th bid of the stretch, from 0.
func (st stretch) bid(k int64) decimal.Decimal {
	return st.first.Add(st.step.Mul(decimal.NewFromInt(k)))
}

// len is the number of bids.
func (l ladder) len() int64 {
	if len(l) == 0 {
		return 0
	}
	last := l[len(l)-1]
	return last.start + last.count
}

// find is the index of the stretch that the bid number k is on. There are few,
// and the last one is the longest.
func (l ladder) find(k int64) int {
	i := len(l) - 1
	for l[i].start > k {
		i--
	}
	return i
}

// bid is the bid number k.
func (l ladder) bid(k int64) decimal.Decimal {
	st := l[l.find(k)]
	return st.bid(k - st.start)
}
