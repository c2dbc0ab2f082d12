package belief

import (
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestThresholds(t *testing.T) {
	const half, quarter = uint64(1) << 62, uint64(1) << 61
	for _, row := range []struct {
		w    []float64
		want []uint64
	}{
		{[]float64{1}, []uint64{never}},
		{[]float64{1, 1}, []uint64{half, never}},
		{[]float64{1, 2, 1}, []uint64{quarter, 3 * quarter, never}},
		{[]float64{0, 2, 2}, []uint64{0, half, never}},
		{[]float64{3, 0, 3, 0}, []uint64{half, half, never}}, // what comes after the last weight is dropped
		{[]float64{0, 0, 5}, []uint64{0, 0, never}},
		{[]float64{1e-320, 1e-320}, []uint64{half, never}},
		{[]float64{1, 1e-30}, []uint64{never, never}},
		{[]float64{0, 0}, []uint64{never}},
	} {
		if diff := cmp.Diff(row.want, thresholds(nil, row.w)); diff != "" {
			t.Errorf("%v: -want +got:\n%s", row.w, diff)
		}
	}
}

// The three ways to draw by thresholds, one at a time, a column and a count,
// answer alike bit for bit.
func TestDrawingByThresholdsAgrees(t *testing.T) {
	for _, w := range [][]float64{{1}, {0, 1}, {1, 3}, {1, 0, 2}, {5, 1, 1, 2}, {0, 0, 0, 1}, {1, 2, 3, 4, 5}, {1, 1, 0, 1, 1, 0, 0, 9, 1e-9}} {
		cut := thresholds(nil, w)
		single := make([]uint8, 5000)
		src := rand.NewPCG(1, 2)
		counts := make([]int, len(w))
		for k := range single {
			x := reachedOf(src.Uint64()>>1, cut)
			single[k] = uint8(x)
			counts[x]++
		}
		column := make([]uint8, len(single))
		fill(rand.NewPCG(1, 2), column, cut)
		if diff := cmp.Diff(single, column); diff != "" {
			t.Errorf("%v: a column differs:\n%s", w, diff)
		}
		if diff := cmp.Diff(counts, tally(rand.NewPCG(1, 2), cut, len(single), len(w))); diff != "" {
			t.Errorf("%v: a count differs:\n%s", w, diff)
		}
		for x, c := range counts {
			if w[x] == 0 && c > 0 {
				t.Errorf("%v: %d drawn", w, x)
			}
		}
	}
}

func TestUnitStaysBelowOne(t *testing.T) {
	src := rand.NewPCG(4, 4)
	sum := 0.0
	for range 100000 {
		x := unit(src)
		if x < 0 || x >= 1 {
			t.Fatal(x)
		}
		sum += x
	}
	if far(sum/100000, 0.5, 4.5*0.2887/316) { // standard deviation of a uniform is 0.2887
		t.Errorf("mean %g", sum/100000)
	}
}
