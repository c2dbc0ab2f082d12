package belief

import (
	"bytes"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A guide says what inversion says of all draws that begin alike, and leaves
// open just those where it depends on how they go on.
func TestGuideIsInversion(t *testing.T) {
	for _, w := range testWeights {
		cut := pad(thresholds(nil, w), quick)
		guide := bytes.Repeat([]byte{77}, entries+8)
		setGuide(guide, cut)
		for first := range uint64(entries) {
			got, least := guide[first], inverted(first<<late, cut)
			switch {
			case !depends(first, cut):
				if int(got) != least {
					t.Errorf("%v, digits %08b: entry %#x, want state %d", w, first, got, least)
				}
			case got&undecided == 0:
				t.Errorf("%v, digits %08b: decided on %d too early", w, first, got)
			case cut[got&^undecided]>>late != first:
				t.Errorf("%v, digits %08b: threshold %d begins otherwise", w, first, got&^undecided)
			}
		}
	}
}

// A column has the states of plain inversion for the same digits, with whichever
// masks, states and number of cases.
func TestColumnIsPlainInversion(t *testing.T) {
	for seed := range uint64(400) {
		r := rand.New(rand.NewPCG(seed, 9))
		masks, states := 1<<r.IntN(5), 1+r.IntN(8)
		if seed%20 == 0 {
			states = 120 + r.IntN(NotApplicable-120) // up to as many as there may be
		}
		weights := make([][]float64, masks)
		for m := range weights {
			weights[m] = randomWeights(r, states)
		}
		mask := make([]int, r.IntN(80*masks))
		for k := range mask {
			mask[k] = r.IntN(masks)
		}
		column := bytes.Repeat([]byte{77}, len(mask)+9)
		x := inversion{src: rand.NewPCG(seed, 2), guides: bytes.Repeat([]byte{78}, 9*entries), t: []uint64{5, 5, 5, 5, 5, 5}}
		x.draw(column[:len(mask)], mask, masks, states, func(m int) []float64 { return weights[m] })
		want := append(plainColumn(rand.NewPCG(seed, 2), mask, weights), column[len(mask):]...)
		if diff := cmp.Diff(want, column); diff != "" {
			t.Fatalf("seed %d, %d cases, %d masks, %d states: -want +got:\n%s", seed, len(mask), masks, states, diff)
		}
		if !bytes.Equal(column[len(mask):], bytes.Repeat([]byte{77}, 9)) {
			t.Fatalf("seed %d: written beyond %d cases", seed, len(mask))
		}
	}
}

// randomWeights are weights of which many are zero, or as good as zero.
func randomWeights(r *rand.Rand, states int) []float64 {
	w := make([]float64, states)
	for i := range w {
		w[i] = r.Float64() * []float64{0, 0, 1e-15, 0.01, 1}[r.IntN(5)]
	}
	if r.IntN(3) == 0 {
		w[0] = 10
	}
	return w
}

// plainColumn inverts draws one by one. They take their digits from a source as
// the package promises: all 63 from a word, or, where there are many cases to a
// mask, the first eight from a byte of a word and the others, where they matter,
// from another.
func plainColumn(src *rand.PCG, mask []int, weights [][]float64) []uint8 {
	draws := make([]uint64, len(mask))
	cut := make([][]uint64, len(weights))
	for m, w := range weights {
		cut[m] = thresholds(nil, w)
	}
	if n := len(mask); len(weights[0]) > undecided || n < plenty*len(weights) {
		for k := range draws {
			draws[k] = src.Uint64() >> 1
		}
	} else {
		for k := 0; k < n; k += 8 {
			word := src.Uint64()
			for i := range 8 {
				draws[min(k, n-8)+i] = word >> (8 * i) % entries << late
			}
		}
		for k, m := range mask {
			if depends(draws[k]>>late, cut[m]) {
				draws[k] |= src.Uint64() >> (64 - late)
			}
		}
	}
	column := make([]uint8, len(mask))
	for k, draw := range draws {
		column[k] = uint8(inverted(draw, cut[mask[k]]))
	}
	return column
}

func TestAppendUndecided(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 6))
	for n := range 40 {
		column, want := make([]uint8, n), []int32{-1}
		for k := range column {
			column[k] = []uint8{0, 0, 1, 0x7f, 0x80, 0xff}[r.IntN(6)]
			if column[k] >= undecided {
				want = append(want, int32(k))
			}
		}
		if got := appendUndecided([]int32{-1}, column); !slices.Equal(got, want) {
			t.Errorf("%v: %v, want %v", column, got, want)
		}
	}
}
