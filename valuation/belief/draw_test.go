package belief

import (
	"hash/fnv"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// within says whether a share of n draws is as near its probability as four
// and a half standard errors, and two draws for the very rare. Of all the
// shares tested here one would lie beyond by chance in some hundred runs; the
// seeds are fixed.
func within(share, chance float64, n int) bool {
	se := math.Sqrt(max(0, chance*(1-chance)) / float64(n))
	return math.Abs(share-chance) <= 4.5*se+2/float64(n)
}

// Draws agree with the enumerated outcomes of small random models, and none is
// drawn that has no weight.
func TestDrawsAgreeWithOutcomes(t *testing.T) {
	const n = 4000
	for seed := range uint64(150) {
		d := newDice(seed)
		m := randomModel(d)
		p, err := InferFindings(m, randomFindings(d, m), usual)
		if err != nil {
			continue
		}
		exact, _ := p.Enumerate(1 << 20)
		want := map[string]float64{}
		for k, w := range exact.Weight {
			want[outcomeOf(exact, k)] = w
		}
		got := map[string]float64{}
		c := p.Draw(n, seed)
		for k := range c.Weight {
			got[outcomeOf(c, k)] += 1.0 / n
		}
		for key := range got {
			if want[key] == 0 {
				t.Errorf("seed %d: drew %s, which is impossible", seed, key)
			}
		}
		for key, chance := range want {
			if !within(got[key], chance, n) {
				t.Errorf("seed %d: %s drawn with share %g, want %g", seed, key, got[key], chance)
			}
		}
	}
}

// Draws from the large model agree with its exact posterior: variants, points,
// and symptoms by way of the cases. Points that share a reported symptom are
// not independent, so pairs are held against the exact posterior given one of
// the two.
func TestDrawsAgreeWithPosterior(t *testing.T) {
	const n = 20000
	m := benchModel()
	for _, reported := range []int{0, 3, 10} {
		findings := benchFindings(reported)
		p, err := InferFindings(m, findings, usual)
		if err != nil {
			t.Fatal(err)
		}
		c := p.Draw(n, 5)
		drawsNear(t, m, p, c)
		for i := 0; i < len(m.Points); i += 4 {
			settled, err := InferFindings(m, append(findings, Finding{PointState, i, 1, 1, ""}), usual)
			if err != nil {
				t.Fatal(err)
			}
			for k := range m.Points {
				want := p.Point(i)[1] * settled.Point(k)[2]
				if got := ratio(c.pairs(i, 1, k, 2), n); i != k && !within(got, want, n) {
					t.Errorf("%d reported: points %d and %d together with share %g, want %g", reported, i, k, got, want)
				}
			}
		}
	}
}

// drawsNear holds the shares of single answers against the posterior.
func drawsNear(t *testing.T, m *Model, p *Posterior, c *Cases) {
	t.Helper()
	n := len(c.Weight)
	for v, want := range p.Variants() {
		if got := ratio(count(c.Variant, uint8(v)), n); !within(got, want, n) {
			t.Errorf("variant %d with share %g, want %g", v, got, want)
		}
	}
	for i := range m.Points {
		for s, want := range p.Point(i) {
			if got := ratio(count(c.State[i], uint8(s)), n); !within(got, want, n) {
				t.Errorf("point %d state %d with share %g, want %g", i, s, got, want)
			}
		}
		if got := ratio(count(c.State[i], NotApplicable), n); !within(got, 1-p.Applies(i), n) {
			t.Errorf("point %d lacking with share %g, want %g", i, got, 1-p.Applies(i))
		}
	}
	chances := make([]float64, n)
	for j := range m.Symptoms {
		p.SymptomChance(j, c, chances)
		sum := 0.0
		for _, x := range chances {
			sum += x
		}
		if want := p.Symptom(j); !within(sum/float64(n), want, n) {
			t.Errorf("symptom %d with mean %g, want %g", j, sum/float64(n), want)
		}
	}
}

func ratio(k, n int) float64 { return float64(k) / float64(n) }

func count(column []uint8, x uint8) int {
	n := 0
	for _, y := range column {
		if x == y {
			n++
		}
	}
	return n
}

// pairs counts the cases with two points in given states.
func (c *Cases) pairs(i int, s uint8, k int, r uint8) int {
	n := 0
	for x := range c.Weight {
		if c.State[i][x] == s && c.State[k][x] == r {
			n++
		}
	}
	return n
}

// Equal seeds give equal draws, others do not; weights are equal.
func TestDrawRepeats(t *testing.T) {
	m := benchModel()
	p, err := InferFindings(m, benchFindings(3), usual)
	if err != nil {
		t.Fatal(err)
	}
	a, b, other := p.Draw(100, 1), p.Draw(100, 1), p.Draw(100, 2)
	if diff := cmp.Diff(a, b); diff != "" {
		t.Errorf("same seed: -first +second:\n%s", diff)
	}
	if cmp.Equal(a.State, other.State) {
		t.Error("seeds 1 and 2 draw the same")
	}
	for _, w := range a.Weight {
		if w != 1.0/100 {
			t.Fatalf("weight %g", w)
		}
	}
	if a.Exact {
		t.Error("drawn cases say they are exact")
	}
}

// The bytes drawn are the same on every platform: these sums were taken on
// amd64, and hold under js/wasm and where the compiler fuses a*b+c.
func TestDrawSameBytesEverywhere(t *testing.T) {
	m := benchModel()
	for _, row := range []struct {
		reported int
		want     uint64
	}{{0, 0xa8f7d9e659d1d793}, {3, 0x1d0b11d904a4fb1f}, {10, 0x52b8737b5b6790a9}} {
		p, err := InferFindings(m, benchFindings(row.reported), usual)
		if err != nil {
			t.Fatal(err)
		}
		c := p.Draw(20000, 1)
		h := fnv.New64a()
		h.Write(c.Variant)
		for _, column := range c.State {
			h.Write(column)
		}
		if got := h.Sum64(); got != row.want {
			t.Errorf("%d reported: sum %#x, want %#x", row.reported, got, row.want)
		}
	}
}

// No draws, few draws, and a model without points.
func TestDrawFew(t *testing.T) {
	m := &Model{Variants: []Variant{{Made: 1}, {Made: 1}}, Histories: []History{{Odds: 1}}}
	p, ok := Infer(m, NewEvidence(m))
	if !ok {
		t.Fatal("impossible")
	}
	for _, row := range []struct{ n, want int }{{-1, 0}, {0, 0}, {1, 1}, {3, 3}} {
		if c := p.Draw(row.n, 1); len(c.Weight) != row.want || len(c.Variant) != row.want || len(c.State) != 0 {
			t.Errorf("%d draws: %+v", row.n, c)
		}
	}
}
