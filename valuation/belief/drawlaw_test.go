package belief

import (
	"fmt"
	"slices"
	"testing"
)

// lawModel has the points that drawing may get wrong: more states than are
// compared without a loop, a first state that cannot be, one that is certain, a
// state next to impossible, and symptoms that several points can cause, one of
// them by its first state.
func lawModel() *Model {
	m := &Model{
		Variants:  []Variant{{ID: "a", Made: 3}, {ID: "b", Made: 1}, {ID: "c", Made: 2}},
		Histories: []History{{ID: "kept", Odds: 2}, {ID: "used", Odds: 1}},
	}
	for i, odds := range [][]float64{{4, 1, 1, 2, 1, 1}, {0, 3, 1}, {1}, {1, 1e-9, 1}, {5, 1}, {0, 0, 2, 0, 0, 1, 0}} {
		p := Point{ID: fmt.Sprint(i), Feature: -1, Applies: []bool{true, i != 4, true}}
		for s, x := range odds {
			p.States = append(p.States, State{ID: fmt.Sprint(s), Odds: []float64{x, x * float64(1+s)}, Original: true, Complete: true})
		}
		m.Points = append(m.Points, p)
	}
	m.Symptoms = []Symptom{
		{ID: "noisy", Leak: 0.05, Causes: []Cause{{0, 3, 0.9}, {0, 5, 0.4}, {1, 1, 0.5}, {4, 1, 1}}},
		{ID: "dead", Causes: []Cause{{1, 2, 0.7}, {3, 0, 0.3}, {5, 5, 0.8}}},
	}
	return m
}

// soleLaw is the posterior of the model with so many variants, all alike, and one
// history, so that a draw is not sorted by it, and the first symptom reported.
func soleLaw(t *testing.T, variants int) *Posterior {
	t.Helper()
	m := lawModel()
	m.Variants, m.Histories = slices.Repeat(m.Variants[:1], variants), m.Histories[:1]
	for i := range m.Points {
		m.Points[i].Applies = slices.Repeat([]bool{true}, variants)
		for s := range m.Points[i].States {
			m.Points[i].States[s].Odds = m.Points[i].States[s].Odds[:1]
		}
	}
	p, err := InferFindings(m, lawFindings()[:1], usual)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// lawFindings report both symptoms, one after the other.
func lawFindings() []Finding {
	return []Finding{{Kind: SymptomIs, Subject: 0, Value: 1, Trust: 0.9}, {Kind: SymptomIs, Subject: 1, Value: 1, Trust: 0.95}}
}

// Whole outcomes are drawn as often as they are probable, with and without
// points on the walk, and however many cases are drawn together.
func TestDrawsFollowTheLaw(t *testing.T) {
	for reported := range 3 {
		p, err := InferFindings(lawModel(), lawFindings()[:reported], usual)
		if err != nil {
			t.Fatal(err)
		}
		exact, ok := p.Enumerate(1 << 20)
		if !ok {
			t.Fatal("not enumerated")
		}
		want := map[string]float64{}
		for k, w := range exact.Weight {
			want[outcomeOf(exact, k)] += w
		}
		for _, n := range []int{40, 1000, 30000} {
			const cases = 30000
			got := map[string]int{}
			for seed := range uint64(cases / n) {
				c := p.Draw(n, seed)
				for k := range c.Weight {
					got[outcomeOf(c, k)]++
				}
			}
			shares(t, fmt.Sprintf("%d reported, %d at a time", reported, n), got, want, cases)
		}
	}
}

// shares holds counts among n against probabilities.
func shares(t *testing.T, name string, got map[string]int, want map[string]float64, n int) {
	t.Helper()
	for key, count := range got {
		if want[key] == 0 && count > 0 {
			t.Errorf("%s: drew %s %d times, which is impossible", name, key, count)
		}
	}
	for key, chance := range want {
		if share := float64(got[key]) / float64(n); !within(share, chance, n) {
			t.Errorf("%s: %s drawn with share %g, want %g", name, key, share, chance)
		}
	}
}

// Every place among the cases of a draw follows the law by itself, the last ones
// too, where their number is not a multiple of what is drawn together.
func TestEveryPlaceFollowsTheLaw(t *testing.T) {
	p := soleLaw(t, 1)
	for _, n := range []int{1, 15, 16, 31, 63, 64, 65} {
		const draws = 3000
		cases := make([]*Cases, draws)
		for seed := range cases {
			cases[seed] = p.Draw(n, uint64(seed))
		}
		for _, i := range []int{0, 5} {
			for k := range n {
				got, want := map[string]int{}, map[string]float64{}
				for _, c := range cases {
					got[fmt.Sprint(c.State[i][k])]++
				}
				for s, chance := range p.Point(i) {
					want[fmt.Sprint(s)] = chance
				}
				shares(t, fmt.Sprintf("point %d of case %d of %d", i, k, n), got, want, draws)
			}
		}
	}
}

// Cases that are drawn together do not depend on each other: pairs of cases at
// every distance up to a few words apart have the product of their chances.
func TestCasesAreIndependent(t *testing.T) {
	p := soleLaw(t, 1)
	const n = 100000
	c := p.Draw(n, 8)
	for _, i := range []int{0, 1, 3, 4, 5} {
		for apart := 1; apart <= 33; apart++ {
			independent(t, fmt.Sprintf("point %d, cases %d apart", i, apart), p.Point(i), c.State[i][:n-apart], c.State[i][apart:])
		}
	}
}

// Variants of one group are drawn together, and yet each has cases of its own:
// the first ones of two variants do not depend on each other, nor do the second
// ones, and so on.
func TestVariantsAreIndependent(t *testing.T) {
	p := soleLaw(t, 2)
	c := p.Draw(100000, 9)
	first := count(c.Variant, 0)
	n := min(first, len(c.Variant)-first)
	for _, i := range []int{0, 1, 3, 4, 5} {
		independent(t, fmt.Sprintf("point %d of two variants", i), p.Point(i), c.State[i][:n], c.State[i][first:first+n])
	}
}

// independent says that the states in the same place of two columns, each with
// the chances given, have the product of their chances.
func independent(t *testing.T, name string, chance []float64, a, b []uint8) {
	t.Helper()
	var pairs [8][8]int
	for k := range a {
		pairs[a[k]][b[k]]++
	}
	got, want := map[string]int{}, map[string]float64{}
	for s, x := range chance {
		for r, y := range chance {
			got[fmt.Sprint(s, r)], want[fmt.Sprint(s, r)] = pairs[s][r], x*y
		}
	}
	shares(t, name, got, want, len(a))
}
