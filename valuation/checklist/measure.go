package checklist

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"lotgauge/valuation/diag"
)

// A Measure is what a gauge or a meter shows of a point.
type Measure struct {
	// What is measured, and the Unit as it stands behind a reading, "mm".
	What, Unit string
	// Within is how far a reading usually is off at most, in the unit, 0 for not
	// at all.
	Within float64
	// Source is where the limits come from, "" where that is not said.
	Source string
}

// A Range is readings from From to To, both included. An end that is open is an
// infinity.
type Range struct{ From, To float64 }

// Off is how far a reading lies outside of the range, 0 within it.
func (r Range) Off(value float64) float64 { return max(0, r.From-value, value-r.To) }

// maxReading is the largest reading a range may name. None is below zero: what
// is measured are lengths, voltages and the like.
const maxReading = 1e6

// measure reads the measure of a point:
//
//	measure = { unit = "mm", what = "back-to-back of the wheels", within = 0.1, source = "…" }
func measure(t *diag.Table) *Measure {
	c := t.Child("measure")
	if c == nil {
		return nil
	}
	m := &Measure{What: c.Required("what"), Unit: c.Required("unit"), Source: c.Text("source")}
	if c.Need("within", "how far a reading usually is off at most, such as 0.1") {
		m.Within = c.Number("within", 0, 0, maxReading)
	}
	return m
}

// readings reads the range of a state, { from = 14.0, to = 14.1 } with either
// end left open.
func readings(t *diag.Table) *Range {
	c := t.Child("range")
	if c == nil {
		return nil
	}
	r := &Range{From: math.Inf(-1), To: math.Inf(1)}
	if c.Has("from") {
		r.From = c.Number("from", r.From, 0, maxReading)
	}
	if c.Has("to") {
		r.To = c.Number("to", r.To, 0, maxReading)
	}
	switch {
	case c.Unread("from") || c.Unread("to"):
	case !c.Has("from") && !c.Has("to"):
		t.Report("range", "a range open at both ends", "from, to or both", "leaving it out where any reading will do")
	case r.From > r.To:
		c.Report("to", "the range ends before it begins", fmt.Sprintf("at least %g", r.From), "")
	}
	return r
}

// checkRanges reports ranges without a measure, a measure without ranges, and
// readings that no state allows: a finding of one would be impossible evidence.
func checkRanges(t *diag.Table, p Point) {
	var ranges []Range
	unread := t.Unread("state")
	for i, c := range t.Children("state") {
		unread = unread || c.Unread("range")
		if r := p.States[i].Range; r != nil {
			ranges = append(ranges, *r)
			if p.Measure == nil && !t.Unread("measure") {
				c.Report("range", "a range of readings, but the point has no measure",
					`measure = { unit = "mm", what = "…", within = 0.1 } at the point`, "")
			}
		}
	}
	if p.Measure == nil || unread {
		return
	}
	if len(ranges) == 0 {
		t.Report("measure", "no state has a range of readings", "range = { from = …, to = … } at one state or more", "")
	} else if where := gap(ranges); where != "" && len(ranges) == len(p.States) {
		t.Report("state", "no state allows a reading "+where, "ranges that leave no gap, or a state without one", "")
	}
}

// gap tells in words which readings, from 0 up, are in none of the ranges: the
// lowest such.
func gap(ranges []Range) string {
	slices.SortFunc(ranges, func(a, b Range) int { return cmp.Compare(a.From, b.From) })
	reached := 0.0
	for _, r := range ranges {
		if r.From > reached {
			return fmt.Sprintf("between %g and %g", reached, r.From)
		}
		reached = max(reached, r.To)
	}
	if math.IsInf(reached, 1) {
		return ""
	}
	return fmt.Sprintf("above %g", reached)
}

// warnMeasure warns of a measure that tells no state from another.
func warnMeasure(t *diag.Table, p Point) {
	if p.Measure == nil {
		return
	}
	first := p.States[0].Range
	same := func(s State) bool { return s.Range != nil && first != nil && *s.Range == *first }
	if !slices.ContainsFunc(p.States, func(s State) bool { return !same(s) }) {
		t.Warn("measure", "all states allow the same readings", "ranges that differ", "")
	}
}
