package belief

import (
	"errors"
	"fmt"
	"math"
	"testing"
)

// starModel has one hub that can cause every symptom, and for each symptom a
// point of its own.
func starModel(d dice, rays int) *Model {
	m := &Model{
		Variants:  []Variant{{ID: "with", Made: 2}, {ID: "without", Made: 1}},
		Histories: []History{{"a", 1}, {"b", 2}},
	}
	state := func() State {
		return State{Original: true, Complete: true, Odds: []float64{1 + float64(d.n(5)), 1 + float64(d.n(5))}}
	}
	m.Points = append(m.Points, Point{ID: "hub", Feature: -1, Applies: []bool{true, d.n(2) == 0}, States: []State{state(), state(), state()}})
	for j := range rays {
		m.Points = append(m.Points, Point{ID: fmt.Sprint("ray ", j), Feature: -1, Applies: []bool{true, true}, States: []State{state(), state()}})
		m.Symptoms = append(m.Symptoms, Symptom{ID: fmt.Sprint(j), Leak: pickOf(d, 0, 0.01, 0.2), Causes: []Cause{
			{0, 1, pickOf(d, 0.1, 0.5, 1)}, {0, 2, pickOf(d, 0.3, 0.6)}, {j + 1, 1, pickOf(d, 0.2, 0.9, 1)},
		}})
	}
	return m
}

