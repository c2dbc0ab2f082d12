package charges

import "github.com/shopspring/decimal"

// Highest is the highest bid on the ladder whose [Sheet.Landed] is within the
// budget, which is in home currency. It is false where no bid is: on a Sell
// sheet, for a negative budget, or with a rate that is not above 0. The ladder
// is taken to end at its 2⁶²nd bid.
//
// It is exact although the landed cost can fall as the bid rises, see [drop].
// Its time grows with the logarithm of the budget and with the number of times
// the cost falls below it. [Read] refuses a sheet on which that can be absurdly
// often, for then the search is as hard as breaking a code.
func (s *Sheet) Highest(budget decimal.Decimal, c Conversion) (decimal.Decimal, bool) {
	if s.Side == Sell {
		return decimal.Decimal{}, false
	}
	// In the sheet's own currency the question is: which total is within limit?
	limit, ok := s.most(budget, c, s.grid())
	if !ok {
		return decimal.Decimal{}, false
	}
	bids := s.ladder(limit) // a total is at least its bid
	drops := s.drops()
	x := search{evaluator: s.evaluator(bids, drops, limit), drops: drops, charges: len(s.Charges)}
	rung, ok := x.highest(0, bids.len()-1, 0)
	if !ok {
		return decimal.Decimal{}, false
	}
	return bids.bid(rung), true
}

// A drop is a bound above which a charge can be less than below it: the bound
// of a whole tier whose successor has a lower rate, or the up_to of a when.
//
// These are the only ones. Everything else a charge does to its base keeps
// order, rates and amounts being 0 or more: a sum, an allowance, slices, whole
// tiers that rise, rounding to any step (however coarse, the rule is the same
// for all), min and max, a waiver (0 up to a bound, what it was above) and an
// above (0 up to a bound, 0 or more above). So a line can fall only between two
// bids where the base of one of its drops crosses the bound. That holds for
// memo lines too, which others rest on.
type drop struct {
	charge int // index in Sheet.Charges
	on     []int
	bound  decimal.Decimal // falls where the sum of on is above it
}

// drops lists the drops of a sheet in the order of its charges.
func (s *Sheet) drops() []drop {
	var out []drop
	for i, c := range s.Charges {
		if c.When != nil && c.When.UpTo != nil {
			out = append(out, drop{i, c.When.On, *c.When.UpTo})
		}
		if !c.Whole {
			continue
		}
		for k, t := range c.Tiers {
			if !t.Bounded || k+1 < len(c.Tiers) && !falls(t, c.Tiers[k+1]) {
				continue
			}
			bound := t.UpTo
			if c.Allowance != nil {
				bound = bound.Add(*c.Allowance)
			}
			out = append(out, drop{i, c.On, bound})
		}
	}
	return out
}

// maxRuns bounds the work of the inverse on a sheet that Read accepts.
const maxRuns = 1 << 12

// runs is into how many runs the drops can cut the ladder at most: each drop of
// a charge may cut every run that the charges before have left, once. It stops
// counting beyond maxRuns.
func (s *Sheet) runs() int {
	drops := make([]int, len(s.Charges))
	for _, d := range s.drops() {
		drops[d.charge]++
	}
	runs := 1
	for _, n := range drops {
		runs = min(runs*(n+1), maxRuns+1)
	}
	return runs
}

// falls reports whether the rate of next is below that of t.
func falls(t, next Tier) bool { return next.Rate.Less(t.Rate) }

// An evaluator works out bills for the bids of a ladder, as far as a search
// needs them. Bids are named by their number.
type evaluator interface {
	// above reports whether the base of a drop, named by its index, is above
	// its bound.
	above(rung int64, drop int) bool

	// fits reports whether the first line and the paid ones among the first n
	// charges stay within the limit.
	fits(rung int64, n int) bool
}

// A search looks for the highest bid whose total fits.
type search struct {
	evaluator
	drops   []drop
	charges int // on the sheet
}

// highest is the highest bid from lo to hi whose total fits. On these bids no
// line before the charge of drops[next] falls as the bid rises, and neither
// does that charge at the drops before next.
//
// So the base of drops[next] does not fall either, and crosses its bound at most
// once: on each side of the crossing that drop makes no difference any more.
// The side of the higher bids is searched first. Where the lines so far are
// too much at the lowest bid of a side, they are on all of it.
func (x *search) highest(lo, hi int64, next int) (int64, bool) {
	if lo > hi || !x.fits(lo, x.settled(next)) {
		return 0, false
	}
	if next == len(x.drops) {
		return last(lo, hi, func(rung int64) bool { return x.fits(rung, x.charges) }), true
	}
	cut := lo - 1 // the last bid on the lower side; here none
	if !x.above(lo, next) {
		cut = last(lo, hi, func(rung int64) bool { return !x.above(rung, next) })
	}
	if rung, ok := x.highest(cut+1, hi, next+1); ok {
		return rung, true
	}
	return x.highest(lo, cut, next+1)
}

// settled is the number of charges before the one of drops[next].
func (x *search) settled(next int) int {
	if next == len(x.drops) {
		return x.charges
	}
	return x.drops[next].charge
}

// last finds, by halving (bisection), the last number from lo to hi for which holds is true.
// It is taken to be true for lo, and, once false, false for all that follow.
func last(lo, hi int64, holds func(int64) bool) int64 {
	for lo < hi {
		middle := hi - (hi-lo)/2
		if holds(middle) {
			lo = middle
		} else {
			hi = middle - 1
		}
	}
	return lo
}
