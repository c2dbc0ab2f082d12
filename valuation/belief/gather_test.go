package belief

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// roofModel is three variants of one tooling: the first two have an early
// roof, the third a late one; only the third has a smoke unit.
func roofModel() *Model {
	return &Model{
		Variants:  []Variant{{"6001", 6, []int{0}}, {"6002", 3, []int{0}}, {"6043", 1, []int{1}}},
		Features:  []Feature{{"roof", []string{"early", "late", "none"}}},
		Histories: []History{{"cabinet", 3}, {"tampered", 1}},
		Points: []Point{
			{"roof", 0, []bool{true, true, true}, []State{
				{"sound", []float64{90, 60}, true, true},
				{"swapped", []float64{2, 30}, false, true},
				{"missing", []float64{8, 10}, true, false},
				{"botched", []float64{1, 9}, false, false},
			}},
			{"smoke-unit", -1, []bool{false, false, true}, []State{
				{"sound", []float64{5, 5}, true, true},
				{"burnt-out", []float64{2, 4}, true, true},
			}},
			{"plate", 0, []bool{true, true, true}, []State{{"sound", []float64{1, 1}, true, true}}},
		},
		Symptoms: []Symptom{{"smells", 0.1, []Cause{{1, 1, 0.5}}}},
	}
}

