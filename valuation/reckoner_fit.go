package valuation

import (
	"math"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/belief"
	"lotgauge/valuation/money"
)

// The effects of answers are those of the additive model, worth = mean + one
// effect a check, that comes closest to the worths of the draws in squares. It
// is found by backfitting (Friedman and Stuetzle, Journal of the American
// Statistical Association 76, 1981), which for answers is Gauss and Seidel's
// method on the normal equations.
const (
	// sweeps is how often backfitting goes over the checks. The last sweep moves
	// no effect of the built-in families by a cent.
	sweeps = 20
	// caution is how many draws the effect counts for that an answer would have
	// if it alone were different. It steadies answers that few draws have.
	caution = 10
	// forced is over how many draws that effect is taken.
	forced = 1000
)

// fit is the effect of each answer to each check on the worth. Weighted by the
// chances of the answers the effects of a check are zero on average, so that a
// check not made changes nothing. That a model has no such point has no effect:
// the catalogue number tells it.
func (r *reckoning) fit() [][]float64 {
	average := mean(r.value)
	left := make([]float64, len(r.value)) // of the worths, unexplained
	for k, v := range r.value {
		left[k] = v - average
	}
	effects, alone := make([][]float64, len(r.subjects)), make([][]float64, len(r.subjects))
	for i, s := range r.subjects {
		effects[i] = make([]float64, math.MaxUint8+1)
		alone[i] = r.alone(s)
	}
	for range sweeps {
		for i := range r.subjects {
			refit(effects[i], alone[i], r.answers[i], left)
		}
	}
	for i, s := range r.subjects {
		r.centre(effects[i], s)
	}
	return effects
}

// centre shifts the effects of a check so that they are zero on average.
func (r *reckoning) centre(effects []float64, s subject) {
	average := 0.0
	for _, a := range r.n.answers(s) {
		average += float64(float64(a.Chance) * effects[r.index(s, a.ID)])
	}
	for i := range effects {
		effects[i] -= average
	}
}

// refit fits the effects of one check to what the others leave unexplained.
func refit(effects, alone []float64, answers []uint8, left []float64) {
	var sum, count [math.MaxUint8 + 1]float64
	for k, s := range answers {
		sum[s] += left[k] + effects[s]
		count[s]++
	}
	average, of := 0.0, 0.0
	var next [math.MaxUint8 + 1]float64
	for s, n := range count[:belief.NotApplicable] {
		next[s] = (sum[s] + float64(caution*alone[s])) / (n + caution)
		average += float64(n * next[s])
		of += n
	}
	for s := range next[:belief.NotApplicable] {
		next[s] -= average / max(of, 1)
	}
	for k, s := range answers {
		left[k] += effects[s] - next[s]
	}
	copy(effects, next[:])
}

// alone is what each state of a point would change if it alone were different,
// the mean over some of the draws; nothing for the catalogue number.
func (r *reckoning) alone(s subject) []float64 {
	out := make([]float64, math.MaxUint8+1)
	if s.kind != CheckPoint {
		return out
	}
	stride := max(1, len(r.value)/forced)
	some := every(r.cases, stride)
	column := some.State[s.index]
	as := make([]uint8, len(column))
	applies := 0.0
	for k := range column {
		applies += float64(bit(column[k] != belief.NotApplicable))
	}
	for state := range r.n.a.family.Points[s.index].States {
		for k := range as {
			as[k] = column[k]
			if as[k] != belief.NotApplicable {
				as[k] = uint8(state)
			}
		}
		some.State[s.index] = as
		for k, v := range r.n.a.ledger.values(some) {
			out[state] += (v - r.value[k*stride]) / max(applies, 1)
		}
	}
	return out
}

// every is every stride-th case.
func every(c *belief.Cases, stride int) *belief.Cases {
	out := &belief.Cases{State: make([][]uint8, len(c.State))}
	for k := 0; k < len(c.Weight); k += stride {
		out.Weight = append(out.Weight, c.Weight[k])
		out.Variant = append(out.Variant, c.Variant[k])
		for i := range c.State {
			out.State[i] = append(out.State[i], c.State[i][k])
		}
	}
	return out
}

// line is the bid at which to stop as a straight line of the worth, through two
// bids of the ladder.
type line struct{ bid, worth, slope float64 }

// newLine is the line through the bids at two worths. Where no bid will do, or
// both are the same, the bid stays at the first.
func newLine(p *purchase, low, high float64) line {
	at := func(worth float64) (bid, landed float64) {
		if b := p.highest(worth); b != nil {
			return money.Float(*b), money.Float(p.landed(*b))
		}
		return 0, money.Float(p.landed(decimal.Zero))
	}
	bid, landed := at(low)
	l := line{bid: bid, worth: landed}
	if top, above := at(high); above > landed {
		l.slope = (top - bid) / (above - landed)
	}
	return l
}

// at is the bid that goes with a worth.
func (l line) at(worth float64) float64 { return l.bid + float64(l.slope*(worth-l.worth)) }

// figure is a worth with its bid, none below zero.
func (r *reckoning) figure(worth float64) Figure {
	return Figure{Worth: r.n.a.home(worth), Bid: estimate(max(0, r.line.at(worth)), r.n.a.buy.Currency)}
}

// change is a change of a worth, with that of the bid.
func (r *reckoning) change(worth float64) Figure {
	return Figure{Worth: r.n.a.home(worth), Bid: estimate(r.line.slope*worth, r.n.a.buy.Currency)}
}
