package valuation_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
)

// everywhere is a family with a point or symptom for each kind of evidence.
const everywhere = `
feature = [{ id = "roof", options = ["early", "late"], tell = "One hatch or two" }]
variant = [
  { id = "1", guide = "100 EUR", fit = { roof = "early" } },
  { id = "2", guide = "60 EUR", fit = { roof = "late" }, made = 3 },
]
[[point]]
id = "by-hand"
see = ["hand"]
state = [{ id = "sound" }, { id = "faulty", factor = 0.5 , cure = "none"}]
[[point]]
id = "by-photo"
see = ["photo"]
state = [{ id = "sound" }, { id = "faulty", factor = 0.5, cure = "none" }]
[[point]]
id = "by-track"
see = ["track"]
state = [{ id = "sound" }, { id = "faulty", factor = 0.5, cure = "none" }]
[[point]]
id = "by-any"
see = ["seller", "photo", "track", "hand"]
state = [{ id = "sound" }, { id = "faulty", factor = 0.5, cure = "none" }]
[[symptom]]
id = "dead"
title = "Does not move"
see = ["track", "seller"]
minutes = 2
leak = 0.1
causes = [{ point = "by-hand", state = "faulty", strength = 0.8 }]
`

// TestEvidence: a check is offered where something that settles it is to be had,
// and is made by the best of that.
func TestEvidence(t *testing.T) {
	l := bench(t, everywhere)
	for _, row := range []struct {
		here []string
		want string
	}{
		{nil, "by-hand:hand by-photo:hand by-any:hand f:hand roof:hand"},
		{[]string{"hand", "track"}, "by-hand:hand by-photo:hand by-track:track by-any:track dead:track f:hand roof:hand"},
		{[]string{"photo"}, "by-photo:photo by-any:photo f:photo roof:photo"},
		{[]string{"seller"}, "by-any:seller dead:seller f:seller roof:seller"},
		{[]string{"photo", "seller"}, "by-photo:photo by-any:photo dead:seller f:photo roof:photo"},
		{[]string{"track"}, "by-track:track by-any:track dead:track"},
	} {
		n := inspect(t, l, "60", valuation.InspectOptions{Here: row.here, Options: valuation.Options{Draws: 200}})
		var got []string
		for _, c := range n.Checks() {
			got = append(got, c.ID+":"+c.By)
		}
		want := strings.Fields(row.want)
		slices.Sort(got)
		slices.Sort(want)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%v (-want +got):\n%s", row.here, diff)
		}
	}
}

// TestTrustOfEvidence: an answer counts as much as its evidence is trusted, and
// better evidence is asked for again.
func TestTrustOfEvidence(t *testing.T) {
	l := bench(t, everywhere)
	at := func(here string, listing *valuation.Listing) *valuation.Inspection {
		return inspectListing(t, l, listing, valuation.InspectOptions{Here: []string{here}})
	}
	x, _ := l.NewFind("f", "60", "", aDay)
	asked := at("seller", x)
	answer(t, asked, "point:by-any", "faulty")
	answer(t, asked, "symptom:dead", valuation.AnswerYes)
	if c, _ := asked.Check("point:by-any"); c.Answers[1].Chance != 0.75 {
		t.Errorf("the seller is believed by %v", c.Answers[1].Chance)
	}
	for _, c := range asked.Checks() {
		if c.ID == "by-any" || c.ID == "dead" {
			t.Errorf("the seller is asked about %s again", c.ID)
		}
	}
	seen := at("hand", asked.Listing())
	if !slices.ContainsFunc(seen.Checks(), func(c valuation.Check) bool { return c.ID == "by-any" }) {
		t.Error("what the seller said is not looked at")
	}
	want := []valuation.Finding{
		{Point: "by-any", State: "faulty", By: "seller", Present: true},
		{Symptom: "dead", Present: true, By: "seller"},
	}
	if diff := cmp.Diff(want, asked.Listing().Findings, ignoreTables); diff != "" {
		t.Errorf("findings (-want +got):\n%s", diff)
	}
}

