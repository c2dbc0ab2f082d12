package valuation_test

import (
	"fmt"
	"strings"
	"testing"

	"lotgauge/valuation"
)

func TestVerdicts(t *testing.T) {
	stop := patch{"families/quillmore-t3.toml", `id = "repainted", `, `id = "repainted", stop = "repainted: not for this collection", `}
	repainted := "[[finding]]\npoint = \"paint\"\nstate = \"repainted\"\nby = \"hand\"\n"
	fixed := func(ask string) string {
		return head + "variant = \"310\"\nsale = \"fixed\"\nbuy = \"table\"\nask = \"" + ask + " EUR\"\n"
	}
	for _, c := range []struct {
		name, listing string
		patches       []patch
		want          valuation.Verdict
		reason        string
	}{
		{"cheap", fixed("10"), nil, valuation.Buy, ""},
		{"between careful and break-even", fixed("45"), nil, valuation.Marginal, ""},
		{"dear", fixed("90"), nil, valuation.TooDear, ""},
		{"deal-breaker", fixed("10") + repainted, []patch{stop}, valuation.WalkAway, "not for this collection"},
		{"deal-breaker nobody found", fixed("10"), []patch{stop}, valuation.Buy, ""},
		{"rule", fixed("10"), []patch{{"families/quillmore-t3.toml", "level = \"caution\"\nwhen = { figure = \"repair-share\", above = \"25%\" }", "level = \"stop\"\nwhen = { figure = \"coverage\", below = \"5%\" }"}}, valuation.WalkAway, "Expected repairs are"},
		{"no bid pays", head + "variant = \"310\"\nask = \"5 GBP\"\nroutes = [\"sell-as-found\"]\n[[finding]]\npoint = \"paint\"\nstate = \"repainted\"\nby = \"hand\"",
			[]patch{{"sheets/hall.toml", `amount = "9.50"`, `amount = "950"`}}, valuation.WalkAway, "No bid pays"},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, diags := patched(t, c.patches...).Appraise(parse(t, c.listing), valuation.Options{})
			if diags.HasErrors() {
				t.Fatal(diags.Err())
			}
			if a.Reading.Verdict != c.want || !strings.Contains(fmt.Sprint(a.Reading.Reasons), c.reason) {
				t.Errorf("verdict %v %q, want %v %q", a.Reading.Verdict, a.Reading.Reasons, c.want, c.reason)
			}
		})
	}
}

// TestGroundsOfReasons: a reason to walk away comes with the belief that makes it
// one, of the state that is a deal-breaker or of what a rule hangs on, at the
// chances of the appraisal.
func TestGroundsOfReasons(t *testing.T) {
	stop := patch{"families/quillmore-t3.toml", `id = "repainted", `, `id = "repainted", stop = "Not for me.", `}
	rule := patch{"families/quillmore-t3.toml", "[[rule]]\n", `[[rule]]
id = "off"
level = "stop"
say = "Leave it."
when = { all = [
  { figure = "coverage", below = "100%" },
  { not = { point = "tyres", state = ["perished"], chance = "90%" } },
  { any = [{ point = "paint", state = ["chipped", "repainted"], chance = "50%" }, { point = "paint", state = ["chipped"], chance = "99%" }] },
  { symptom = "no-movement", chance = "40%" },
] }
[[rule]]
`}
	text := head + "variant = \"310\"\n[[finding]]\npoint = \"paint\"\nstate = \"repainted\"\nby = \"photo\"\n" +
		"[[finding]]\nsymptom = \"no-movement\"\npresent = true\nby = \"seller\"\n"
	a, diags := patched(t, stop, rule).Appraise(parse(t, text), valuation.Options{})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	if len(a.Reading.Reasons) != 2 {
		t.Fatalf("reasons %+v", a.Reading.Reasons)
	}
	paint := chanceIn(a, "paint", "repainted")
	checkReason(t, a.Reading.Reasons[0], "Not for me.", []string{"paint and lettering repainted"}, paint)
	checkReason(t, a.Reading.Reasons[1], "Leave it.", []string{"paint and lettering chipped or repainted", "does not move under power"},
		paint+chanceIn(a, "paint", "chipped"), a.Symptoms[0].Chance)
	for _, r := range a.Rules {
		if (r.ID == "off") != (len(r.Grounds) > 0) {
			t.Errorf("rule %s stands on %v", r.ID, r.Grounds)
		}
	}
	var b strings.Builder
	if err := a.WriteJSON(&b); err != nil || strings.Contains(strings.ToLower(b.String()), "grounds") {
		t.Errorf("%v: the published form has grounds", err)
	}
}

// chanceIn is the chance of a state in an appraisal.
func chanceIn(a *valuation.Appraisal, point, state string) valuation.Share {
	for _, p := range a.Points {
		for _, s := range p.States {
			if p.ID == point && s.ID == state {
				return s.Chance
			}
		}
	}
	return -1
}

func checkReason(t *testing.T, r valuation.Reason, text string, grounds []string, chances ...valuation.Share) {
	t.Helper()
	if r.Text != text || len(r.Grounds) != len(grounds) {
		t.Fatalf("got %+v", r)
	}
	c := &comparison{T: t}
	for i, g := range r.Grounds {
		if g.String() != grounds[i] {
			t.Errorf("%s: %q, want %q", text, g, grounds[i])
		}
		c.near(text, float64(g.Chance), float64(chances[i]), exactly)
	}
}
