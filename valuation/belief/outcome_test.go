package belief

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// The outcomes of a point weigh what the walk says of them: those of a state
// add up to its weight before its moves, and each is the product of its draws
// one by one.
func TestOutcomesWeighWhatTheWalkSays(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	moves := [][]move{nil, {{1, 0, 0.3}}, {{4, 2, 0.9}, {2, 1, 1}}, {{1, 0, 0.5}, {8, 3, 0.25}, {4, 2, 0.125}}, nil}
	q := []float64{0.3, 0.2, 0, 0.4, 0.1}
	var x outcomes
	var stage stages
	for range 20 {
		after := random(r, 16)
		if !x.list(moves) {
			t.Fatal("too many outcomes")
		}
		stage.make(moves, after)
		for m := range 16 {
			sums := make([]float64, len(q))
			for k, w := range x.weights(moves, q, after, m) {
				s := int(x.state[k])
				sums[s] += w
				if want := q[s] * path(moves[s], m, x.set[k]) * after[m|x.set[k]]; far(w, want, 1e-15) {
					t.Errorf("mask %b, state %d with %b: %g, want %g", m, s, x.set[k], w, want)
				}
			}
			for s, sum := range sums {
				if want := q[s] * stage.before(s)[m]; far(sum, want, 1e-15) {
					t.Errorf("mask %b, state %d: %g, want %g", m, s, sum, want)
				}
			}
		}
	}
}

// path is the chance that moves set just the bits given, where m is set before.
func path(moves []move, m, set int) float64 {
	chance := 1.0
	for _, v := range moves {
		switch {
		case m&v.bit != 0 && set&v.bit != 0:
			return 0
		case m&v.bit != 0:
		case set&v.bit != 0:
			chance *= v.p
		default:
			chance *= 1 - v.p
		}
	}
	return chance
}

func TestOutcomesAreListed(t *testing.T) {
	bits := func(n int) []move {
		var out []move
		for k := range n {
			out = append(out, move{1 << k, k, 0.5})
		}
		return out
	}
	var x outcomes
	if !x.list([][]move{nil, bits(2), bits(1)}) || !slices.Equal(x.state, []uint8{0, 1, 1, 1, 1, 2, 2}) ||
		!slices.Equal(x.set, []int{0, 0, 1, 2, 3, 0, 1}) {
		t.Errorf("states %v, bits %v", x.state, x.set)
	}
	for _, row := range []struct {
		moves [][]move
		want  bool
	}{
		{[][]move{bits(6)}, true}, {[][]move{bits(7)}, false}, {[][]move{nil, bits(6)}, false}, {[][]move{bits(5), bits(5)}, true},
		{[][]move{bits(5), bits(5), nil}, false}, {[][]move{nil, bits(60)}, false}, {make([][]move, 64), true}, {make([][]move, 65), false},
	} {
		if got := x.list(row.moves); got != row.want || len(x.set) > 2*maxOutcomes {
			t.Errorf("%d states: %v with %d outcomes", len(row.moves), got, len(x.set))
		}
	}
}