// TestFeatureChecks: a feature that no point shows is seen of the model itself;
// one that a point shows is seen of that point, which may have been exchanged.
func TestFeatureChecks(t *testing.T) {
	n := inspect(t, bench(t, everywhere), "60", valuation.InspectOptions{})
	c, _ := n.Check("feature:roof")
	if c.How != "One hatch or two" || c.Answers[0].Chance != 0.25 || c.Answers[1].Chance != 0.75 {
		t.Errorf("%+v", c)
	}
	answer(t, n, "feature:roof", "early")
	if f := n.Listing().Findings[0]; f.Feature != "roof" || f.Option != "early" || f.Point != "" {
		t.Errorf("%+v", f)
	}
	if _, settled := next(n); slices.ContainsFunc(n.Checks(), func(c valuation.Check) bool { return c.Kind == "variant" }) {
		t.Errorf("the number is still asked for, %v", settled)
	}

	const shown = `
feature = [{ id = "roof", options = ["early", "late", "odd"] }]
variant = [
  { id = "1", guide = "100 EUR", fit = { roof = "early" } },
  { id = "2", guide = "60 EUR", fit = { roof = "late" }, made = 3 },
]
[[point]]
id = "top"
feature = "roof"
state = [
  { id = "sound", odds = 7 }, { id = "swapped", original = false, cure = "none", odds = 2 },
  { id = "gone", complete = false, cure = "none" },
]
`
	n = inspect(t, bench(t, shown), "60", valuation.InspectOptions{})
	c, _ = n.Check("feature:roof")
	// Of nine that show a roof two show one of the other two kinds.
	want := []float64{0.25*7/9 + 0.75*1/9, 0.75*7/9 + 0.25*1/9, 1.0 / 9}
	for i, w := range want {
		if got := float64(c.Answers[i].Chance); !near(got, w) {
			t.Errorf("%s is seen with chance %v, want %v", c.Answers[i].ID, got, w)
		}
	}
	answer(t, n, "point:top", "gone")
	if c, ok := n.Check("feature:roof"); ok {
		t.Errorf("a roof that is gone is looked at: %+v", c)
	}
	n.Back()
	answer(t, n, "feature:roof", "early")
	if f := n.Listing().Findings[0]; f.Point != "top" || f.Option != "early" || f.Feature != "" {
		t.Errorf("%+v", f)
	}
	if c, _ := n.Check("variant:f"); c.Answers[0].Chance >= 1 || c.Answers[0].Chance <= 0.5 {
		t.Errorf("variant 1 has chance %v", c.Answers[0].Chance)
	}
}

// TestMeasuredChecks: a reading is an answer, does not settle what it cannot
// tell, and a newer one takes its place.
func TestMeasuredChecks(t *testing.T) {
	n := inspect(t, bench(t, only+`
[[point]]
id = "wheels"
measure = { unit = "mm", what = "back-to-back", within = 0.1 }
state = [
  { id = "sound", range = { to = 14.1 } }, { id = "dirty", range = { to = 14.1 }, factor = 0.9, cure = "none" },
  { id = "wide", range = { from = 14.1 }, factor = 0.5, cure = "none" },
]
`), "80", valuation.InspectOptions{})
	c, ok := n.Next()
	if !ok || c.Measure == nil || c.Measure.What != "back-to-back" {
		t.Fatalf("next %+v", c)
	}
	for _, bad := range []string{"14.0", "14 cm", "14,0 mm"} {
		if diags := n.Answer(c, bad); !strings.Contains(diags.Error(), "or a number and the unit") {
			t.Errorf("%q: %v", bad, diags)
		}
	}
	answer(t, n, "point:wheels", "14.3 mm")
	answer(t, n, "point:wheels", "13.80 mm")
	if f := n.Listing().Findings; len(f) != 1 || f[0].Reading != "13.80 mm" || f[0].State != "" {
		t.Errorf("%+v", f)
	}
	c, _ = n.Check("point:wheels")
	if c.Measure == nil || c.Answers[2].Chance != 0 || !near(float64(c.Answers[0].Chance), 0.5) {
		t.Errorf("after the reading: %+v", c)
	}
	if left := n.Checks(); len(left) != 1 {
		t.Errorf("after the reading there are %d checks", len(left))
	}
	answer(t, n, "point:wheels", "dirty")
	if key, why := next(n); key != "" || why != valuation.AllSeen || n.Standing().Coverage != 1 {
		t.Errorf("after the state: %q, %v, coverage %v", key, why, n.Standing().Coverage)
	}
}

