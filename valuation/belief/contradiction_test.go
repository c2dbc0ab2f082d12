package belief

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// stateFound and symptomFound make findings with labels.
func stateFound(i, s int, trust float64, label string) Finding {
	return Finding{PointState, i, s, trust, label}
}

func symptomFound(j, there int, trust float64, label string) Finding {
	return Finding{SymptomIs, j, there, trust, label}
}

// Contradictions name a smallest set of findings, in the order given.
func TestContradictionNamesASmallestSet(t *testing.T) {
	noise := []Finding{
		{PointHidden, 0, 0, 0, "noise 1"},
		stateFound(1, 1, 0.75, "noise 2"),
		symptomFound(1, 1, 0.75, "noise 3"),
		{FeatureOption, 0, 1, 0.9, "noise 4"},
	}
	for _, row := range []struct {
		name     string
		findings []Finding
		want     string
	}{
		{"two states of one point", []Finding{stateFound(1, 0, 1, "pickup sound"), stateFound(1, 1, 1, "pickup oxidised")},
			"these contradict each other: pickup sound; pickup oxidised"},
		{"a certain cause without its symptom", []Finding{stateFound(1, 3, 1, "pickup missing"), symptomFound(0, 0, 1, "it runs")},
			"these contradict each other: pickup missing; it runs"},
		{"no cause left, no leak", []Finding{stateFound(2, 0, 1, "reverser sound"), symptomFound(2, 1, 1, "one direction only")},
			"these contradict each other: reverser sound; one direction only"},
		{"three together", []Finding{
			stateFound(3, 0, 1, "lamps sound"), {PointOption, 3, 0, 1, "brass lamps"}, {VariantIs, 0, 1, 1, "it is 318"}},
			"these contradict each other: lamps sound; brass lamps; it is 318"},
		{"a pair hides before three", []Finding{
			stateFound(4, 0, 1, "paint sound"), stateFound(4, 1, 0, "paint not chipped"), stateFound(4, 0, 0, "paint not sound"),
			stateFound(3, 0, 1, "lamps sound"), {PointOption, 3, 0, 1, "brass lamps"}, {VariantIs, 0, 1, 1, "it is 318"}},
			"these contradict each other: paint sound; paint not sound"},
		{"a point that the variant lacks", []Finding{stateFound(5, 0, 1, "smoke unit sound"), {VariantIs, 0, 0, 1, "it is 310"}},
			"these contradict each other: smoke unit sound; it is 310"},
		{"two say no and yes for sure", []Finding{symptomFound(1, 1, 1, "cuts out"), symptomFound(1, 0, 1, "does not cut out")},
			"these contradict each other: cuts out; does not cut out"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := InferFindings(tankEngine(), append(append([]Finding{}, noise...), row.findings...), usual)
			var c *Contradiction
			if !errors.As(err, &c) {
				t.Fatalf("got %v", err)
			}
			if diff := cmp.Diff(row.want, c.Error()); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

// A single finding may be impossible by itself, and so may a model.
func TestContradictionOfOneAndOfNone(t *testing.T) {
	m := tankEngine()
	m.Symptoms[2].Causes = nil
	_, err := InferFindings(m, []Finding{stateFound(0, 0, 0.75, "x"), symptomFound(2, 1, 1, "one direction only")}, usual)
	if want := "this cannot be, by the checklist: one direction only"; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
	for h := range m.Histories {
		m.Histories[h].Odds = 0
	}
	_, err = InferFindings(m, []Finding{stateFound(0, 0, 0.75, "x")}, usual)
	if err == nil || !strings.Contains(err.Error(), "whatever was found") {
		t.Errorf("got %v", err)
	}
}

// Whatever is named is impossible together, and possible without any one.
func TestContradictionCannotBeSpared(t *testing.T) {
	found := 0
	for seed := range uint64(1500) {
		d := newDice(seed)
		m := randomModel(d)
		f := randomFindings(d, m)
		_, err := InferFindings(m, f, usual)
		var c *Contradiction
		if !errors.As(err, &c) {
			continue
		}
		found++
		if o := enumerateFindings(m, c.Findings, usual); o.total > 0 {
			t.Fatalf("seed %d: %v are possible together", seed, c)
		}
		for k := range c.Findings {
			rest := append(append([]Finding{}, c.Findings[:k]...), c.Findings[k+1:]...)
			if o := enumerateFindings(m, rest, usual); o.total == 0 {
				t.Fatalf("seed %d: %v can do without %s", seed, c, c.Findings[k].Label)
			}
		}
	}
	if found < 50 {
		t.Errorf("only %d contradictions", found)
	}
}

// The search for a smaller set gives up in the end, and what the filter left
// is named.
func TestContradictionGivesUp(t *testing.T) {
	m := &Model{Variants: []Variant{{Made: 1}}, Histories: []History{{Odds: 1}}, Symptoms: []Symptom{{ID: "stops"}}}
	var f []Finding
	for i := range 24 {
		p := Point{ID: fmt.Sprint(i), Feature: -1, Applies: []bool{true}, States: []State{{Odds: []float64{1}}, {Odds: []float64{1}}}}
		m.Points = append(m.Points, p)
		m.Symptoms[0].Causes = append(m.Symptoms[0].Causes, Cause{i, 1, 0.5})
		f = append(f, stateFound(i, 0, 1, fmt.Sprint("sound ", i)))
	}
	f = append(f, symptomFound(0, 1, 1, "stops"))
	_, err := InferFindings(m, f, usual)
	var c *Contradiction
	if !errors.As(err, &c) {
		t.Fatalf("got %v", err)
	}
	if diff := cmp.Diff(f, c.Findings); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}
