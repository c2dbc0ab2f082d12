package page

import (
	"math"
	"strconv"
)

// A scale maps the values from lo to hi onto the places from near to far of a
// plot: percents across, pixels down. Values outside are held at the ends.
type scale struct{ lo, hi, near, far float64 }

// at is the place of a value. A scale of no length has one place, its middle.
func (s scale) at(v float64) float64 {
	if !(s.hi > s.lo) || math.IsNaN(v) {
		return (s.near + s.far) / 2
	}
	share := (min(max(v, s.lo), s.hi) - s.lo) / (s.hi - s.lo)
	return s.near + float64(share*(s.far-s.near))
}

// ticks are the round values from lo to hi: multiples of 1, 2 or 5 times a
// power of ten, as many as there can be but at most most. There is at least
// one, or none where the range is not finite.
func ticks(lo, hi float64, most int) []float64 {
	if !finite(lo) || !finite(hi) || !finite(hi-lo) || hi < lo {
		return nil
	}
	if hi == lo {
		return []float64{lo}
	}
	for s := leastStep(hi - lo); ; s = s.next() {
		if all := s.within(lo, hi, max(most, 1)); all != nil {
			return all
		}
	}
}

// A step is digit · 10^power, with 1, 2 or 5 for the digit.
type step struct{ digit, power int }

// leastStep is a step far too fine for a span.
func leastStep(span float64) step {
	_, binary := math.Frexp(span)
	return step{1, max(int(math.Floor(float64(binary)*math.Log10E*math.Ln2))-4, -300)}
}

func (s step) next() step {
	switch s.digit {
	case 1:
		return step{2, s.power}
	case 2:
		return step{5, s.power}
	}
	return step{1, s.power + 1}
}

// times is k steps, correctly rounded.
func (s step) times(k float64) float64 {
	if s.power < 0 {
		return k * float64(s.digit) / math.Pow10(-s.power)
	}
	return k * float64(s.digit) * math.Pow10(s.power)
}

// within are the multiples of the step from lo to hi, nil where there are more
// than most. Where there is none at all, lo stands in for it.
func (s step) within(lo, hi float64, most int) []float64 {
	const slack = 1e-9 // for a quotient that rounding left just off a whole one
	unit := s.times(1)
	first, last := math.Ceil(lo/unit-slack), math.Floor(hi/unit+slack)
	if last-first >= float64(most) {
		return nil
	}
	var all []float64
	for i := range int(last-first) + 1 {
		v := s.times(first+float64(i)) + 0 // +0: no negative zero
		if v >= lo && v <= hi && (all == nil || v > all[len(all)-1]) {
			all = append(all, v)
		}
	}
	if all == nil {
		return []float64{lo}
	}
	return all
}

// axisLetters is how many characters the labels of an axis have room for
// together, on a narrow phone.
const axisLetters = 26

// axisTicks are ticks for an axis across, no more than there is room for.
func axisTicks(lo, hi float64) []float64 {
	for most := 5; ; most-- {
		all := ticks(lo, hi, most)
		letters := 0
		for _, t := range all {
			letters += len([]rune(tickLabel(t))) + 1
		}
		if letters <= axisLetters || most == 1 {
			return all
		}
	}
}

// tickLabel is a tick in plain digits, grouped by thousands.
func tickLabel(v float64) string {
	return grouped(strconv.FormatFloat(v, 'f', -1, 64))
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
