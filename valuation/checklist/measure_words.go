package checklist

import (
	"math"
	"strconv"
	"strings"
)

// Limits are the readings of a range in words, "14.0 to 14.1 mm".
func (m *Measure) Limits(r Range) string {
	switch {
	case math.IsInf(r.From, -1):
		return "at most " + m.amount(r, r.To)
	case math.IsInf(r.To, 1):
		return "at least " + m.amount(r, r.From)
	}
	from, _ := strings.CutSuffix(m.amount(r, r.From), " "+m.Unit)
	return from + " to " + m.amount(r, r.To)
}

// Right is what a sound one reads, in words; empty where that may be anything.
func (p *Point) Right() string {
	if r := p.States[0].Range; r != nil && p.Measure != nil {
		return p.Measure.Limits(*r)
	}
	return ""
}

// Against says where a reading lies against a range, "below 14.0 mm", or "just
// below 14.0 mm" where an error may have put it there.
func (m *Measure) Against(r Range, value float64) string {
	side, end := "below ", r.From
	switch {
	case r.Off(value) == 0:
		return "right, " + m.Limits(r)
	case value > r.To:
		side, end = "above ", r.To
	}
	const nothing = 1e-9 // what decimals lose as binary fractions
	if r.Off(value) <= m.Within+nothing {
		side = "just " + side
	}
	return side + m.amount(r, end)
}

// amount is an end of a range with its unit, with as many decimals as the ends
// and the error have.
func (m *Measure) amount(r Range, x float64) string {
	places := 0
	for _, f := range []float64{m.Within, r.From, r.To} {
		if !math.IsInf(f, 0) {
			_, after, _ := strings.Cut(strconv.FormatFloat(f, 'f', -1, 64), ".")
			places = max(places, len(after))
		}
	}
	return strconv.FormatFloat(x, 'f', places, 64) + " " + m.Unit
}

// farOff is from how many times the usual error on a reading is rather a slip
// of the hand (a choice, no source).
const farOff = 10

// Implausible tells whether a reading lies so far from what any state allows
// that it is rather a slip, of the gauge or of the finger.
func (p *Point) Implausible(value float64) bool {
	nearest := math.Inf(1)
	for _, s := range p.States {
		if s.Range != nil {
			nearest = min(nearest, s.Range.Off(value))
		}
	}
	return p.Measure != nil && !math.IsInf(nearest, 1) && nearest > farOff*p.Measure.Within
}
