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
	there, gone := point(0.99, missing), point(0.99, 0)
	not := checklist.Condition{Not: &gone, Point: -1, Symptom: -1}
	dark := figure("loss-chance", number1(0.5), nil)
	notDark := checklist.Condition{Not: &dark, Point: -1, Symptom: -1}
	either := func(cs ...checklist.Condition) checklist.Condition {
		return checklist.Condition{Any: cs, Point: -1, Symptom: -1}
	}
	symptom := checklist.Condition{Point: -1, Symptom: 0, Chance: a.posterior.Symptom(0) + 0.01}
	for i, c := range []struct {
		when checklist.Condition
		want verity
	}{
		{figure("coverage", number1(0.29), nil), yes},
		{figure("coverage", number1(0.3), nil), no}, // strictly above
		{figure("coverage", nil, number1(0.31)), yes},
		{figure("coverage", nil, number1(0.3)), no}, // strictly below
		{figure("coverage", number1(0.2), number1(0.4)), yes},
		{there, yes},
		{gone, no},
		{point(1, 0, 1, missing), yes},
		{not, yes},
		{all(there, not), yes},
		{all(there, gone), no},
		{either(gone, there), yes},
		{either(gone, gone), no},
		{symptom, no},
		{dark, unknown},
		{notDark, unknown},
		{all(there, dark), unknown},
		{all(gone, dark), no},
		{either(there, dark), yes},
		{either(gone, dark), unknown},
	} {
		if got := x.holds(c.when); got != c.want {
			t.Errorf("condition %d: %d, want %d", i, got, c.want)
		}
	}
}

func TestRuleText(t *testing.T) {
	x := &facts{figures: map[string]float64{"repair-share": 0.424, "condition": 0.613}}
	got := x.say("Repairs {repair-share}, condition {condition}, loss {loss-chance}.")
	if want := "Repairs 42%, condition 61 of 100, loss unknown."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
