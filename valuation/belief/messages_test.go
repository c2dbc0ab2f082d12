package belief

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// A pair of maps, one said to be the transpose of the other.
type pair struct {
	name      string
	from, to  int // length of messages before and after
	ahead     func(out, in []float64)
	back      func(out, in []float64)
	preserves bool // probability is only moved about
}

// Each step back is the transpose of the step ahead: (Ax)·y = x·(Aᵀy).
func TestStepsBackAreTransposes(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	moves := [][]move{nil, {{1, 0, 0.3}}, {{4, 2, 0.9}, {2, 1, 1}}, {{1, 0, 0.5}, {2, 1, 0.25}, {4, 2, 0.125}}, nil}
	q := []float64{0.3, 0.2, 0.1, 0.4, 0}
	alpha, tmp, marg := random(r, 8), make([]float64, 8), make([]float64, len(q))
	for _, p := range []pair{
		{"open", 4, 8, func(o, i []float64) { open(o, i, 0.2) }, func(o, i []float64) { openBack(o, i, 0.2) }, true},
		{"open never", 1, 2, func(o, i []float64) { open(o, i, 0) }, func(o, i []float64) { openBack(o, i, 0) }, true},
		{"shut low", 8, 4, func(o, i []float64) { shut(o, i, 1, 0.7, 0.1) }, func(o, i []float64) { shutBack(o, i, 1, 0.7, 0.1) }, false},
		{"shut middle", 8, 4, func(o, i []float64) { shut(o, i, 2, 0.7, 0) }, func(o, i []float64) { shutBack(o, i, 2, 0.7, 0) }, false},
		{"shut high", 8, 4, func(o, i []float64) { shut(o, i, 4, 1, 1) }, func(o, i []float64) { shutBack(o, i, 4, 1, 1) }, true},
		{"weigh", 8, 8, func(o, i []float64) { weigh(o, i, tmp, q, moves) },
			func(o, i []float64) { weighBack(o, i, alpha, tmp, q, marg, moves) }, true},
	} {
		for range 20 {
			x, y := random(r, p.from), random(r, p.to)
			ax, aty := make([]float64, p.to), make([]float64, p.from)
			p.ahead(ax, x)
			p.back(aty, y)
			if far(dot(ax, y), dot(x, aty), 1e-13) {
				t.Errorf("%s: %g ahead, %g back", p.name, dot(ax, y), dot(x, aty))
			}
			if p.preserves && far(total(ax), total(x), 1e-13) {
				t.Errorf("%s: %g out of %g", p.name, total(ax), total(x))
			}
		}
	}
}

// What weighBack says of each state is its part of the whole.
func TestWeighBackSharesOutTheWhole(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	moves := [][]move{nil, {{1, 0, 0.3}}, {{2, 1, 1}}}
	q, marg := []float64{0.5, 0.2, 0.3}, make([]float64, 3)
	alpha, after := random(r, 4), random(r, 4)
	weighBack(make([]float64, 4), after, alpha, make([]float64, 4), q, marg, moves)
	for s := range q {
		only := make([]float64, 3)
		only[s] = q[s]
		out := make([]float64, 4)
		weigh(out, alpha, make([]float64, 4), only, moves)
		if far(marg[s], dot(out, after), 1e-14) {
			t.Errorf("state %d: %g, want %g", s, marg[s], dot(out, after))
		}
	}
}

// squeeze undoes spread, and the masks that spread makes never have the bit.
func TestSqueezeUndoesSpread(t *testing.T) {
	for bit := 1; bit <= 16; bit <<= 1 {
		seen := map[int]bool{}
		for m := range 16 {
			x := spread(m, bit)
			if x&bit != 0 || squeeze(x, bit) != m || squeeze(x|bit, bit) != m {
				t.Errorf("bit %d: mask %b spread to %b", bit, m, x)
			}
			seen[x] = true
		}
		if len(seen) != 16 {
			t.Errorf("bit %d: %d masks", bit, len(seen))
		}
	}
}

func TestNormaliseKeepsRatios(t *testing.T) {
	a := []float64{3, 0, 1e-10, 0.7}
	b := slices.Clone(a)
	if e := normalise(b); e != 2 || b[0] != 0.75 {
		t.Errorf("exponent %d, first %g", e, b[0])
	}
	for k := range a {
		if b[k]*4 != a[k] {
			t.Errorf("%d: %g became %g", k, a[k], b[k])
		}
	}
	zero := []float64{0, 0}
	if e := normalise(zero); e != 0 || zero[0] != 0 {
		t.Errorf("zeros: exponent %d, %v", e, zero)
	}
}

func TestShareSumsToOne(t *testing.T) {
	for _, w := range [][]float64{{1, 2, 3}, {0, 5}, {1e300, 1e308, 1e308}, {1e-320, 3e-320}, {7}} {
		share(w)
		if far(total(w), 1, 1e-15) {
			t.Errorf("%v", w)
		}
	}
	zero := []float64{0, 0}
	if share(zero); zero[0] != 0 || zero[1] != 0 {
		t.Errorf("zeros became %v", zero)
	}
}

func random(r *rand.Rand, n int) []float64 {
	out := make([]float64, n)
	for k := range out {
		out[k] = r.Float64()
	}
	return out
}

func total(a []float64) float64 {
	sum := 0.0
	for _, x := range a {
		sum += x
	}
	return sum
}