// TestOutlooks: why there is nothing more to check.
func TestOutlooks(t *testing.T) {
	const rule = `
[[rule]]
id = "hopeless"
level = "stop"
when = { point = "left", state = ["faulty"], chance = "90%" }
say = "Not with that."
`
	stop := strings.Replace(twoFaults, `{ id = "faulty",`, `{ id = "faulty", stop = "beyond repair",`, 1)
	unpriced := strings.Replace(twoFaults, `, guide = "100 EUR"`, "", 1)
	for _, row := range []struct {
		name, family, ask string
		given             []string // state of left
		want              valuation.Outlook
		verdict           valuation.Verdict
	}{
		{"to look at", twoFaults, "70", nil, valuation.LookOn, valuation.Marginal},
		{"cheap", twoFaults, "10", nil, valuation.NoLongerPays, valuation.Buy},
		{"a deal-breaker", stop, "50", []string{"faulty"}, valuation.DealBroken, valuation.WalkAway},
		{"no deal-breaker", stop, "85", []string{"sound"}, valuation.LookOn, valuation.Marginal},
		{"a rule", twoFaults + rule, "50", []string{"faulty"}, valuation.DealBroken, valuation.WalkAway},
		{"no price", unpriced, "50", nil, valuation.NotPriced, valuation.Unpriceable},
	} {
		n := inspect(t, bench(t, row.family), row.ask, valuation.InspectOptions{Options: valuation.Options{Draws: 500}})
		for _, state := range row.given {
			answer(t, n, "point:left", state)
		}
		_, ok := n.Next()
		if got := n.Outlook(); got != row.want || ok != (got == valuation.LookOn) || n.Standing().Verdict != row.verdict {
			t.Errorf("%s: outlook %v, next %v, verdict %v", row.name, got, ok, n.Standing().Verdict)
		}
		if missing := n.Standing().Missing; (len(missing) > 0) != (row.want == valuation.NotPriced) {
			t.Errorf("%s: missing %v", row.name, missing)
		}
	}
}

// TestChecksAreSound states what holds for every check that is offered, whatever
// was answered before.
func TestChecksAreSound(t *testing.T) {
	l := openDemo(t)
	families, _ := l.Families()
	rng := rand.New(rand.NewPCG(4, 2))
	for _, family := range families {
		x, _ := l.NewFind(family, fmt.Sprint(20+rng.IntN(80)), "stall-cash", aDay)
		n := inspectListing(t, l, x, valuation.InspectOptions{Options: valuation.Options{Draws: 500}, Here: []string{"hand", "track"}})
		for range 8 {
			checkChecks(t, n)
			checks := n.Checks()
			c := checks[rng.IntN(len(checks))]
			n.Answer(c, c.Answers[rng.IntN(len(c.Answers))].ID) // one that contradicts is refused
		}
	}
}

func checkChecks(t *testing.T, n *valuation.Inspection) {
	t.Helper()
	last := 0.0
	for i, c := range n.Checks() {
		sum, net := 0.0, amount(t, &c.Net)
		for _, a := range c.Answers {
			sum += float64(a.Chance)
		}
		if !near(sum, 1) || len(c.Answers) < 2 || c.Title == "" || c.By == "" || c.Worth.IsNegative() {
			t.Errorf("%+v", c)
		}
		if i > 0 && net > last+0.01 {
			t.Errorf("%s brings %v, what stands before it %v", c.Key(), net, last)
		}
		last = net
	}
	if c, ok := n.Next(); ok && !c.Net.IsPositive() {
		t.Errorf("next is %s for %s", c.Key(), c.Net.Text())
	}
}
