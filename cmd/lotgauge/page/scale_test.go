package page

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		lo, hi float64
		most   int
		want   []float64
	}{
		{0, 10, 5, []float64{0, 5, 10}},
		{0, 10, 6, []float64{0, 2, 4, 6, 8, 10}},
		{0, 100, 3, []float64{0, 50, 100}},
		{13, 97, 5, []float64{20, 40, 60, 80}},
		{-95.35, 116.72, 5, []float64{-50, 0, 50, 100}},
		{0, 0.3, 4, []float64{0, 0.1, 0.2, 0.3}},
		{0.011, 0.019, 9, []float64{0.011, 0.012, 0.013, 0.014, 0.015, 0.016, 0.017, 0.018, 0.019}},
		{0, 1, 1, []float64{0}},
		{3, 4, 1, []float64{4}},
		{3.1, 3.2, 1, []float64{3.2}},
		{6, 7, 0, []float64{6}},
		{5, 5, 4, []float64{5}},
		{0, 123456789, 4, []float64{0, 5e7, 1e8}},
		{-1e-9, 1e-9, 3, []float64{-1e-9, 0, 1e-9}},
		{1, 0, 4, nil},
		{math.NaN(), 1, 4, nil},
		{0, math.Inf(1), 4, nil},
		{-math.MaxFloat64, math.MaxFloat64, 4, nil},
	} {
		if diff := cmp.Diff(c.want, ticks(c.lo, c.hi, c.most)); diff != "" {
			t.Errorf("ticks(%v, %v, %d):\n%s", c.lo, c.hi, c.most, diff)
		}
	}
}

func FuzzTicks(f *testing.F) {
	f.Add(0.0, 10.0, 5)
	f.Add(-95.35, 116.72, 5)
	f.Add(1e18, 1e18+256, 4)
	f.Add(5e-324, 1e-323, 3)
	f.Add(-1e308, 1e308, 7)
	f.Fuzz(func(t *testing.T, lo, hi float64, most int) {
		most = min(max(most, 1), 50)
		all := ticks(lo, hi, most)
		if len(all) > most {
			t.Fatalf("%d ticks, asked for %d: %v", len(all), most, all)
		}
		for i, v := range all {
			if v < lo || v > hi || i > 0 && v <= all[i-1] {
				t.Fatalf("ticks(%v, %v, %d) = %v", lo, hi, most, all)
			}
		}
		if finite(hi-lo) && hi >= lo && len(all) == 0 {
			t.Fatalf("no tick from %v to %v", lo, hi)
		}
	})
}

// TestAxisTicks: long labels leave room for fewer ticks.
func TestAxisTicks(t *testing.T) {
	for _, c := range []struct {
		lo, hi float64
		want   int
	}{{0, 10, 3}, {0, 100, 3}, {13, 97, 4}, {0, 5e6, 3}, {0, 5e12, 2}, {1e13, 9e13, 1}} {
		if got := axisTicks(c.lo, c.hi); len(got) != c.want {
			t.Errorf("axisTicks(%v, %v) = %v, want %d", c.lo, c.hi, got, c.want)
		}
	}
}

func TestScaleAt(t *testing.T) {
	s := scale{10, 20, 0, 100}
	down := scale{0, 50, 80, 10}
	for _, c := range []struct {
		scale
		v, want float64
	}{
		{s, 10, 0}, {s, 15, 50}, {s, 20, 100}, {s, 9, 0}, {s, 1e300, 100}, {s, math.Inf(-1), 0}, {s, math.NaN(), 50},
		{down, 0, 80}, {down, 50, 10}, {down, 25, 45}, {down, 60, 10},
		{scale{3, 3, 0, 100}, 3, 50}, {scale{5, 1, 0, 100}, 3, 50},
	} {
		if got := c.at(c.v); got != c.want {
			t.Errorf("%+v at %v is %v, want %v", c.scale, c.v, got, c.want)
		}
	}
}

func TestTickLabel(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", 0.3: "0.3", -50: "−50", 1500: "1500", 20000: "20\u202f000", 1e6: "1\u202f000\u202f000", 0.001: "0.001",
	} {
		if got := tickLabel(v); got != want {
			t.Errorf("tickLabel(%v) = %q, want %q", v, got, want)
		}
	}
}

func TestPixels(t *testing.T) {
	for v, want := range map[float64]string{0: "0", -0.001: "0", 12.345: "12.35", 100: "100", 33.333333: "33.33", -2.5: "-2.5"} {
		if got := pixels(v); got != want {
			t.Errorf("pixels(%v) = %q, want %q", v, got, want)
		}
	}
}
