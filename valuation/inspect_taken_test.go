package valuation_test

import (
	"math"
	"testing"

	"lotgauge/valuation"
)

// gauged has one point whose sound state reads 14.0 to 14.1 mm.
const gauged = only + `
[[point]]
id = "wheels"
measure = { unit = "mm", what = "back-to-back", within = 0.1 }
state = [
  { id = "sound", range = { from = 14.0, to = 14.1 } }, { id = "other", factor = 0.5, cure = "none" },
]
`

// A reading settles no more than its last digit does: whole millimetres leave
// open what tenths would settle.
func TestCoarseReadings(t *testing.T) {
	sound := func(reading string) float64 {
		n := inspect(t, bench(t, gauged), "60", valuation.InspectOptions{Options: valuation.Options{Draws: 500}})
		answer(t, n, "point:wheels", reading)
		c, _ := n.Check("point:wheels")
		return float64(c.Answers[0].Chance)
	}
	if coarse, fine := sound("13 mm"), sound("13.0 mm"); coarse <= 0.01 || fine != 0 { // a whole millimetre off, and ten tenths
		t.Errorf("13 mm leaves %v, 13.0 mm %v", coarse, fine)
	}
	if a, b := sound("13.9 mm"), sound("13.90 mm"); a != b {
		t.Errorf("a finer reading than the gauge is counts as %v, not %v", b, a)
	}
}

// TestTaken: what a reading is taken for, and when it is rather a slip.
func TestTaken(t *testing.T) {
	n := inspect(t, bench(t, gauged), "60", valuation.InspectOptions{})
	if c, _ := n.Check("point:wheels"); c.Right != "14.0 to 14.1 mm" {
		t.Errorf("right is %q", c.Right)
	}
	for reading, want := range map[string]valuation.Taken{
		"13.95 mm": {Against: "just below 14.0 mm", Right: "14.0 to 14.1 mm", Likeliest: "other", Chance: 0.78},
		"13.9 mm":  {Against: "just below 14.0 mm", Right: "14.0 to 14.1 mm", Likeliest: "other", Chance: 0.94},
		"13.8 mm":  {Against: "below 14.0 mm", Right: "14.0 to 14.1 mm", Likeliest: "other", Chance: 1},
		"14.05 mm": {Against: "right, 14.0 to 14.1 mm", Right: "14.0 to 14.1 mm"},
		"40 mm":    {Against: "above 14.1 mm", Right: "14.0 to 14.1 mm", Implausible: true, Likeliest: "other", Chance: 1},
	} {
		answer(t, n, "point:wheels", reading)
		got, ok := n.Taken("point:wheels", reading)
		got.Chance = valuation.Share(math.Round(float64(got.Chance)*100) / 100)
		want.Title = "wheels"
		if !ok || got != want {
			t.Errorf("%s: %+v", reading, got)
		}
	}
	if got := (valuation.Taken{Against: "below 14.0 mm", Likeliest: "other", Chance: 0.976}).String(); got != "below 14.0 mm, most likely other (98%)" {
		t.Error(got)
	}
	if got := (valuation.Taken{Against: "right, 14.0 to 14.1 mm"}).String(); got != "right, 14.0 to 14.1 mm" {
		t.Error(got)
	}
	for _, row := range [][2]string{{"point:wheels", "sound"}, {"variant:f", "14 mm"}, {"point:gone", "14 mm"}} {
		if got, ok := n.Taken(row[0], row[1]); ok {
			t.Errorf("%v is a reading: %+v", row, got)
		}
	}
}
