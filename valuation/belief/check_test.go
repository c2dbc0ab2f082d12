package belief

import (
	"math"
	"strings"
	"testing"
)

// Each row spoils a sound model in one way.
func TestCheckNamesWhatIsWrong(t *testing.T) {
	for _, row := range []struct {
		want  string
		spoil func(m *Model)
	}{
		{"0 variants and 3 histories", func(m *Model) { m.Variants = nil }},
		{"257 variants", func(m *Model) { m.Variants = make([]Variant, 257) }},
		{"3 variants and 0 histories", func(m *Model) { m.Histories = nil }},
		{"history layout: odds -1", func(m *Model) { m.Histories[1].Odds = -1 }},
		{"history layout: odds NaN", func(m *Model) { m.Histories[1].Odds = math.NaN() }},
		{"variant 318: made +Inf", func(m *Model) { m.Variants[1].Made = math.Inf(1) }},
		{"variant 318: 1 options for 2 features", func(m *Model) { m.Variants[1].Fit = []int{0} }},
		{"variant 318: feature lamps has no option 2", func(m *Model) { m.Variants[1].Fit = []int{0, 2} }},
		{"point pickup: no feature 2", func(m *Model) { m.Points[1].Feature = 2 }},
		{"point pickup: no feature -2", func(m *Model) { m.Points[1].Feature = -2 }},
		{"point pickup: applies says 1 variants of 3", func(m *Model) { m.Points[1].Applies = []bool{true} }},
		{"point pickup: 0 states", func(m *Model) { m.Points[1].States = nil }},
		{"point pickup: 256 states: expected 1 to 255", func(m *Model) { m.Points[1].States = make([]State, 256) }},
		{"point pickup: state oxidised: odds for 2 histories of 3", func(m *Model) { m.Points[1].States[1].Odds = []float64{1, 2} }},
		{"point pickup: state oxidised: odds -2", func(m *Model) { m.Points[1].States[1].Odds = []float64{1, -2, 1} }},
		{"symptom cuts-out: leak 1.5", func(m *Model) { m.Symptoms[1].Leak = 1.5 }},
		{"symptom cuts-out: strength -0.1", func(m *Model) { m.Symptoms[1].Causes[0].Strength = -0.1 }},
		{"symptom cuts-out: no point 6", func(m *Model) { m.Symptoms[1].Causes[0].Point = 6 }},
		{"symptom cuts-out: no point 1 or no state 4 of it", func(m *Model) { m.Symptoms[1].Causes[0].State = 4 }},
	} {
		m := tankEngine()
		row.spoil(m)
		_, err := InferFindings(m, nil, usual)
		if err == nil || !strings.HasPrefix(err.Error(), row.want) {
			t.Errorf("got %v, want %s", err, row.want)
		}
	}
	if err := tankEngine().Check(); err != nil {
		t.Error(err)
	}
}

func TestCheckFinding(t *testing.T) {
	m := tankEngine()
	bare := &Model{Variants: m.Variants, Histories: m.Histories}
	for _, row := range []struct {
		m    *Model
		f    Finding
		want string
	}{
		{m, Finding{PointState, 1, 3, 0.5, "f"}, ""},
		{m, Finding{PointHidden, 5, -1, -1, "f"}, ""}, // value and trust unused
		{m, Finding{PointOption, 3, 1, 1, "f"}, ""},
		{m, Finding{FeatureOption, 1, 1, 0, "f"}, ""},
		{m, Finding{VariantIs, -1, 2, 1, "f"}, ""}, // subject unused
		{m, Finding{SymptomIs, 2, 1, 1, "f"}, ""},
		{m, Finding{0, 0, 0, 1, "f"}, "f: no kind 0, or nothing of this kind"},
		{m, Finding{9, 0, 0, 1, "f"}, "f: no kind 9, or nothing of this kind"},
		{bare, Finding{PointState, 0, 0, 1, "f"}, "f: no kind 1, or nothing of this kind"},
		{bare, Finding{FeatureOption, 0, 0, 1, "f"}, "f: no kind 4, or nothing of this kind"},
		{m, Finding{PointState, 6, 0, 1, "f"}, "f: subject 6 of 6"},
		{m, Finding{PointState, -1, 0, 1, "f"}, "f: subject -1 of 6"},
		{m, Finding{FeatureOption, 2, 0, 1, "f"}, "f: subject 2 of 2"},
		{m, Finding{SymptomIs, 3, 0, 1, "f"}, "f: subject 3 of 3"},
		{m, Finding{PointState, 1, 4, 1, "f"}, "f: value 4 of 4"},
		{m, Finding{PointOption, 3, 2, 1, "f"}, "f: value 2 of 2"},
		{m, Finding{PointOption, 1, 0, 1, "f"}, "f: value 0 of 0"}, // shows no feature
		{m, Finding{VariantIs, 0, 3, 1, "f"}, "f: value 3 of 3"},
		{m, Finding{SymptomIs, 0, 2, 1, "f"}, "f: value 2 of 2"},
		{m, Finding{SymptomIs, 0, 1, 1.01, "f"}, "f: trust 1.01"},
		{m, Finding{SymptomIs, 0, 1, math.NaN(), "f"}, "f: trust NaN"},
	} {
		err := row.m.CheckFinding(row.f)
		switch {
		case err == nil && row.want != "", err != nil && err.Error() != row.want:
			t.Errorf("%+v: got %v, want %q", row.f, err, row.want)
		}
		if _, got := InferFindings(row.m, []Finding{row.f}, usual); (got == nil) != (err == nil) {
			t.Errorf("%+v: InferFindings says %v", row.f, got)
		}
	}
}
