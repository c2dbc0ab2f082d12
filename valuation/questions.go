package valuation

import (
	"cmp"
	"math"
	"slices"

	"lotgauge/valuation/belief"
)

// settled is the chance from which an answer is taken as known.
const settled = 1 - 1e-9

// variantMinutes is how long reading the number under the frame takes (common
// practice, no source).
const variantMinutes = 1

// inquiry is something that can be found out: the answer of each case, or where
// chance is set the chance of answer 1 against answer 0. What lies beyond the
// last answer, such as that the model has no such point, counts as the last.
type inquiry struct {
	Question
	answers []uint8
	chance  []float64
	count   int
	titles  []string     // of the answers
	booked  *[2]*tallied // the cases by answer, where they have been grouped before
}

// answer is the answer of case k, where it is definite.
func (x *inquiry) answer(k int) int { return min(int(x.answers[k]), x.count-1) }

// asker values inquiries over the cases of an appraisal. values[action][case]
// is the worth of the case by that action.
type asker struct {
	cases  *belief.Cases
	values [][]float64
	g      prospect
	pages  []sums // scratch for grouping
}

// worth is what the answers to all of the inquiries together are worth.
func (q *asker) worth(about ...*inquiry) float64 {
	return q.value(q.group(about))
}

// value is what it is worth to know which answer holds. Exact cases need no
// halves.
func (q *asker) value(one, other *tallied) float64 {
	if q.cases.Exact {
		one.merge(other)
		return valueOfKnowing(one, q.g)
	}
	return crossValue(one, other, q.g)
}

// everything is what knowing all of the states would be worth: no question can
// be worth more.
func (q *asker) everything() float64 {
	all := newTallied(1, len(q.values))
	at, slope := make([]float64, len(q.values)), make([]float64, len(q.values))
	informed := 0.0
	for k, w := range q.cases.Weight {
		for a := range at {
			at[a] = q.values[a][k]
		}
		informed += float64(w * q.g(at, slope))
		all.add(0, w, q.values, k)
	}
	now, weight := all.gainNow(q.g)
	return math.Max(0, informed-float64(weight*now))
}

// rank values every inquiry by itself, dearest first; of equals, within what
// platforms may differ in, the order of the checklist.
func (q *asker) rank(about []inquiry) []float64 {
	worth := make([]float64, len(about))
	order := make([]int, len(about))
	for i := range about {
		order[i] = i
		worth[i] = round9(q.worth(&about[i]))
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(worth[b], worth[a]) })
	ranked, sorted := make([]inquiry, len(about)), make([]float64, len(about))
	for to, from := range order {
		ranked[to], sorted[to] = about[from], worth[from]
	}
	copy(about, ranked)
	return sorted
}
