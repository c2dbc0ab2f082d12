package valuation

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"lotgauge/valuation/checklist"
)

// FuzzParseReading: what is read is a number that a gauge can show, and written
// plainly with its unit it reads the same.
func FuzzParseReading(f *testing.F) {
	for _, seed := range []string{"13.9 mm", "13.9mm", " 14 mm ", ".5 mm", "5. mm", "1e3 mm", "0x1p4 mm", "1_000 mm", "inf mm", "NaN mm", "-1 mm", "+1 mm", "13,9 mm", "mm", "14 mm mm", "1.2.3 mm", "999999999999999999999999 mm", "１４ mm"} {
		f.Add(seed)
	}
	m := &checklist.Measure{What: "gauge", Unit: "mm", Within: 0.1}
	f.Fuzz(func(t *testing.T, text string) {
		value, err := parseReading(text, m)
		if err != nil {
			return
		}
		if !(value >= 0) || math.IsInf(value, 0) {
			t.Fatalf("%q is %v", text, value)
		}
		plain := strconv.FormatFloat(value, 'f', -1, 64) + " mm"
		if again, err := parseReading(plain, m); err != nil || again != value {
			t.Errorf("%q is %v, %s is %v, %v", text, value, plain, again, err)
		}
	})
}

// TestExplained states the laws of readings, over random ranges without a gap:
// some state explains each reading fully, none does by less than nothing, and
// what lies three times as far off as an error usually goes is not explained at
// all, and up to twice as far off it is. Nearer to a range it is explained better.
func TestExplained(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 7))
	for range 300 {
		p := &checklist.Point{Measure: &checklist.Measure{Unit: "mm", Within: rng.Float64() * 2}}
		from := math.Inf(-1)
		for range 1 + rng.IntN(4) {
			to := max(from, 0) + 3*rng.Float64()
			p.States = append(p.States, checklist.State{Range: &checklist.Range{From: from, To: to}})
			from = to
		}
		p.States = append(p.States, checklist.State{Range: &checklist.Range{From: from, To: math.Inf(1)}})
		if rng.IntN(2) == 0 {
			p.States = append(p.States, checklist.State{})
		}
		for range 20 {
			value := 14 * rng.Float64()
			checkExplained(t, p, value)
		}
	}
}

func checkExplained(t *testing.T, p *checklist.Point, value float64) {
	t.Helper()
	fully := false
	farther := explained(p, value+0.01, p.Measure.Within)
	for s, x := range explained(p, value, p.Measure.Within) {
		fully = fully || x == 1
		r := p.States[s].Range
		switch {
		case x < 0 || x > 1:
			t.Fatalf("%v explains %v by %v", r, value, x)
		case r == nil:
			if x != 1 {
				t.Fatalf("a state without a range explains %v by %v", value, x)
			}
		case (x == 1) != (r.From <= value && value <= r.To):
			t.Fatalf("%v explains %v by %v", *r, value, x)
		case max(r.From-value, value-r.To) >= 3*p.Measure.Within && x > 0:
			t.Fatalf("%v explains %v by %v, within %v", *r, value, x, p.Measure.Within)
		case max(r.From-value, value-r.To) <= 2*p.Measure.Within && x == 0:
			t.Fatalf("%v does not explain %v, within %v", *r, value, p.Measure.Within)
		case max(r.From-value, value-r.To) > p.Measure.Within && x > 0.0586: // (2/3)⁷
			t.Fatalf("%v explains %v by %v, within %v", *r, value, x, p.Measure.Within)
		case value > r.To && farther[s] > x:
			t.Fatalf("%v explains %v by %v, a reading farther off by %v", *r, value, x, farther[s])
		}
	}
	if !fully {
		t.Fatalf("nothing explains %v fully", value)
	}
}
