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

// pick draws an index. It looks at all of the thresholds, which are few, since a
// branch that turns on chance costs more: Sub64 borrows where the draw is below
// the threshold.
func pick(src *rand.PCG, t []uint64) int {
	u, below := src.Uint64()>>1, uint64(0)
	for _, x := range t {
		_, borrow := bits.Sub64(u, x, 0)
		below += borrow
	}
	return len(t) - int(below)
}

// unit draws a number from 0 up to but not including 1, on a grid of 2^-53.
func unit(src *rand.PCG) float64 { return float64(src.Uint64()>>11) * (1.0 / (1 << 53)) }

// fill draws a column. Most points have up to four states, for which it is pick
// without the loop.
func fill(src *rand.PCG, column []uint8, t []uint64) {
	switch {
	case len(t) == 1:
		clear(column)
	case len(t) <= 4:
		all := [3]uint64{never, never, never}
		copy(all[:], t)
		for k := range column {
			u := src.Uint64() >> 1
			_, a := bits.Sub64(u, all[0], 0)
			_, b := bits.Sub64(u, all[1], 0)
			_, c := bits.Sub64(u, all[2], 0)
			column[k] = uint8(3 - a - b - c)
		}
	default:
		for k := range column {
			column[k] = uint8(pick(src, t))
		}
	}
}

// tally draws n indices and counts each. A guide table over the top eight bits
// says where the search starts (the indexed search of Chen and Asau, On
// generating random variates from an empirical distribution, AIIE Transactions
// 6, 1974, pp. 163-166).
func tally(src *rand.PCG, t []uint64, n, size int) []int {
	var guide [256]int
	for top, k := 0, 0; top < len(guide); top++ {
		for uint64(top)<<55 >= t[k] {
			k++
		}
		guide[top] = k
	}
	counts := make([]int, size)
	for range n {
		u := src.Uint64() >> 1
		k := guide[u>>55]
		for u >= t[k] {
			k++
		}
		counts[k]++
	}
	return counts
}
