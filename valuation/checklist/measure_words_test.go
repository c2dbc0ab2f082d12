package checklist_test

import (
	"math"
	"testing"

	"lotgauge/valuation/checklist"
)

func TestLimitsInWords(t *testing.T) {
	mm := &checklist.Measure{Unit: "mm", Within: 0.1}
	volts := &checklist.Measure{Unit: "V", Within: 1}
	for _, row := range []struct {
		m             *checklist.Measure
		r             checklist.Range
		value         float64
		limits, found string
	}{
		{mm, checklist.Range{From: 14, To: 14.1}, 13.9, "14.0 to 14.1 mm", "just below 14.0 mm"},
		{mm, checklist.Range{From: 14, To: 14.1}, 13.89, "14.0 to 14.1 mm", "below 14.0 mm"},
		{mm, checklist.Range{From: 14, To: 14.1}, 14, "14.0 to 14.1 mm", "right, 14.0 to 14.1 mm"},
		{mm, checklist.Range{From: 14, To: 14.125}, 14.2, "14.000 to 14.125 mm", "just above 14.125 mm"},
		{volts, checklist.Range{From: 16, To: math.Inf(1)}, 15, "at least 16 V", "just below 16 V"},
		{volts, checklist.Range{From: math.Inf(-1), To: 24}, 25, "at most 24 V", "just above 24 V"},
		{volts, checklist.Range{From: math.Inf(-1), To: 24}, 26, "at most 24 V", "above 24 V"},
	} {
		if got := row.m.Limits(row.r); got != row.limits {
			t.Errorf("%v: %q, want %q", row.r, got, row.limits)
		}
		if got := row.m.Against(row.r, row.value); got != row.found {
			t.Errorf("%v against %v: %q, want %q", row.value, row.r, got, row.found)
		}
	}
}

// A reading is a slip only where no state is near it: a set gauged for other
// track is none, and where a range is open there is none on that side.
func TestImplausibleReadings(t *testing.T) {
	wheels := &checklist.Point{Measure: &checklist.Measure{Unit: "mm", Within: 0.1}, States: []checklist.State{
		{Range: &checklist.Range{From: 14, To: 14.1}}, {},
	}}
	open := &checklist.Point{Measure: &checklist.Measure{Unit: "V", Within: 1}, States: []checklist.State{
		{Range: &checklist.Range{From: 16, To: math.Inf(1)}},
	}}
	for _, row := range []struct {
		p     *checklist.Point
		value float64
		want  bool
	}{
		{wheels, 14, false}, {wheels, 13.5, false}, {wheels, 14.6, false}, {wheels, 40, true}, {wheels, 1.39, true},
		{open, 400, false}, {open, 8, false}, {open, 1, true}, {&checklist.Point{}, 3, false},
	} {
		if got := row.p.Implausible(row.value); got != row.want {
			t.Errorf("%v: %v, want %v", row.value, got, row.want)
		}
	}
}
