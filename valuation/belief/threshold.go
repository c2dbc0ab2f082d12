package belief

import (
	"math/bits"
	"math/rand/v2"
)

// Drawing is by inversion (Devroye, Non-Uniform Random Variate Generation,
// Springer 1986, ISBN 0-387-96305-7, section III.2,
// http://luc.devroye.org/rnbookindex.html). Draws are compared as whole numbers
// of 63 bits, which all platforms agree on; what a float of 2^64 becomes as
// uint64 is left to each of them (https://go.dev/ref/spec#Conversions).

// never is a threshold that no draw of 63 bits reaches.
const never = uint64(1) << 63

// thresholds appends to out the cumulative thresholds for drawing an index
// with probability proportional to w: the index drawn is the number of
// thresholds that the draw has reached. States without weight are never drawn,
// and the last one with weight has the threshold never.
func thresholds(out []uint64, w []float64) []uint64 {
	sum, last := 0.0, 0
	for i, x := range w {
		if x > 0 {
			sum += x
			last = i
		}
	}
	cum := 0.0
	for _, x := range w[:last] {
		cum += x
		out = append(out, min(never, uint64(cum/sum*(1<<63))))
	}
	return append(out, never)
}

// pad fills thresholds up to a width: an index beyond is never drawn.
func pad(t []uint64, width int) []uint64 {
	for len(t) < width {
		t = append(t, never)
	}
	return t
}

// quick is up to how many answers are drawn without a loop. Most points have no
// more states.
const quick = 4

// reached is how many of the first three thresholds a draw has reached, without
// a branch, since one that turns on chance costs more: Sub64 borrows where the
// draw is below the threshold.
func reached(draw uint64, t *[quick]uint64) int {
	_, a := bits.Sub64(draw, t[0], 0)
	_, b := bits.Sub64(draw, t[1], 0)
	_, c := bits.Sub64(draw, t[2], 0)
	return int(3 - a - b - c)
}

// reachedOf is reached for any number of thresholds.
func reachedOf(draw uint64, t []uint64) int {
	below := uint64(0)
	for _, x := range t {
		_, borrow := bits.Sub64(draw, x, 0)
		below += borrow
	}
	return len(t) - int(below)
}

// unit draws a number from 0 up to but not including 1, on a grid of 2^-53.
func unit(src *rand.PCG) float64 { return float64(src.Uint64()>>11) * (1.0 / (1 << 53)) }

// continued is a draw that begins with the given early digits.
func continued(src *rand.PCG, first uint64) uint64 { return first<<late | src.Uint64()>>(64-late) }

// tally draws n indices and counts each. A guide table over the top eight bits
// says where the search starts (the indexed search of Chen and Asau, On
// generating random variates from an empirical distribution, AIIE Transactions
// 6, 1974, pp. 163-166), and where no threshold begins with these bits it ends
// there too: the other bits are not drawn.
func tally(src *rand.PCG, t []uint64, n, size int) []int {
	var guide [entries]int
	for first, k := 0, 0; first < len(guide); first++ {
		for uint64(first)<<late >= t[k] {
			k++
		}
		guide[first] = k
	}
	counts := make([]int, size)
	for ; n > 0; n -= 8 {
		word := src.Uint64()
		for range min(n, 8) {
			first := word % entries
			k := guide[first]
			if t[k]>>late == first {
				for draw := continued(src, first); draw >= t[k]; {
					k++
				}
			}
			counts[k]++
			word >>= early
		}
	}
	return counts
}
