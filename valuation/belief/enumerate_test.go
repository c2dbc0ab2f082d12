package belief

import (
	"fmt"
	"testing"
)

// Enumerate lists the outcomes of the oracle with the same weights, histories
// summed out, and SymptomChance knows what each of them shows.
func TestEnumerateEqualsEnumeration(t *testing.T) {
	for seed := range uint64(1500) {
		d := newDice(seed)
		m := randomModel(d)
		findings := randomFindings(d, m)
		if p, err := InferFindings(m, findings, usual); err == nil {
			outcomesAgree(t, m, findings, p)
		}
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

// outcomesAgree holds the enumerated cases of p against the oracle.
func outcomesAgree(t *testing.T, m *Model, findings []Finding, p *Posterior) {
	t.Helper()
	c, ok := p.Enumerate(1 << 20)
	if !ok {
		t.Fatal("too many outcomes")
	}
	want, there := outcomesOf(enumerateFindings(m, findings, usual))
	if len(want) != len(c.Weight) || !c.Exact {
		t.Errorf("%d outcomes, want %d", len(c.Weight), len(want))
	}
	chances := make([]float64, len(c.Weight))
	for n, w := range c.Weight {
		if key := outcomeOf(c, n); far(w, want[key], 1e-12) {
			t.Errorf("outcome %s has weight %.15g, want %.15g", key, w, want[key])
		}
	}
	for j := range m.Symptoms {
		p.SymptomChance(j, c, chances)
		for n, got := range chances {
			// The oracle's 1-absent has lost digits where a leak is 1e-5.
			if key := outcomeOf(c, n); far(got, there[key][j], 1e-10) {
				t.Errorf("outcome %s symptom %d: %.15g, want %.15g", key, j, got, there[key][j])
			}
		}
	}
}

// Enumerate counts what is possible, and refuses what is over the limit.
func TestEnumerateLimit(t *testing.T) {
	m := tankEngine() // 2·4·3·3·3 states, twice that for the variant with a smoke unit
	for _, row := range []struct {
		name     string
		findings []Finding
		want     int
	}{
		{"nothing known", nil, 4 * 216},
		{"the variant known", []Finding{{VariantIs, 0, 0, 1, ""}}, 216},
		{"two points settled", []Finding{{VariantIs, 0, 0, 1, ""}, {PointState, 1, 2, 1, ""}, {PointState, 0, 0, 1, ""}}, 27},
		{"a symptom rules states out", []Finding{{VariantIs, 0, 0, 1, ""}, {SymptomIs, 0, 0, 1, ""}}, 162},
	} {
		p, err := InferFindings(m, row.findings, usual)
		if err != nil {
			t.Fatal(err)
		}
		c, ok := p.Enumerate(row.want)
		if !ok || len(c.Weight) != row.want {
			t.Errorf("%s: %v", row.name, ok)
			continue
		}
		if _, ok := p.Enumerate(row.want - 1); ok {
			t.Errorf("%s: more than %d allowed", row.name, row.want-1)
		}
	}
}

// What cannot be held in bytes is refused, not wrapped around.
func TestEnumerateRefusesWhatBytesCannotHold(t *testing.T) {
	wide := &Model{Histories: []History{{Odds: 1}}, Variants: make([]Variant, 257)}
	for v := range wide.Variants {
		wide.Variants[v].Made = 1
	}
	long := &Model{Histories: []History{{Odds: 1}}, Variants: []Variant{{Made: 1}}, Points: []Point{{Feature: -1, Applies: []bool{true}}}}
	for range 256 {
		long.Points[0].States = append(long.Points[0].States, State{Odds: []float64{1}})
	}
	for _, m := range []*Model{wide, long} {
		p, ok := Infer(m, NewEvidence(m))
		if !ok {
			t.Fatal("impossible")
		}
		if _, ok := p.Enumerate(1000); ok {
			t.Error("enumerated")
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
func outcomesOf(o *oracle) (weight map[string]float64, there map[string][]float64) {
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
