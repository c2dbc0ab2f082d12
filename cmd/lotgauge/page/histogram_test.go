package page

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
)

// number is a place of a shape as a number.
func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimSuffix(s, "%"), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func (c *chart) of(kind, class string) []shape {
	var out []shape
	for _, s := range c.Shapes {
		if s.Kind == kind && (s.Class == class || strings.HasPrefix(s.Class, class+" ")) {
			out = append(out, s)
		}
	}
	return out
}

// TestHistogramHollow: the hollow bars end where the landed ask stands, and
// both kinds together hold all of the area.
func TestHistogramHollow(t *testing.T) {
	a := rich()
	w := newView(a).Worth
	ask := number(t, w.Plot.of("line", "pin ask")[0].X)
	area, lost := 0.0, 0.0
	for _, class := range []string{"lost", "kept"} {
		for _, bar := range w.Plot.of("rect", class) {
			from, size := number(t, bar.X), number(t, bar.W)*number(t, bar.H)
			area += size
			if class == "lost" {
				lost += size
			}
			if end := from + number(t, bar.W); class == "lost" && end > ask+0.011 || class == "kept" && from < ask-0.011 {
				t.Errorf("a %s bar from %v to %v; the ask is at %v", class, from, end, ask)
			}
		}
	}
	below := 0.0
	for _, b := range a.Reading.Worths {
		below += b.Share * min(max((72.05-b.From)/(b.To-b.From), 0), 1)
	}
	if math.Abs(lost/area-below) > 0.002 {
		t.Errorf("%v of the area is hollow, want %v", lost/area, below)
	}
}

// TestPinLabels: no two labels share a line, whatever the amounts, and each
// reads towards the side with more room.
func TestPinLabels(t *testing.T) {
	for _, c := range []struct {
		stop, careful, ask string
		want               []string
	}{
		{"78.20", "56.67", "72.05", []string{"careful 56.67", "asked 72.05", "stop 78.20"}},
		{"78.20", "78.20", "78.20", []string{"stop 78.20", "careful 78.20", "asked 78.20"}},
		{"120.00", "150.00", "20.00", []string{"asked 20.00", "careful 150.00", "stop 120.00"}},
		{"78.20", "56.67", "9000.00", []string{"asked 9000.00 →", "careful 56.67", "stop 78.20"}},
		{"78.20", "-900.00", "72.05", []string{"← careful −900.00", "asked 72.05", "stop 78.20"}},
	} {
		a := rich()
		p := &a.Purchase
		p.BreakEvenLanded, p.CarefulLanded, p.Landed = cashPtr(c.stop), cashPtr(c.careful), cashPtr(c.ask)
		plot := newView(a).Worth.Plot
		var got []string
		last := -100.0
		for _, label := range plot.of("text", "label") {
			got = append(got, label.Text)
			if y := number(t, label.Y); y < last+pinRow {
				t.Errorf("%s stands %v below the label before", label.Text, y-last)
			} else {
				last = y
			}
			if x := number(t, label.X); (x > 50) != (label.Anchor == "end") {
				t.Errorf("%s at %v is set from its %s", label.Text, x, label.Anchor)
			}
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%+v:\n%s", c, diff)
		}
	}
}

func TestHistogramEdges(t *testing.T) {
	for name, c := range map[string]struct {
		bins         []valuation.Bin
		rects, lines int
	}{
		"one worth":   {[]valuation.Bin{{From: 80, To: 80, Share: 1}}, 0, 1},
		"worth of 0":  {[]valuation.Bin{{Share: 1}}, 0, 1},
		"empty bins":  {[]valuation.Bin{{From: 0, To: 50}, {From: 50, To: 100}}, 0, 0},
		"uneven bins": {[]valuation.Bin{{From: 80, To: 90, Share: 0.5}, {From: 90, To: 110, Share: 0.5}}, 2, 0},
	} {
		a := rich()
		a.Reading.Worths = c.bins
		plot := newView(a).Worth.Plot
		rects := append(plot.of("rect", "kept"), plot.of("rect", "lost")...)
		if len(rects) != c.rects || len(plot.of("line", "single")) != c.lines {
			t.Errorf("%s: %d bars and %d lines", name, len(rects), len(plot.of("line", "single")))
		}
		if name == "uneven bins" && number(t, rects[0].H) != 2*number(t, rects[1].H) {
			t.Errorf("%s: heights %s and %s; a bar twice as wide is half as high", name, rects[0].H, rects[1].H)
		}
	}
}

func TestShading(t *testing.T) {
	a := rich()
	if got, want := newView(a).Worth.Caption, "Hollow: what is asked costs more than it turns out to be worth, in 39 of 100 cases."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	a.Purchase.Landed = nil
	if got, want := newView(a).Worth.Caption, "Hollow: the highest bid costs more than it turns out to be worth, in 49 of 100 cases."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	a.Purchase.BreakEvenLanded = nil
	v := newView(a)
	if v.Worth.Caption != "" || len(v.Worth.Plot.of("rect", "lost")) > 0 {
		t.Errorf("without a cost the plot says %q", v.Worth.Caption)
	}
}
