package valuation

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"lotgauge/valuation/belief"
)

// gamble is an asker over draws whose worth falls with the answers to some
// questions, the first of them the weightiest.
func gamble(draws, questions int, landed float64) (*asker, []inquiry) {
	rng := rand.New(rand.NewPCG(6, 1))
	c := &belief.Cases{Weight: make([]float64, draws)}
	about := make([]inquiry, questions)
	value := make([]float64, draws)
	for i := range about {
		about[i] = inquiry{answers: make([]uint8, draws), count: 3}
		about[i].Minutes = float64(i % 4)
	}
	for k := range value {
		c.Weight[k], value[k] = 1/float64(draws), 100+5*rng.NormFloat64()
		for i := range about {
			s := rng.IntN(4) // 3 counts as the last answer
			about[i].answers[k] = uint8(s)
			value[k] -= float64(min(s, 2)) * 20 / float64(1+i)
		}
	}
	return &asker{cases: c, values: [][]float64{value}, g: fixedPrice(landed)}, about
}

// TestMovers: the questions that tell most of the worth come first, and stay in
// the order they are given in.
func TestMovers(t *testing.T) {
	q, about := gamble(4000, 6, 40)
	about[1], about[4] = about[4], about[1]
	for _, row := range []struct {
		most int
		want []int
	}{{0, []int{}}, {1, []int{0}}, {2, []int{0, 4}}, {3, []int{0, 2, 4}}, {9, []int{0, 1, 2, 3, 4, 5}}} {
		if got := movers(movesOf(q.groupEach(about)), row.most); !slices.Equal(got, row.want) {
			t.Errorf("%d movers are %v, want %v", row.most, got, row.want)
		}
	}
	// The first answer lies 20, 0 and −20 EUR above the mean of the worth, in
	// one, one and two of four cases: with the mean at 5 above the middle.
	mean := -(20.0*1 + 40*2) / 4
	within(t, "moved", movesOf(q.groupEach(about))[0], (mean*mean+(mean+20)*(mean+20)+2*(mean+40)*(mean+40))/4, 20)
}

// TestPlan: checks stand by what they bring, the best is the first or the better
// of two that bring more, and nothing is chosen that does not pay.
func TestPlan(t *testing.T) {
	for _, s := range []stall{{0, 0}, {0.1, 0.005}, {0.5, 0.005}, {3, 0.005}, {1000, 0.005}} {
		for _, landed := range []float64{10, 45, 60, 75, 200} {
			q, about := gamble(2000, 8, landed)
			subjects := make([]subject, len(about))
			for i := range subjects {
				subjects[i].index = i
			}
			p := newPlan(q, subjects, about, s)
			checkPlan(t, p, q, about, s)
		}
	}
}

func checkPlan(t *testing.T, p *plan, q *asker, about []inquiry, s stall) {
	t.Helper()
	for i, x := range p.subjects {
		within(t, "worth", p.worth[i], q.worth(&about[x.index]), 1e-9)
		within(t, "minutes", p.minutes[i], about[x.index].Minutes, 0)
		if i > 0 && p.net(i, s) > p.net(i-1, s) {
			t.Errorf("number %d brings %v, the one before it %v", i, p.net(i, s), p.net(i-1, s))
		}
	}
	single, both := p.net(0, s), math.Inf(-1)
	for i := range about {
		for j := range i {
			both = math.Max(both, s.net(q.worth(&about[i], &about[j]), about[i].Minutes+about[j].Minutes))
		}
	}
	switch best := math.Max(single, both); {
	case best <= s.trifle:
		checkFar(t, p, q, s)
	case p.with < 0:
		if p.best != 0 || p.together != 1 || both > single+1e-9 {
			t.Errorf("%d comes next for %v, two together bring %v", p.best, single, both)
		}
	default:
		if p.best > p.with || p.together != 2 || s.net(p.both, p.minutes[p.best]+p.minutes[p.with]) < best-1e-9 {
			t.Errorf("%d with %d come next for %v, the best bring %v", p.best, p.with, p.both, best)
		}
	}
}

// checkFar states what holds where no check and no two pay: if a larger set does,
// it is worth no more than knowing everything, and more than its time.
func checkFar(t *testing.T, p *plan, q *asker, s stall) {
	t.Helper()
	switch {
	case p.best < 0 && p.with < 0 && p.together == 1:
	case p.best < 0 || p.with >= 0 || p.together < 3 || p.together > len(p.subjects):
		t.Errorf("%d with %d and %d together come next, and no two pay", p.best, p.with, p.together)
	case p.both > q.everything()+1e-9 || s.net(p.both, p.time) <= s.trifle:
		t.Errorf("%d together are worth %v in %v minutes, everything %v", p.together, p.both, p.time, q.everything())
	}
}

// TestNothingToPlan: with nothing left there is no next check.
func TestNothingToPlan(t *testing.T) {
	q, _ := gamble(100, 1, 50)
	if p := newPlan(q, nil, nil, stall{}); p.best != -1 || p.with != -1 || len(p.subjects) > 0 {
		t.Errorf("%+v", p)
	}
}
