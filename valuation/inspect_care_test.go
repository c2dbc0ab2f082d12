package valuation_test

import (
	"slices"
	"testing"

	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
)

// What opens a model or applies power is known of every check, with a track to
// hand and without.
func TestCareOfChecks(t *testing.T) {
	l := openDemo(t)
	x, _ := l.NewFind("pellworth-ce4", "45", "stall-cash", aDay)
	for _, here := range [][]string{{valuation.ByHand}, {valuation.ByHand, valuation.ByTrack}} {
		n := inspectListing(t, l, x, valuation.InspectOptions{Options: valuation.Options{Draws: 500}, Here: here})
		for key, want := range map[string][2]bool{
			"point:match": {true, false}, "point:commutator": {true, false}, "point:brushes": {true, false},
			"point:reverser-spring": {true, false}, "point:reverser": {true, true}, "point:lamps": {false, true}, "point:tyres": {false, false}, "point:pantograph-front": {false, false},
			"variant:pellworth-ce4": {false, false}, "symptom:no-movement": {false, true},
		} {
			c, ok := n.Check(key)
			if !ok && (key != "symptom:no-movement" || len(here) > 1) {
				t.Errorf("no check %s by %v", key, here)
			}
			if got := minded(c); ok && [2]bool(got[:2]) != want {
				t.Errorf("%s by %v: to mind %v", key, here, c.Mind)
			}
		}
	}
}

// What a family says is to be minded counts, and where it says nothing what can
// settle the check does; whoever only asks or looks at pictures minds nothing.
func TestMindOfChecks(t *testing.T) {
	const points = only + `
[[point]]
id = "said"
see = ["photo", "hand", "seller"]
mind = ["opening", "power", "solvent"]
state = [{ id = "sound" }, { id = "worn", cure = "none", factor = 0.5 }]
[[point]]
id = "nothing"
see = ["hand"]
mind = []
state = [{ id = "sound" }, { id = "worn", cure = "none", factor = 0.5 }]
[[point]]
id = "hand"
see = ["hand", "track"]
state = [{ id = "sound" }, { id = "worn", cure = "none", factor = 0.5 }]
[[point]]
id = "photo"
see = ["photo"]
state = [{ id = "sound" }, { id = "worn", cure = "none", factor = 0.5 }]
[[point]]
id = "track"
see = ["track"]
state = [{ id = "sound" }, { id = "worn", cure = "none", factor = 0.5 }]
`
	l := bench(t, points)
	for here, want := range map[string]map[string][3]bool{
		valuation.ByHand:   {"said": {true, true, true}, "nothing": {}, "hand": {true, false, false}, "photo": {}},
		valuation.ByTrack:  {"hand": {true, false, false}, "track": {false, true, false}},
		valuation.BySeller: {"said": {}},
	} {
		n := inspect(t, l, "40", valuation.InspectOptions{Here: []string{here}})
		for id, want := range want {
			c, ok := n.Check("point:" + id)
			if got := minded(c); !ok || got != want {
				t.Errorf("%s by %s: %v, %v", id, here, ok, got)
			}
		}
	}
}

// minded tells whether opening, power and solvents are to be minded of a check.
func minded(c valuation.Check) (out [3]bool) {
	for i, what := range []string{checklist.MindOpening, checklist.MindPower, checklist.MindSolvent} {
		out[i] = slices.Contains(c.Mind, what)
	}
	return out
}