// What a finding weighs, rule by rule; t is its trust.
func TestGatherWeighs(t *testing.T) {
	const t9 = 0.9
	lacking := 1 - t9 // a mistake about a point of two states
	flat := [][][]float64{{nil, nil, nil}, {nil, nil, nil}, {nil, nil, nil}}
	point := func(i int, rows ...[]float64) [][][]float64 {
		out := [][][]float64{{nil, nil, nil}, {nil, nil, nil}, {nil, nil, nil}}
		for v := range out {
			out[v][i] = rows[v]
		}
		return out
	}
	ones, silent := []float64{1, 1, 1}, [][2]float64{{1, 1}}
	wrong := (1 - t9) / 3
	state := []float64{wrong, wrong, t9, wrong}
	early := []float64{0.05, 0.9, 1.0 / 3, 1.0 / 3} // mistake, or a swapped one
	early[0], early[1] = (1-t9)/2, t9/2
	late := []float64{t9, 1 - t9, 1.0 / 3, 1.0 / 3}
	for _, row := range []struct {
		name     string
		findings []Finding
		want     Evidence
	}{
		{"nothing", nil, Evidence{ones, flat, silent}},
		{"state", []Finding{{PointState, 0, 2, t9, ""}}, Evidence{ones, point(0, state, state, state), silent}},
		{"state of a point that two lack", []Finding{{PointState, 1, 1, t9, ""}},
			Evidence{[]float64{lacking, lacking, 1}, point(1, nil, nil, []float64{1 - t9, t9}), silent}},
		{"the only state", []Finding{{PointState, 2, 0, t9, ""}},
			Evidence{ones, point(2, []float64{t9}, []float64{t9}, []float64{t9}), silent}},
		{"hidden", []Finding{{PointHidden, 1, 0, 0, ""}},
			Evidence{ones, point(1, nil, nil, []float64{0.4, 0.6}), silent}},
		{"option on its point", []Finding{{PointOption, 0, 1, t9, ""}}, Evidence{ones, point(0, early, early, late), silent}},
		{"option on a point without a feature", []Finding{{PointOption, 1, 1, t9, ""}}, Evidence{ones, flat, silent}},
		{"option of a feature", []Finding{{FeatureOption, 0, 1, t9, ""}},
			Evidence{[]float64{(1 - t9) / 2, (1 - t9) / 2, t9}, flat, silent}},
		{"variant", []Finding{{VariantIs, 0, 1, t9, ""}},
			Evidence{[]float64{(1 - t9) / 2, t9, (1 - t9) / 2}, flat, silent}},
		{"symptom there", []Finding{{SymptomIs, 0, 1, t9, ""}}, Evidence{ones, flat, [][2]float64{{t9, 1 - t9}}}},
		{"symptom not there", []Finding{{SymptomIs, 0, 0, t9, ""}}, Evidence{ones, flat, [][2]float64{{1 - t9, t9}}}},
		{"untested", []Finding{{SymptomHidden, 0, 0, 0, ""}}, Evidence{ones, flat, [][2]float64{{usual.Faulty, usual.Sound}}}},
		{"two people disagree", []Finding{{SymptomIs, 0, 1, 0.75, ""}, {SymptomIs, 0, 0, 0.6, ""}},
			Evidence{ones, flat, [][2]float64{{0.75 * 0.4, 0.25 * 0.6}}}},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := Gather(roofModel(), row.findings, usual)
			if diff := cmp.Diff(&row.want, got, cmpopts.EquateApprox(0, 1e-15)); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

// An option on a point that some variants lack rules those out at full trust.
func TestOptionOnLackingPoint(t *testing.T) {
	m := roofModel()
	m.Points[1].Feature = 0
	e := Gather(m, []Finding{{PointOption, 1, 1, 0.8, ""}}, usual)
	near(t, "variant", e.Variant, []float64{0.1, 0.1, 1})
	e = Gather(m, []Finding{{PointOption, 1, 1, 1, ""}}, usual)
	near(t, "variant", e.Variant, []float64{0, 0, 1})
}

// The design's example: a late roof on an early catalogue number weighs "other
// variant" against "swapped roof".
func TestLateRoofOnEarlyNumber(t *testing.T) {
	m := roofModel()
	labelled := Finding{VariantIs, 0, 0, 0.9, "the box says 6001"}
	seen := Finding{PointOption, 0, 1, 0.95, "a late roof in the photo"}
	p, err := InferFindings(m, []Finding{labelled, seen}, usual)
	if err != nil {
		t.Fatal(err)
	}
	// By hand: 6001 with a swapped roof, or 6043 with its own, or neither.
	weight := func(v int, made, box float64) (sum, swapped float64) {
		for h, odds := range []float64{3, 1} {
			total := 0.0
			for _, s := range m.Points[0].States {
				total += s.Odds[h]
			}
			for s, x := range m.Points[0].States {
				w := made * box * odds / 4 * x.Odds[h] / total
				switch {
				case s >= 2:
					w /= 3
				case v == 2:
					w *= []float64{0.95, 0.05}[s]
				default:
					w *= []float64{0.05 / 2, 0.95 / 2}[s]
				}
				sum += w
				if s == 1 {
					swapped += w
				}
			}
		}
		return sum, swapped
	}
	a, aSwapped := weight(0, 0.6, 0.9)
	b, _ := weight(1, 0.3, 0.05)
	c, _ := weight(2, 0.1, 0.05)
	total := a + b + c
	near(t, "variants", p.Variants(), []float64{a / total, b / total, c / total})
	near(t, "swapped, given 6001", p.PointGiven(0, 0)[1:2], []float64{aSwapped / a})
	if swapped := p.PointGiven(0, 0)[1]; !(swapped > 0.4 && swapped > 3*p.PointGiven(2, 0)[1]) {
		t.Errorf("a swapped roof on 6001 has chance %g", swapped)
	}
	// Without the box the roof speaks for the late variant.
	alone, err := InferFindings(m, []Finding{seen}, usual)
	if err != nil {
		t.Fatal(err)
	}
	if !(alone.Variants()[2] > 3*p.Variants()[2]) {
		t.Errorf("6043: %g with the box, %g without", p.Variants()[2], alone.Variants()[2])
	}
}

// Findings may come in any order.
func TestOrderOfFindingsDoesNotMatter(t *testing.T) {
	for seed := range uint64(500) {
		d := newDice(seed)
		m := randomModel(d)
		f := randomFindings(d, m)
		p, err := InferFindings(m, f, usual)
		shuffled := make([]Finding, 0, len(f))
		for _, x := range f {
			k := d.n(len(shuffled) + 1)
			shuffled = append(shuffled[:k], append([]Finding{x}, shuffled[k:]...)...)
		}
		q, err2 := InferFindings(m, shuffled, usual)
		if (err == nil) != (err2 == nil) {
			t.Fatalf("seed %d: %v, shuffled %v", seed, err, err2)
		}
		if err == nil {
			samePosterior(t, m, p, q)
		}
	}
}

// A finding that is right as often as any answer at random says nothing, not
// even about variants that lack the point. (By the design's rule an option
// seen on a swapped part does, where there are more than two options.)
func TestRandomAnswerSaysNothing(t *testing.T) {
	tried := 0
	for seed := range uint64(500) {
		d := newDice(seed)
		m := randomModel(d)
		f := randomFindings(d, m)
		x := Finding{Kind: Kind(1 + d.n(6))}
		if !randomSubject(d, m, &x) || x.Kind == PointHidden {
			continue
		}
		_, values := m.scope(x)
		if values < 2 || x.Kind == PointOption && values > 2 {
			continue
		}
		x.Trust = 1 / float64(values)
		p, err := InferFindings(m, f, usual)
		if err != nil {
			continue
		}
		q, err := InferFindings(m, append(f, x), usual)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		samePosterior(t, m, p, q)
		tried++
		if far(p.LogEvidence()-q.LogEvidence(), math.Log(float64(values)), 1e-11) {
			t.Errorf("seed %d: evidence fell by e^%g, want 1/%d", seed, p.LogEvidence()-q.LogEvidence(), values)
		}
	}
	if tried < 100 {
		t.Errorf("only %d models tried", tried)
	}
}

// samePosterior compares two posteriors of one model.
func samePosterior(t *testing.T, m *Model, p, q *Posterior) {
	t.Helper()
	near(t, "variants", p.Variants(), q.Variants())
	near(t, "histories", p.Histories(), q.Histories())
	for i := range m.Points {
		near(t, m.Points[i].ID, p.Point(i), q.Point(i))
	}
	for j := range m.Symptoms {
		near(t, m.Symptoms[j].ID, []float64{p.Symptom(j)}, []float64{q.Symptom(j)})
	}
}
