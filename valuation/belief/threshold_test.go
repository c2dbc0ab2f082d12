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

// inverted is the plain rule that all ways to draw are held against: how many
// of the thresholds a draw has reached.
func inverted(draw uint64, thresholds []uint64) int {
	n := 0
	for _, t := range thresholds {
		if draw >= t {
			n++
		}
	}
	return n
}

// depends says whether a draw that begins with the early digits given can end on
// either side of a threshold.
func depends(first uint64, thresholds []uint64) bool {
	return inverted(first<<late, thresholds) != inverted(first<<late|(1<<late-1), thresholds)
}

var testWeights = [][]float64{
	{1}, {0, 1}, {1, 3}, {1, 0, 2}, {95, 3, 1, 1}, {0, 0, 0, 1}, {1, 2, 3, 4, 5}, {1, 1, 0, 1, 1, 0, 0, 9, 1e-9},
	{1, 1e-30}, {1e-30, 1}, {1e-30, 1e-30, 1, 1e-30}, {3, 1e-12, 1e-12, 5}, {0, 0, 0}, {1, 255}, {255, 1}, {1, 510, 1},
}

// Two whole draws on either side of a threshold get different states, in both
// ways of comparing.
func TestReachedIsInversion(t *testing.T) {
	for _, w := range testWeights {
		cut := thresholds(nil, w)
		for _, near := range cut {
			for _, draw := range []uint64{0, near - 1, near, near + 1, never - 1} {
				if draw >= never {
					continue
				}
				want := inverted(draw, cut)
				if got := reachedOf(draw, cut); got != want {
					t.Errorf("%v, %#x: index %d, want %d", w, draw, got, want)
				}
				if len(cut) > quick {
					continue
				}
				if got := reached(draw, (*[quick]uint64)(pad(cut[:len(cut):len(cut)], quick))); got != want {
					t.Errorf("%v, %#x: index %d quickly, want %d", w, draw, got, want)
				}
			}
		}
	}
}

// A count is that of the draws inverted one at a time: those with the early
// digits of a word, eight to a word, and with the late ones of another where
// these matter.
func TestTallyCountsDraws(t *testing.T) {
	for _, w := range testWeights {
		for _, n := range []int{0, 1, 7, 8, 9, 5000} {
			cut := thresholds(nil, w)
			src := rand.NewPCG(1, 2)
			want := make([]int, len(w))
			for k := 0; k < n; k += 8 {
				for word, left := src.Uint64(), min(8, n-k); left > 0; word, left = word>>early, left-1 {
					draw := word % entries << late
					if depends(word%entries, cut) {
						draw |= src.Uint64() >> (64 - late)
					}
					want[inverted(draw, cut)]++
				}
			}
			if diff := cmp.Diff(want, tally(rand.NewPCG(1, 2), cut, n, len(w))); diff != "" {
				t.Errorf("%v: -want +got:\n%s", w, diff)
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
