package valuation

import (
	"math"

	"lotgauge/valuation/belief"
)

// The effects of answers are those of the additive model, start + one effect a
// check, and no less than the floor, that comes closest to the worths of the
// draws in squares. It is found by backfitting (Friedman and Stuetzle, Journal of
// the American Statistical Association 76, 1981), which for answers is Gauss and
// Seidel's method on the normal equations; the floor makes it an approximation.
const (
	// sweeps is how often backfitting goes over the checks. The last sweep moves
	// no effect of the built-in families by a cent.
	sweeps = 20
	// caution is how many draws the effect counts for that an answer would have
	// if it alone were different. It steadies answers that few draws have.
	caution = 10
	// forced is over how many draws that effect is taken.
	forced = 1000
	// thorough is how much the sum of all checks counts, against that of those
	// that pay. A check's answer hints at what the others would find; where they
	// are made too the hint counts twice. With this much the sum of all is no
	// further off, for each built-in family, than one fitted to it alone and
	// without the floor.
	thorough = 3
)

// fitting is a sheet of effects in the making.
type fitting struct {
	checks []*reckoned
	// worth is that of each draw, none below the floor: the paper does not go
	// there, and is not to be blamed for it.
	worth []float64
	floor float64
	// start is where the sum begins. The floor lifts the worst sums, so that it is
	// below the mean worth.
	start float64
	sums  []paperSum
}

// paperSum is the sum of the first so many checks.
type paperSum struct {
	checks int
	weight float64
	at     []float64 // by draw
}

// fit fits the effects of the checks in their order to the sums of all of them
// and, where they are known, of those that pay. Weighted by the chances of the
// answers the effects of a check are zero on average, so that a check not made
// changes nothing. That a model has no such point has no effect: the catalogue
// number tells it.
func (r *reckoning) fit() {
	f := newFitting(r.checks, r.value, r.floor)
	f.add(len(r.checks), thorough)
	if r.paying > 0 && r.paying < len(r.checks) {
		f.add(r.paying, 1)
	}
	for range sweeps {
		f.sweep()
	}
	for _, c := range r.checks {
		r.centre(c)
	}
	r.start = r.n.a.expected.worth + f.start - mean(r.value)
}

func newFitting(checks []*reckoned, worth []float64, floor float64) *fitting {
	f := &fitting{checks: checks, floor: floor}
	for _, v := range worth {
		f.worth = append(f.worth, max(v, floor))
	}
	f.start = mean(f.worth)
	for _, c := range checks {
		c.effects = make([]float64, math.MaxUint8+1)
	}
	return f
}

// add adds a sum to fit to.
func (f *fitting) add(checks int, weight float64) {
	at := make([]float64, len(f.worth))
	for k := range at {
		at[k] = f.start
	}
	f.sums = append(f.sums, paperSum{checks, weight, at})
}

// sweep fits every check once, and then the start.
func (f *fitting) sweep() {
	for i := range f.checks {
		f.refit(i)
	}
	off, weight := 0.0, 0.0
	for _, s := range f.sums {
		for k := range s.at {
			off += float64(s.weight * f.off(&s, k))
		}
		weight += float64(s.weight * float64(len(s.at)))
	}
	f.start += off / weight
	for _, s := range f.sums {
		for k := range s.at {
			s.at[k] += off / weight
		}
	}
}

// off is how far a sum is below the worth of a draw.
func (f *fitting) off(s *paperSum, k int) float64 { return f.worth[k] - max(s.at[k], f.floor) }

// refit fits the effects of one check to what the others leave unexplained.
func (f *fitting) refit(i int) {
	c := f.checks[i]
	var sum, count, next [math.MaxUint8 + 1]float64
	weight := 0.0
	for _, s := range f.sums {
		if i >= s.checks {
			continue
		}
		weight += s.weight
		for k, a := range c.answers {
			sum[a] += float64(s.weight * (f.off(&s, k) + c.effects[a]))
			count[a] += s.weight
		}
	}
	for a, n := range count[:belief.NotApplicable] {
		steady := float64(caution * weight)
		next[a] = (sum[a] + float64(steady*c.alone[a])) / (n + steady)
	}
	c.hold(&next)
	level(&next, &count)
	for _, s := range f.sums {
		if i >= s.checks {
			continue
		}
		for k, a := range c.answers {
			s.at[k] += next[a] - c.effects[a]
		}
	}
	copy(c.effects, next[:])
}

// hold keeps a fault from counting for more than the sound state where by itself
// it is worth no more. What a fault hints at could make it seem so: a part that
// is missing tells of a history, and many faults cost less than their sum.
func (c *reckoned) hold(effects *[math.MaxUint8 + 1]float64) {
	if c.kind != CheckPoint {
		return
	}
	for a := range effects[:belief.NotApplicable] {
		if c.alone[a] <= c.alone[0] {
			effects[a] = min(effects[a], effects[0])
		}
	}
}

// level shifts effects so that over the draws they are zero on average.
func level(effects, count *[math.MaxUint8 + 1]float64) {
	sum, of := 0.0, 0.0
	for a, n := range count[:belief.NotApplicable] {
		sum += float64(n * effects[a])
		of += n
	}
	for a := range effects[:belief.NotApplicable] {
		effects[a] -= sum / max(of, 1)
	}
}

// centre shifts the effects of a check so that by the exact chances they are zero
// on average.
func (r *reckoning) centre(c *reckoned) {
	average := 0.0
	for _, a := range r.n.answers(c.subject) {
		average += float64(float64(a.Chance) * c.effects[r.index(c.subject, a.ID)])
	}
	for i := range c.effects[:belief.NotApplicable] {
		c.effects[i] -= average
	}
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
