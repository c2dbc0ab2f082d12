package valuation_test

import (
	"slices"
	"testing"

	"lotgauge/valuation"
)

// TestReckonGiven: what only tells the catalogue number pays by itself, but not
// below the number, and its figures do not say the number once more.
func TestReckonGiven(t *testing.T) {
	const points = `
[[feature]]
id = "reverser"
options = ["relay", "board"]
[[variant]]
id = "old"
guide = "40 EUR"
fit = { reverser = "relay" }
[[variant]]
id = "new"
guide = "120 EUR"
fit = { reverser = "board" }
[[point]]
id = "spring"
minutes = 1
only = { reverser = ["relay"] }
state = [{ id = "sound" }, { id = "slack" }]
[[point]]
id = "body"
minutes = 1
state = [{ id = "sound" }, { id = "broken", factor = 0.1, spend = "30 EUR" }]
`
	l := bench(t, points)
	first := inspect(t, l, "", valuation.InspectOptions{}).Checks()
	at := slices.IndexFunc(first, func(c valuation.Check) bool { return c.ID == "spring" })
	if alone := amount(t, &first[at].Net); alone < 1 {
		t.Fatalf("by itself the spring brings %v", alone)
	}
	r := reckon(t, l, "f", valuation.ReckonOptions{Finds: 50})
	var order []string
	for _, c := range r.Checks {
		order = append(order, c.ID)
	}
	if want := []string{"f", "body", "spring"}; !slices.Equal(order, want) || r.Paying != 2 {
		t.Errorf("%v, of which %d pay", order, r.Paying)
	}
	c := &comparison{T: t}
	spring := &r.Checks[2]
	c.money("the spring, given the number", &spring.Worth, 0, cent)
	c.money("a slack spring", &spring.States[1].Deduction.Worth, 0, 0.1)
	if r.Dearest != "new" {
		t.Errorf("the dearest is %s", r.Dearest)
	}
}

// TestReckonBuiltIn holds the built-in sheets against the inspection and against
// what sheets were before they were ordered and fitted as they are: the line is
// where an inspection stops if every answer is the usual one, the checks above it
// are those that it asks, and the sums are no further off.
func TestReckonBuiltIn(t *testing.T) {
	if testing.Short() {
		t.Skip("1000 finds of each family")
	}
	l := openDemo(t)
	// Mean errors over the same finds with the first five checks, those that paid
	// and all, by each check's worth by itself and one fit without the floor:
	// measured before the change.
	for family, before := range map[string][3]float64{
		"pellworth-ce4": {6.15, 6.35, 6.72},
		"quillmore-t8":  {5.74, 5.58, 5.62},
		"tarnside-r12":  {4.60, 3.57, 3.63},
		"tarnside-s3":   {7.45, 6.02, 6.29},
	} {
		r := reckon(t, l, family, valuation.ReckonOptions{Buy: "stall-cash", Finds: 1000})
		noFaultRaises(t, r)
		asked := usualInspection(t, l, family)
		// Checks that hardly pay come and go with the draws: up to three did with six seeds.
		if off := r.Paying - len(asked); off < -3 || off > 3 {
			t.Errorf("%s: %d checks pay, an inspection asks %d", family, r.Paying, len(asked))
		}
		others := 0
		for _, c := range r.Checks[:r.Paying] {
			others += boolean(!slices.Contains(asked, c.Key()))
		}
		if others > 2 || r.Checks[0].Key() != asked[0] {
			t.Errorf("%s: %d of %d checks are not among %v", family, others, r.Paying, asked)
		}
		for i, e := range r.Errors {
			if mean := amount(t, &e.Mean); mean > before[i] {
				t.Errorf("%s with %d checks is off by %v, before by %v", family, e.Checks, mean, before[i])
			}
		}
	}
}

func boolean(b bool) int {
	if b {
		return 1
	}
	return 0
}

// noFaultRaises: no state that is worth less raises the stop by what it hints at.
// In the built-in families none is worth more than the sound one.
func noFaultRaises(t *testing.T, r *valuation.Reckoner) {
	t.Helper()
	for _, c := range r.Checks {
		for i := range c.States {
			if off := amount(t, &c.States[i].Deduction.Worth); off < 0 {
				t.Errorf("%s: %s %s is better than sound by %v", r.Family, c.ID, c.States[i].ID, -off)
			}
		}
	}
}

// usualInspection are the checks that an inspection asks where each answer is
// the likeliest.
func usualInspection(t *testing.T, l *valuation.Library, family string) (asked []string) {
	t.Helper()
	x, diags := l.NewFind(family, "", "stall-cash", aDay)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	n := inspectListing(t, l, x, valuation.InspectOptions{})
	for {
		c, ok := n.Next()
		if !ok {
			return asked
		}
		best := slices.MaxFunc(c.Answers, func(a, b valuation.CheckAnswer) int {
			switch {
			case a.Chance < b.Chance:
				return -1
			case a.Chance > b.Chance:
				return 1
			}
			return 0
		})
		answer(t, n, c.Key(), best.ID)
		asked = append(asked, c.Key())
	}
}
