package valuation

import (
	"math"
	"slices"
)

// A prospect is what an outlook is worth to somebody who may still choose: from
// the expected worth of each action to the expected gain of choosing well, and
// the slope of that by each worth. A bidder has one action besides walking
// away: to buy. It is convex, so knowing more never costs.
type prospect func(worth, slope []float64) (gain float64)

// fixedPrice is the prospect at a fixed landed price: max(0, v − landed).
func fixedPrice(landed float64) prospect {
	return func(worth, slope []float64) float64 {
		slope[0] = 0
		if worth[0] <= landed {
			return 0
		}
		slope[0] = 1
		return worth[0] - landed
	}
}

// auction is the prospect where the hammer falls at one of several equally
// likely landed prices: the mean of max(0, v − landed).
func auction(landed []float64) prospect {
	sorted := slices.Sorted(slices.Values(landed))
	upTo, sum := make([]float64, len(sorted)+1), 0.0 // sums of the cheapest ones
	for i, l := range sorted {
		sum += l
		upTo[i+1] = sum
	}
	n, below := float64(len(sorted)), newLookup(sorted)
	return func(worth, slope []float64) float64 {
		won := below.count(worth[0])
		slope[0] = float64(won) / n
		return (float64(float64(won)*worth[0]) - upTo[won]) / n
	}
}

// lookup counts how many of some sorted values are below a value, from how many
// are below the interval that it is in (the indexed search of Chen and Asau 1974,
// as in package belief).
type lookup struct {
	sorted []float64
	grid   grid
	below  [intervals]int
}

func newLookup(sorted []float64) *lookup {
	l := &lookup{sorted: sorted, grid: newGrid(sorted)}
	n := 0
	for i := range l.below {
		l.below[i] = n
		for n < len(sorted) && l.grid.interval(sorted[n]) == i {
			n++
		}
	}
	return l
}

func (l *lookup) count(x float64) int {
	last := len(l.sorted) - 1
	switch {
	case last < 0 || !(x > l.sorted[0]):
		return 0
	case x > l.sorted[last]:
		return last + 1
	}
	n := l.below[l.grid.interval(x)]
	for l.sorted[n] < x {
		n++
	}
	return n
}

// tallied are the cases grouped by answer: their weight, and their weighted
// worth by each action, worth[answer*actions+action].
type tallied struct {
	actions int
	weight  []float64
	worth   []float64
}

func newTallied(answers, actions int) *tallied {
	return &tallied{actions: actions, weight: make([]float64, answers), worth: make([]float64, answers*actions)}
}

func (t *tallied) add(answer int, weight float64, values [][]float64, k int) {
	t.weight[answer] += weight
	for a := range values {
		t.worth[answer*t.actions+a] += float64(weight * values[a][k])
	}
}

// book adds cases under an answer, where there is one action.
func (t *tallied) book(answer int, x sums) {
	t.weight[answer] += x.weight
	t.worth[answer] += x.worth
}

// at are the cases of an answer, where there is one action.
func (t *tallied) at(answer int) sums { return sums{t.weight[answer], t.worth[answer]} }

func (t *tallied) clone() *tallied {
	return &tallied{t.actions, slices.Clone(t.weight), slices.Clone(t.worth)}
}

// merge adds the groups of u to those of t.
func (t *tallied) merge(u *tallied) {
	for i, w := range u.weight {
		t.weight[i] += w
	}
	for i, w := range u.worth {
		t.worth[i] += w
	}
}

// mean puts the expected worths given an answer into out.
func (t *tallied) mean(answer int, out []float64) {
	for a := range out {
		out[a] = t.worth[answer*t.actions+a] / t.weight[answer]
	}
}

// gainNow is the gain of choosing without an answer.
func (t *tallied) gainNow(g prospect) (gain, weight float64) {
	all := newTallied(1, t.actions)
	for i, w := range t.weight {
		all.weight[0] += w
		for a := range t.actions {
			all.worth[a] += t.worth[i*t.actions+a]
		}
	}
	if all.weight[0] == 0 {
		return 0, 0
	}
	at, slope := make([]float64, t.actions), make([]float64, t.actions)
	all.mean(0, at)
	return g(at, slope), all.weight[0]
}

// valueOfKnowing is the gain from knowing which answer holds before choosing:
// Σ P(a)·G(E[W|a]) − G(E[W]) (Raiffa, Decision Analysis, 1968). It is never
// negative, and exact for exact cases.
func valueOfKnowing(t *tallied, g prospect) float64 {
	now, weight := t.gainNow(g)
	if weight == 0 {
		return 0
	}
	at, slope := make([]float64, t.actions), make([]float64, t.actions)
	informed := 0.0
	for i, w := range t.weight {
		if w > 0 {
			t.mean(i, at)
			informed += float64(w * g(at, slope))
		}
	}
	return math.Max(0, informed/weight-now)
}

// crossValue is valueOfKnowing for draws in two halves. Deciding and judging on
// the same draws would count luck as knowledge, so each half judges the choices
// that the other half would make: the gain is linearised at the worth in the
// one half and evaluated at that in the other. Luck then costs.
func crossValue(one, other *tallied, g prospect) float64 {
	all := newTallied(len(one.weight), one.actions)
	all.merge(one)
	all.merge(other)
	now, weight := all.gainNow(g)
	if weight == 0 {
		return 0
	}
	return math.Max(0, (judged(one, other, g)+judged(other, one, g))/weight-now)
}

// judged is the weighted gain in judge of choosing by decide's expectations.
func judged(decide, judge *tallied, g prospect) float64 {
	at, slope := make([]float64, judge.actions), make([]float64, judge.actions)
	sum := 0.0
	for i, w := range judge.weight {
		if w == 0 {
			continue
		}
		from := decide
		if decide.weight[i] == 0 {
			from = judge
		}
		from.mean(i, at)
		sum += float64(w * g(at, slope))
		for a := range slope {
			sum += float64(slope[a] * (judge.worth[i*judge.actions+a] - float64(w*at[a])))
		}
	}
	return sum
}
