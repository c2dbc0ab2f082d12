package valuation_test

import (
	"strings"
	"testing"

	"github.com/BurntSushi/toml"

	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
)

// dimensions are the published limits that measured points are held against; the
// file names their sources.
type dimensions struct {
	Meta struct {
		BackToBackWithin float64 `toml:"back_to_back_within"`
	}
	Wheel struct {
		Old struct {
			G wheelset `toml:"g16_5"`
		} `toml:"nem310_1976"`
		New struct {
			G wheelset `toml:"g16_5"`
		} `toml:"nem310_2009"`
		Three struct {
			G wheelset `toml:"g16_6_three_rail"`
		} `toml:"nem340"`
	}
	Check struct {
		BackToBack struct {
			Two   window `toml:"H0_two_rail"`
			Three window `toml:"H0_three_rail"`
		} `toml:"back_to_back"`
	}
	Voltage struct {
		AC struct {
			Nominal float64 `toml:"nominal_V_rms"`
			Pulse   float64 `toml:"reverse_pulse_V"`
		} `toml:"nem640_ac"`
	}
}

type wheelset struct {
	KMax float64 `toml:"K_max"`
	BMin float64 `toml:"B_min"`
	B, T []float64
}

type window struct{ Low, High float64 }

func readDimensions(t *testing.T) *dimensions {
	t.Helper()
	var d dimensions
	if _, err := toml.DecodeFile("../testdata/reference/dimensions.toml", &d); err != nil {
		t.Fatal(err)
	}
	return &d
}

// TestWindows derives the windows for back-to-back from the sheets.
func TestWindows(t *testing.T) {
	d, c := readDimensions(t), &comparison{T: t}
	three, two := d.Wheel.Three.G, d.Check.BackToBack.Two
	c.near("three-rail, low", d.Check.BackToBack.Three.Low, three.BMin, exactly)
	c.near("three-rail, high", d.Check.BackToBack.Three.High, three.KMax-three.T[0], exactly)
	c.near("two-rail, low", two.Low, min(d.Wheel.Old.G.BMin, d.Wheel.New.G.B[0]), exactly)
	c.near("two-rail, high", two.High, d.Wheel.New.G.B[1], exactly)
}

// TestBuiltInMeasures: the limits of the built-in families are the published
// ones, and name where they are from.
func TestBuiltInMeasures(t *testing.T) {
	d, l := readDimensions(t), openDemo(t)
	families, _ := l.Families()
	seen := map[string]int{}
	for _, id := range families {
		f, diags := l.Family(id)
		if diags.HasErrors() {
			t.Fatal(diags)
		}
		for i := range f.Points {
			p := &f.Points[i]
			if p.Measure == nil {
				continue
			}
			seen[p.Measure.Unit]++
			switch p.Measure.Unit {
			case "mm":
				d.checkBackToBack(t, f, p)
			case "V":
				checkRange(t, f, p, "sound", d.Voltage.AC.Nominal, d.Voltage.AC.Pulse, "NEM 640")
			case "ohm":
				checkRange(t, f, p, "shorted", 0, p.States[0].Range.From, "NEM 621")
			default:
				t.Errorf("%s: %s is measured in %s, for which there is no published limit", id, p.ID, p.Measure.Unit)
			}
		}
	}
	if seen["mm"] != len(families) || seen["V"] < 2 || seen["ohm"] < 1 {
		t.Errorf("measured: %v", seen)
	}
}

func (d *dimensions) checkBackToBack(t *testing.T, f *checklist.Family, p *checklist.Point) {
	t.Helper()
	w, source := d.Check.BackToBack.Two, "NEM 310"
	if strings.Contains(f.Title, "three-rail") {
		w, source = d.Check.BackToBack.Three, "NEM 340"
	}
	if p.ID != "wheels" || p.Measure.Within < d.Meta.BackToBackWithin {
		t.Errorf("%s: %s is measured to %v mm", f.ID, p.ID, p.Measure.Within)
	}
	for _, state := range []string{"sound", "oxidised", "worn"} { // dirt and wear do not move a wheel
		checkRange(t, f, p, state, w.Low, w.High, source)
	}
}

// checkRange holds the range of a state against limits; 0 stands for an open
// lower end.
func checkRange(t *testing.T, f *checklist.Family, p *checklist.Point, state string, low, high float64, source string) {
	t.Helper()
	r := p.States[p.StateIndex(state)].Range
	if r == nil || max(r.From, 0) != low || r.To != high {
		t.Errorf("%s: %s is %s at %v, want %v to %v", f.ID, p.ID, state, r, low, high)
	}
	if !strings.Contains(p.Measure.Source, source) {
		t.Errorf("%s: the source of %s is %q, want %s", f.ID, p.ID, p.Measure.Source, source)
	}
}

// TestBackToBackFindings: what a caliper shows of the demonstration's wheels, by
// the chance that they are exchanged ones. A caliper read to a tenth leaves a doubt
// up to two tenths off the limit.
func TestBackToBackFindings(t *testing.T) {
	l := openDemo(t)
	for _, row := range []struct {
		family, reading string
		from, to        valuation.Share
	}{
		{"pellworth-ce4", "14.05 mm", 0, 0.2},
		{"pellworth-ce4", "14.15 mm", 0, 0.3}, // a caliper may be off by that
		{"pellworth-ce4", "14.4 mm", 1, 1},    // a two-rail set
		{"pellworth-ce4", "13.95 mm", 0, 0.3},
		{"pellworth-ce4", "13.91 mm", 0.2, 0.6},
		{"pellworth-ce4", "13.90 mm", 0.2, 0.6}, // hardly more than at 13.91
		{"pellworth-ce4", "13.9 mm", 0.2, 0.6},
		{"pellworth-ce4", "13.8 mm", 0.9, 0.9999},
		{"pellworth-ce4", "13.7 mm", 1, 1},
		{"pellworth-ce4", "14 mm", 0, 0.2},
		{"pellworth-ce4", "13 mm", 0.2, 0.6}, // to the millimetre: as 13.9 is to the tenth
		{"tarnside-r12", "14.4 mm", 0, 0.2},
		{"tarnside-r12", "14.25 mm", 0, 0.3},
		{"tarnside-r12", "14.0 mm", 1, 1}, // a three-rail set
		{"tarnside-s3", "14.75 mm", 0, 0.9},
		{"tarnside-s3", "14.9 mm", 1, 1},
	} {
		x, diags := l.NewFind(row.family, "", "stall-cash", aDay)
		if diags.HasErrors() {
			t.Fatal(diags)
		}
		n := inspectListing(t, l, x, valuation.InspectOptions{Options: valuation.Options{Draws: 200}})
		answer(t, n, "point:wheels", row.reading)
		c, _ := n.Check("point:wheels")
		exchanged := c.Answers[3]
		if exchanged.ID != "exchanged" || exchanged.Chance < row.from || exchanged.Chance > row.to {
			t.Errorf("%s at %s: exchanged with chance %v", row.family, row.reading, exchanged.Chance)
		}
	}
}
