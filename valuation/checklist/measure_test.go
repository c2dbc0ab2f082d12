package checklist

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation/diag"
)

// measured says what is wrong with the measure of a point: by trying readings,
// not by looking at where ranges end.
func measured(p Point) error {
	ranged := slices.ContainsFunc(p.States, func(s State) bool { return s.Range != nil })
	switch m := p.Measure; {
	case (m != nil) != ranged:
		return errors.New("measure and ranges go together")
	case m == nil:
		return nil
	case m.What == "" || m.Unit == "" || m.Within < 0 || math.IsInf(m.Within, 1):
		return fmt.Errorf("%+v", *m)
	}
	tries := []float64{0, maxReading}
	for _, s := range p.States {
		if r := s.Range; r != nil {
			if r.From > r.To || math.IsInf(r.From, -1) && math.IsInf(r.To, 1) {
				return fmt.Errorf("%s: %v", s.ID, *r)
			}
			tries = append(tries, r.From, r.To, math.Nextafter(r.From, 0), math.Nextafter(r.To, math.Inf(1)))
		}
	}
	for _, x := range tries {
		allows := func(s State) bool { return s.Range == nil || s.Range.From <= x && x <= s.Range.To }
		if x >= 0 && x <= maxReading && !slices.ContainsFunc(p.States, allows) {
			return fmt.Errorf("no state allows %v", x)
		}
	}
	return nil
}

func TestRanges(t *testing.T) {
	inf := math.Inf(1)
	for _, row := range []struct {
		keys string
		want *Range
	}{
		{``, nil},
		{`, range = { from = 14.0, to = 14.1 }`, &Range{14, 14.1}},
		{`, range = { from = 14 }`, &Range{14, inf}},
		{`, range = { to = 14.1 }`, &Range{-inf, 14.1}},
		{`, range = { from = 0, to = 0 }`, &Range{0, 0}},
		{`, range.from = 3, range.to = 4.5`, &Range{3, 4.5}},
	} {
		text := `measure = { unit = "mm", what = "gauge", within = 0.1 }
state = [{ id = "sound" }, { id = "tight", range = { to = 14 } }, { id = "worn"` + row.keys + ` }]`
		p := lastPoint(t, text)
		if diff := cmp.Diff(row.want, p.States[2].Range); diff != "" {
			t.Errorf("%q (-want +got):\n%s", row.keys, diff)
		}
		if diff := cmp.Diff(&Measure{What: "gauge", Unit: "mm", Within: 0.1}, p.Measure); diff != "" {
			t.Errorf("measure (-want +got):\n%s", diff)
		}
	}
}

// TestGaps reads random ranges, and finds what they leave open by trying every
// reading between their ends.
func TestGaps(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	refused := 0
	for range 500 {
		var states []string
		allowed := func(x float64) bool { return false }
		for i := range 2 + rng.IntN(3) {
			from, to := rng.IntN(6), 6
			keys := []string{fmt.Sprintf("from = %d", from)}
			if rng.IntN(3) > 0 {
				to = from + rng.IntN(6-from)
				keys = append(keys, fmt.Sprintf("to = %d", to))
			}
			before := allowed
			allowed = func(x float64) bool { return before(x) || float64(from) <= x && x <= float64(to) }
			states = append(states, fmt.Sprintf("{ id = \"s%d\", range = { %s } }", i, strings.Join(keys, ", ")))
		}
		gap := false
		for i := range 12 {
			gap = gap || !allowed(float64(i)/2)
		}
		text := three + "measure = { unit = \"mm\", what = \"gauge\", within = 1 }\nstate = [" + strings.Join(states, ", ") + "]"
		doc := diag.ReadDocument("", strings.NewReader(text))
		Read(doc, nil)
		if doc.Diagnostics().HasErrors() != gap {
			t.Fatalf("%v: gap is %v, and diagnostics are %v", states, gap, doc.Diagnostics())
		}
		refused += map[bool]int{true: 1}[gap]
	}
	if refused < 50 || refused > 450 {
		t.Errorf("%d of 500 have a gap: this tries one side only", refused)
	}
}
