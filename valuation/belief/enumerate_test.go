package belief

import (
	"fmt"
	"math"
	"testing"
)

// Enumerate lists the outcomes of the oracle with the same weights, histories
// summed out, and SymptomChance knows what each of them shows.
func TestEnumerateEqualsEnumeration(t *testing.T) {
	for seed := range uint64(1500) {
		d := newDice(seed)
		m := randomModel(d)
		findings := randomFindings(d, m)
		o := enumerateFindings(m, findings, usual)
		p, err := InferFindings(m, findings, usual)
		if err != nil {
			continue
		}
		c, ok := p.Enumerate(1 << 20)
		if !ok {
			t.Fatalf("seed %d: refused", seed)
		}
		want, there := outcomesOf(m, o)
		chances := make([][]float64, len(m.Symptoms))
		for j := range chances {
			chances[j] = make([]float64, len(c.Weight))
			p.SymptomChance(j, c, chances[j])
		}
		if len(want) != len(c.Weight) {
			t.Errorf("seed %d: %d outcomes, want %d", seed, len(c.Weight), len(want))
		}
		for n, w := range c.Weight {
			key := outcomeOf(c, n)
			if far(w, want[key], 1e-12) {
				t.Errorf("seed %d: outcome %s has weight %.15g, want %.15g", seed, key, w, want[key])
			}
			for j := range chances {
				if far(chances[j][n], there[key][j], 1e-10) {
					t.Errorf("seed %d: outcome %s symptom %d: %.15g, want %.15g", seed, key, j, chances[j][n], there[key][j])
				}
			}
		}
		if t.Failed() {
			t.FailNow()
		}
	}
}

// outcomeOf names case n.
func outcomeOf(c *Cases, n int) string {
	key := fmt.Sprint(c.Variant[n])
	for _, column := range c.State {
		if column[n] == NotApplicable {
			key += " -1"
			continue
		}
		key += fmt.Sprint(" ", column[n])
	}
	return key
}

// outcomesOf sums the oracle's worlds over histories.
func outcomesOf(m *Model, o *oracle) (weight map[string]float64, there map[string][]float64) {
	weight, there = map[string]float64{}, map[string][]float64{}
	for _, w := range o.worlds {
		key := fmt.Sprint(w.v)
		for _, s := range w.state {
			key += fmt.Sprint(" ", s)
		}
		weight[key] += w.weight / o.total
		there[key] = w.there
	}
	return weight, there
}

// Draws agree with the posterior: no outcome is drawn that has no weight, and
// the share of each state, variant and pair of points is within 4.5 standard
// errors of its probability (of some 5,000 shares, one in 150,000 lies beyond
// by chance; the seeds are fixed).
func TestDrawsAgreeWithPosterior(t *testing.T) {
	const n = 4000
	for seed := range uint64(120) {
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
			got[outcomeOf(c, k)] += c.Weight[k]
		}
		for key, share := range got {
			if want[key] == 0 {
				t.Errorf("seed %d: drew %s, which is impossible", seed, key)
			}
			_ = share
		}
		for key, chance := range want {
			if se := math.Sqrt(chance * (1 - chance) / n); math.Abs(got[key]-chance) > 4.5*se+2.0/n {
				t.Errorf("seed %d: %s drawn with share %g, want %g", seed, key, got[key], chance)
			}
		}
	}
}
