package valuation

import (
	"math/rand/v2"
	"testing"

	"lotgauge/valuation/belief"
)

// faults is an asker about models of which each of some faults takes 30 EUR off
// 100 as often as not, all of their combinations as exact cases.
func faults(count int, landed float64) (*asker, []inquiry) {
	n := 1 << count
	c := &belief.Cases{Exact: true, Weight: make([]float64, n)}
	about, value := make([]inquiry, count), make([]float64, n)
	for i := range about {
		about[i] = inquiry{answers: make([]uint8, n), count: 2}
		about[i].Minutes = 1
	}
	for k := range value {
		c.Weight[k], value[k] = 1/float64(n), 100
		for i := range about {
			fault := k >> i & 1
			about[i].answers[k] = uint8(fault)
			value[k] -= 30 * float64(fault)
		}
	}
	return &asker{cases: c, values: [][]float64{value}, g: fixedPrice(landed)}, about
}

// TestFarSets: where only three faults of three turn the decision, no check and
// no two are worth anything, and all three pay together. At 25 EUR a model with
// three faults is worth 10, in one of eight cases.
func TestFarSets(t *testing.T) {
	for _, row := range []struct {
		landed, perMinute float64
		together          int
		worth             float64
	}{
		{25, 0.1, 3, 15.0 / 8},
		{25, 0.6, 3, 15.0 / 8},
		{25, 0.63, 1, 0}, // three minutes are now dearer than that
		{5, 0.1, 1, 0},   // cheap whatever is wrong
		{55, 0.1, 1, 15.0 / 2},
	} {
		q, about := faults(3, row.landed)
		p := newPlan(q, make([]subject, 3), about, stall{row.perMinute, 0.005})
		if p.together != row.together {
			t.Errorf("at %v: %d together, want %d", row.landed, p.together, row.together)
		}
		if p.together == 3 {
			within(t, "worth", p.both, row.worth, 1e-9)
			within(t, "time", p.time, 3, 0)
		}
		if (p.best >= 0) != (row.worth > 0 && p.together > 1 || row.landed == 55) {
			t.Errorf("at %v: next is %d", row.landed, p.best)
		}
	}
}

// TestSumRule: deciding by a sum is worth what the answers are worth where the
// worth is a sum, no more than they are worth elsewhere, and what goes into the
// sum twice is not worth more for it.
func TestSumRule(t *testing.T) {
	q, about := faults(4, 35)
	all := []*inquiry{&about[0], &about[1], &about[2], &about[3]}
	for n := range all {
		r := newSumRule(q)
		for _, x := range all[:n+1] {
			r.add(x)
		}
		within(t, "a sum", r.worth(), q.worth(all[:n+1]...), 1e-9)
	}
	rng := rand.New(rand.NewPCG(3, 3))
	for range 50 {
		for k := range q.values[0] {
			q.values[0][k] = 100 * rng.Float64()
		}
		r := newSumRule(q)
		for _, x := range all {
			r.add(x)
		}
		if by, known := r.worth(), q.worth(all...); by > known+1e-9 {
			t.Fatalf("by a sum %v, by the answers %v", by, known)
		}
	}
}

// TestSumOfLuck: over draws, answers that have nothing to do with the worth are
// worth nothing, however many they are; by plain means they would be.
func TestSumOfLuck(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 4))
	const draws, idle = 4000, 30
	c := &belief.Cases{Weight: make([]float64, draws)}
	value := make([]float64, draws)
	about := make([]inquiry, idle)
	for i := range about {
		about[i] = inquiry{answers: make([]uint8, draws), count: 6}
	}
	for k := range value {
		c.Weight[k], value[k] = 1.0/draws, 50+30*rng.NormFloat64()
		for i := range about {
			about[i].answers[k] = uint8(rng.IntN(6))
		}
	}
	worth := func(exact bool) float64 {
		c.Exact = exact
		r := newSumRule(&asker{cases: c, values: [][]float64{value}, g: fixedPrice(50)})
		for i := range about {
			r.add(&about[i])
		}
		return r.worth()
	}
	if honest, lucky := worth(false), worth(true); honest > 0.5 || lucky < 2 {
		t.Errorf("idle answers are worth %v, by luck %v", honest, lucky)
	}
}

// TestTellingOrder: what tells most in a minute comes first.
func TestTellingOrder(t *testing.T) {
	p := &plan{subjects: make([]subject, 4), moves: []float64{4, 9, 1, 2}, minutes: []float64{1, 3, 0, 0.1}}
	want := []int{0, 3, 1, 2} // 4, 3, 2 and 4 a minute, none under half a minute
	for i, got := range p.tellingOrder() {
		if got != want[i] {
			t.Fatalf("order %v, want %v", p.tellingOrder(), want)
		}
	}
}
