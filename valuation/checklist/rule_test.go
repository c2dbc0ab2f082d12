package checklist

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation/diag"
)

func TestLevel(t *testing.T) {
	for level, want := range map[Level]string{0: "no level", Note: "note", Caution: "caution", Stop: "stop", 4: "no level"} {
		if got := level.String(); got != want {
			t.Errorf("level %d is %q, want %q", level, got, want)
		}
	}
}

func TestWalk(t *testing.T) {
	fig := func(name string) Condition { return Condition{Figure: name} }
	not := fig("d")
	c := Condition{Figure: "top", All: []Condition{fig("a"), {Figure: "b", Any: []Condition{fig("c")}}, {Figure: "n", Not: &not}}}
	var got []string
	c.Walk(func(c Condition) { got = append(got, c.Figure) })
	if diff := cmp.Diff([]string{"top", "a", "b", "c", "n", "d"}, got); diff != "" {
		t.Errorf("order (-want +got):\n%s", diff)
	}
}

// TestJudgeNeverLies compares the verdicts on random conditions over two
// figures with trying the figures out: what never fires holds nowhere, what
// always fires holds everywhere. The values tried are all bounds used and
// values between and beyond them, so that a conjunction of bounds on one figure
// must also be found out.
func TestJudgeNeverLies(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	found := map[verdict]int{}
	for range 1500 {
		when := randomCondition(random, 3)
		doc, f := ruleFamily(t, when)
		v, why := (&prover{f, doc.Root()}).judge(f.Rules[0].When, doc.Root().Children("rule")[0].Child("when"))
		found[v]++
		held, failed := tryOut(f.Rules[0].When)
		if v == never && held || v == always && failed {
			t.Fatalf("%s\nverdict %d (%s), but held %v, failed %v", when, v, why, held, failed)
		}
		if v != sometimes && why == "" {
			t.Errorf("%s\nverdict %d without a reason", when, v)
		}
	}
	if found[never] < 50 || found[always] < 50 || found[sometimes] < 50 {
		t.Errorf("verdicts %v: too few of a kind to test much", found)
	}
}

// TestJudgeConjunction: what holds nowhere among bounds on one figure under one
// `all` is always found.
func TestJudgeConjunction(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 1))
	for range 1000 {
		var parts []string
		for range 1 + random.IntN(3) {
			part := fmt.Sprintf(`{ figure = "coverage", %s = "%d%%" }`, pick(random, "above", "below"), 20*random.IntN(6))
			parts = append(parts, pick(random, part, "{ not = "+part+" }"))
		}
		when := "{ all = [" + strings.Join(parts, ", ") + "] }"
		doc, f := ruleFamily(t, when)
		v, _ := (&prover{f, doc.Root()}).judge(f.Rules[0].When, doc.Root().Children("rule")[0].Child("when"))
		if held, _ := tryOut(f.Rules[0].When); (v == never) == held {
			t.Fatalf("%s\nverdict %d, but held %v", when, v, held)
		}
	}
}

// randomCondition is the TOML of a condition over the figures coverage and
// repair-share, with bounds in steps of 20%.
func randomCondition(random *rand.Rand, depth int) string {
	inner := func() string { return randomCondition(random, depth-1) }
	switch kind := random.IntN(6); {
	case depth == 0 || kind > 2:
		bound := fmt.Sprintf(`%s = "%d%%"`, pick(random, "above", "below"), 20*random.IntN(8))
		if random.IntN(4) == 0 {
			bound = fmt.Sprintf(`above = "%d%%", below = "%d%%"`, 20*random.IntN(6), 20*random.IntN(8))
		}
		return fmt.Sprintf(`{ figure = "%s", %s }`, pick(random, "coverage", "repair-share"), bound)
	case kind == 0:
		return "{ not = " + inner() + " }"
	case kind == 1:
		return "{ all = [" + inner() + ", " + inner() + "] }"
	}
	return "{ any = [" + inner() + ", " + inner() + "] }"
}

func pick(random *rand.Rand, choices ...string) string { return choices[random.IntN(len(choices))] }

// ruleFamily is a family with one rule.
func ruleFamily(t *testing.T, when string) (*diag.Document, *Family) {
	t.Helper()
	doc := diag.ReadDocument("", strings.NewReader(least+"[[rule]]\nid = \"r\"\nlevel = \"note\"\nsay = \"Look.\"\nwhen = "+when+"\n"))
	f := Read(doc, nil)
	if err := doc.Diagnostics().Err(); err != nil {
		t.Fatal(err)
	}
	return doc, f
}

// tryOut tells whether a condition holds, and whether it fails, for any values
// of coverage (0 to 1) and repair-share (0 and up).
func tryOut(c Condition) (held, failed bool) {
	for coverage := range 11 {
		for share := range 20 {
			if holds(c, map[string]float64{"coverage": float64(coverage) / 10, "repair-share": float64(share) / 10}) {
				held = true
			} else {
				failed = true
			}
		}
	}
	return held, failed
}

// holds evaluates a condition on figures.
func holds(c Condition, figures map[string]float64) bool {
	is := func(inner Condition) bool { return holds(inner, figures) }
	fails := func(inner Condition) bool { return !holds(inner, figures) }
	switch {
	case c.All != nil:
		return !slices.ContainsFunc(c.All, fails)
	case c.Any != nil:
		return slices.ContainsFunc(c.Any, is)
	case c.Not != nil:
		return !is(*c.Not)
	}
	x := figures[c.Figure]
	return (c.Above == nil || x > *c.Above) && (c.Below == nil || x < *c.Below)
}
