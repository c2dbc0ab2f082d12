package valuation_test

import (
	"testing"

	"lotgauge/valuation"
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
			"point:reverser-spring": {true, false}, "point:reverser": {true, true}, "point:pantograph-front": {false, false},
			"variant:pellworth-ce4": {false, false}, "symptom:no-movement": {false, true},
		} {
			c, ok := n.Check(key)
			if !ok && (key != "symptom:no-movement" || len(here) > 1) {
				t.Errorf("no check %s by %v", key, here)
			}
			if ok && [2]bool{c.Opens, c.Powered} != want {
				t.Errorf("%s by %v: opens %v, powered %v", key, here, c.Opens, c.Powered)
			}
		}
	}
}
