package valuation

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"lotgauge/valuation/belief"
	"lotgauge/valuation/checklist"
)

// A reading says of each state of a point how well the state explains it. A
// state whose range holds the reading explains it fully, and so does a state
// without a range. Outside its range a state explains it as far as an error of
// the instrument may, see [atLeast]: a reading that lies inside one range by more
// than that settles the state, where ranges only touch; nearer to the end of the
// range it is shared with the neighbour.

// readingShape is how readings are written.
const readingShape = `a number and the unit, such as "13.9 mm"`

// reading resolves what was measured of a point.
func (r *resolver) reading(f *Finding, point int) (belief.Finding, bool) {
	p, at := &r.family.Points[point], f.pos(r.listing.File, "reading")
	if p.Measure == nil {
		r.report(at, "point "+quoted(f.Point)+" has nothing to measure", "state = one of "+listed(stateIDs(p)), "")
		return belief.Finding{}, false
	}
	value, err := parseReading(f.Reading, p.Measure)
	if err != nil {
		r.report(at, err.Error(), readingShape, "")
		return belief.Finding{}, false
	}
	r.readings = append(r.readings, explained(p, value, errorOf(p.Measure, f.Reading)))
	return belief.Finding{Kind: belief.PointReading, Subject: point, Value: len(r.readings) - 1}, true
}

// parseReading reads "13.9 mm" as a number of the measure's unit.
func parseReading(text string, m *checklist.Measure) (float64, error) {
	number, ok := strings.CutSuffix(strings.TrimSpace(text), m.Unit)
	if !ok {
		return 0, fmt.Errorf("%s is not in %s, the unit of the %s", quoted(text), m.Unit, m.What)
	}
	number = strings.TrimSpace(number)
	value, err := strconv.ParseFloat(number, 64)
	if err != nil || strings.Trim(number, "0123456789.") != "" {
		return 0, fmt.Errorf("%s is no number in plain digits", quoted(number))
	}
	return value, nil
}

// errorOf is how far a reading usually is off at most: what the family says, and no
// less than its last digit. What is never off, such as a count, stays so.
func errorOf(m *checklist.Measure, reading string) float64 {
	if m.Within == 0 {
		return 0
	}
	return max(m.Within, resolution(reading))
}

// resolution is what the last digit of a reading stands for, 0.1 in "13.9 mm": one
// written down to whole millimetres cannot settle tenths, whatever the gauge.
func resolution(text string) float64 {
	_, after, _ := strings.Cut(text, ".")
	places := len(after) - len(strings.TrimLeft(after, "0123456789"))
	return math.Pow10(-places)
}

// explained is how well each state of a measured point explains a reading that
// usually is off by no more than within.
func explained(p *checklist.Point, value, within float64) belief.Reading {
	out := make(belief.Reading, len(p.States))
	for s := range p.States {
		out[s] = 1
		if r := p.States[s].Range; r != nil {
			if off := r.Off(value); off > 0 {
				out[s] = atLeast(off, within)
			}
		}
	}
	return out
}

// atLeast is the chance that a reading is as far off as that, where it usually is
// off by no more than within: (1 − off/3·within)⁷, so that one in seventeen is
// off by more than that, one in two thousand by twice and none by three times as
// much. It fades out that softly because a reading one digit farther off must not
// turn a doubt into a certainty (a choice, no source).
func atLeast(off, within float64) float64 {
	const nothing = 1e-9 // what decimals lose as binary fractions
	if within == 0 {
		return 0
	}
	left := 1 - off/(3*within)
	if left < nothing {
		return 0
	}
	square := left * left
	return square * square * square * left
}

// readingChance is the chance of the states that explain a reading at all.
func (a *appraiser) readingChance(b belief.Finding) Share {
	sum := 0.0
	for s, chance := range a.posterior.Point(b.Subject) {
		if a.model.Readings[b.Value][s] > 0 {
			sum += chance
		}
	}
	return Share(sum)
}

// A Taken is what a reading is taken for.
type Taken struct {
	// Title is that of the point.
	Title string
	// Against says where it lies against the readings of a sound one, "below
	// 14.0 mm"; empty where a sound one may read anything.
	Against string
	// Likeliest is the state that is the likeliest by all that is known now, where
	// a sound one does not read so: empty where it does. Chance is that of the state.
	Likeliest string
	Chance    Share
	// Implausible: no state is anywhere near, so that it is rather a slip. Right
	// is what a sound one reads.
	Implausible bool
	Right       string
}

// String is what it is taken for in words, "below 14.0 mm, most likely exchanged
// (98%)".
func (t Taken) String() string {
	if t.Likeliest == "" {
		return t.Against
	}
	return fmt.Sprintf("%s, most likely %s (%.0f%%)", t.Against, t.Likeliest, 100*t.Chance)
}

// Taken is what an answer to the check of a key is taken for, if it is a reading.
func (n *Inspection) Taken(key, answer string) (Taken, bool) {
	id, _ := strings.CutPrefix(key, CheckPoint+":")
	i := n.a.family.PointIndex(id)
	if id == key || i < 0 || n.a.family.Points[i].Measure == nil {
		return Taken{}, false
	}
	p := &n.a.family.Points[i]
	value, err := parseReading(answer, p.Measure)
	if err != nil {
		return Taken{}, false
	}
	out := Taken{Title: p.Title, Right: p.Right(), Implausible: p.Implausible(value)}
	if r := p.States[0].Range; r != nil {
		out.Against = p.Measure.Against(*r, value)
		if r.Off(value) > 0 {
			out.Likeliest, out.Chance = n.likeliest(subject{kind: CheckPoint, index: i})
		}
	}
	return out, true
}

// likeliest is the answer to a check that is the likeliest now, empty where there
// is none: the model lacks the point.
func (n *Inspection) likeliest(s subject) (title string, chance Share) {
	for _, a := range n.answers(s) {
		if a.Chance > chance {
			title, chance = a.Title, a.Chance
		}
	}
	return title, chance
}
