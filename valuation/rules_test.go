package valuation

import (
	"testing"

	"lotgauge/valuation/checklist"
)

func number1(f float64) *float64 { return &f }

// TestRuleConditions holds every kind of condition against a posterior of the
// reference folder with the lamps found missing by hand.
func TestRuleConditions(t *testing.T) {
	a := prepared(t, "variant = \"310\"\n[[finding]]\npoint = \"lamps\"\nstate = \"missing\"\nby = \"hand\"\n")
	x := &facts{posterior: a.posterior, figures: map[string]float64{"coverage": 0.3, "repair-share": 0.5}}
	figure := func(name string, above, below *float64) checklist.Condition {
		return checklist.Condition{Figure: name, Above: above, Below: below, Point: -1, Symptom: -1}
	}
	lamps, missing := a.family.PointIndex("lamps"), 2
	point := func(chance float64, states ...int) checklist.Condition {
		return checklist.Condition{Point: lamps, States: states, Chance: chance, Symptom: -1}
	}
	all := func(cs ...checklist.Condition) checklist.Condition {
		return checklist.Condition{All: cs, Point: -1, Symptom: -1}
	}
	yes, no := point(0.99, missing), point(0.99, 0)
	not := checklist.Condition{Not: &no, Point: -1, Symptom: -1}
	symptom := checklist.Condition{Point: -1, Symptom: 0, Chance: a.posterior.Symptom(0) + 0.01}
	for i, c := range []struct {
		when checklist.Condition
		want bool
	}{
		{figure("coverage", number1(0.29), nil), true},
		{figure("coverage", number1(0.3), nil), false}, // strictly above
		{figure("coverage", nil, number1(0.31)), true},
		{figure("coverage", nil, number1(0.3)), false}, // strictly below
		{figure("coverage", number1(0.2), number1(0.4)), true},
		{yes, true},
		{no, false},
		{point(1, 0, 1, missing), true},
		{not, true},
		{all(yes, not), true},
		{all(yes, no), false},
		{checklist.Condition{Any: []checklist.Condition{no, yes}, Point: -1, Symptom: -1}, true},
		{checklist.Condition{Any: []checklist.Condition{no, no}, Point: -1, Symptom: -1}, false},
		{symptom, false},
	} {
		if got := x.holds(c.when); got != c.want {
			t.Errorf("condition %d holds: %v", i, got)
		}
	}
	if x.known(all(yes, figure("loss-chance", number1(0.5), nil))) {
		t.Error("a rule on a figure that is missing counts as known")
	}
}

func TestRuleText(t *testing.T) {
	x := &facts{figures: map[string]float64{"repair-share": 0.424, "condition": 0.613}}
	got := x.say("Repairs {repair-share}, condition {condition}, loss {loss-chance}.")
	if want := "Repairs 42%, condition 61 of 100, loss {loss-chance}."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