// Cutting out the hub changes the time an answer takes, not the answer.
func TestCutOutHubChangesNothing(t *testing.T) {
	for seed := range uint64(30) {
		d := newDice(seed)
		m := starModel(d, 7)
		var f []Finding
		for j := range m.Symptoms {
			f = append(f, Finding{SymptomIs, j, 1 - d.n(3)/2, pickOf(d, 1, 0.9, 0.75), fmt.Sprint("symptom ", j)})
		}
		f = append(f, Finding{PointState, 0, d.n(3), pickOf(d, 0.5, 0), "hub"})
		e := Gather(m, f, usual)
		p, err := infer(m, e, 0)
		if err != nil {
			continue
		}
		whole, err := infer(m, e, math.MaxInt)
		if err != nil {
			t.Fatal(err)
		}
		for g := range p.groups {
			if p.groups[g].applies[0] && len(p.groups[g].plan.cut) != 1 || len(whole.groups[g].plan.cut) != 0 {
				t.Fatalf("seed %d: %d points cut out, %d without", seed, len(p.groups[g].plan.cut), len(whole.groups[g].plan.cut))
			}
		}
		samePosterior(t, m, p, whole)
		posteriorAgrees(t, m, enumerateFindings(m, f, usual), p)
		outcomesAgree(t, m, f, p)
		drawsNear(t, m, p, p.Draw(5000, seed))
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

// With so many rays no walk would do without cutting: once out of the one hub,
// or out of both of two hubs.
func TestManySymptomsWithHubs(t *testing.T) {
	for _, hubs := range []int{1, 2} {
		m := starModel(newDice(1), 70)
		if hubs == 2 {
			second := m.Points[0]
			second.ID = "second hub"
			m.Points = append(m.Points, second)
			for j := range m.Symptoms {
				m.Symptoms[j].Causes = append(m.Symptoms[j].Causes, Cause{len(m.Points) - 1, 1, 0.3})
			}
		}
		raysAgree(t, m)
	}
}

// raysAgree holds a star with a report on every symptom against the same star
// taken apart.
func raysAgree(t *testing.T, m *Model) {
	t.Helper()
	var f []Finding
	for j := range m.Symptoms {
		f = append(f, Finding{SymptomIs, j, j % 2, 0.75, ""})
	}
	p, err := InferFindings(m, f, usual)
	if err != nil {
		t.Fatal(err)
	}
	drawsNear(t, m, p, p.Draw(5000, 1))
	// Given the hub, the rays are apart: each alone tells the same.
	given := []Finding{{PointState, 0, 2, 1, ""}, {PointState, len(m.Points) - 1, 0, 1, ""}, {VariantIs, 0, 0, 1, ""}}
	f = append(f, given...)
	if p, err = InferFindings(m, f, usual); err != nil {
		t.Fatal(err)
	}
	h := p.Histories()
	for j := range m.Symptoms {
		want := 0.0
		for k := range h {
			only := &Model{Variants: m.Variants, Points: m.Points, Symptoms: m.Symptoms[j : j+1]}
			only.Histories = []History{{"a", float64(1 - k)}, {"b", float64(k)}}
			q, ok := Infer(only, Gather(only, append(given, Finding{SymptomIs, 0, j % 2, 0.75, ""}), usual))
			if !ok {
				t.Fatal("impossible")
			}
			want += h[k] * q.Point(j + 1)[1]
		}
		if got := p.Point(j + 1)[1]; far(got, want, 1e-12) {
			t.Errorf("ray %d: %.15g, want %.15g", j, got, want)
		}
	}
}

// denseModel lets each of n points cause each of n symptoms.
func denseModel(n int) *Model {
	m := &Model{Variants: []Variant{{Made: 1}}, Histories: []History{{Odds: 1}}}
	for i := range n {
		m.Points = append(m.Points, Point{ID: fmt.Sprint(i), Feature: -1, Applies: []bool{true},
			States: []State{{Odds: []float64{3}}, {Odds: []float64{1}}}})
	}
	for j := range n {
		y := Symptom{ID: fmt.Sprint(j), Leak: 0.1}
		for i := range n {
			y.Causes = append(y.Causes, Cause{i, 1, 0.3})
		}
		m.Symptoms = append(m.Symptoms, y)
	}
	return m
}

// Reports that no order can take apart are refused with an error, before any
// memory is asked for; reports of absence at full trust are free.
func TestTangleIsRefused(t *testing.T) {
	for _, n := range []int{20, 100} {
		m := denseModel(n)
		var f []Finding
		for j := range m.Symptoms {
			f = append(f, Finding{SymptomIs, j, 1, 0.75, ""})
		}
		_, err := InferFindings(m, f, usual)
		var tangle *Tangle
		if !errors.As(err, &tangle) || tangle.Open != n {
			t.Fatalf("got %v", err)
		}
		if want := fmt.Sprint(n, " reported symptoms share causes, too many to explain at once: leave out the reports that tell least"); err.Error() != want {
			t.Errorf("got %s", err)
		}
		if _, ok := Infer(m, Gather(m, f, usual)); ok {
			t.Error("Infer says it has an answer")
		}
	}
}

func TestCertainAbsenceIsFree(t *testing.T) {
	m := denseModel(17)
	var f []Finding
	for j := range m.Symptoms {
		f = append(f, Finding{SymptomIs, j, 0, 1, ""})
	}
	p, err := InferFindings(m, f, usual)
	if err != nil {
		t.Fatal(err)
	}
	// By hand: odds 3:1, and all seventeen times 0.7 where faulty.
	want := math.Pow(0.7, 17) / (3 + math.Pow(0.7, 17))
	near(t, "point", p.Point(0)[1:], []float64{want})
}

// Evidence far below the smallest float keeps its digits: eighty symptoms that
// only a rare state or a rarer leak explains.
func TestTinyEvidence(t *testing.T) {
	const n, leak, odds, strength = 80, 1e-9, 1e-7, 0.25
	m := &Model{Variants: []Variant{{Made: 1}}, Histories: []History{{Odds: 1}}}
	var f []Finding
	for j := range n {
		m.Points = append(m.Points, Point{Feature: -1, Applies: []bool{true},
			States: []State{{Odds: []float64{1 - odds}}, {Odds: []float64{odds}}}})
		m.Symptoms = append(m.Symptoms, Symptom{Leak: leak, Causes: []Cause{{j, 1, strength}}})
		f = append(f, Finding{SymptomIs, j, 1, 1, ""})
	}
	p, err := InferFindings(m, f, usual)
	if err != nil {
		t.Fatal(err)
	}
	faulty := odds * (leak + (1-leak)*strength)
	one := faulty + (1-odds)*leak
	if want := n * math.Log(one); math.Abs(p.LogEvidence()/want-1) > 1e-14 {
		t.Errorf("log evidence %.16g, want %.16g", p.LogEvidence(), want)
	}
	for i := range m.Points {
		near(t, "point", p.Point(i)[1:], []float64{faulty / one})
	}
	if c := p.Draw(100, 1); count(c.State[0], 1) < 80 {
		t.Errorf("%d of 100 draws explain the symptom", count(c.State[0], 1))
	}
}
