package valuation

import (
	"math"
	"slices"
	"sort"

	"lotgauge/valuation/prices"
)

// deviation is the standard deviation of xs, with n−1.
func deviation(xs []float64) float64 {
	n := float64(len(xs))
	if n < 2 {
		return 0
	}
	mean := 0.0
	for _, x := range xs {
		mean += x
	}
	mean /= n
	sum := 0.0
	for _, x := range xs {
		sum += float64((x - mean) * (x - mean))
	}
	return math.Sqrt(sum / (n - 1))
}

// tenths are the 10%, 50% and 90% points of xs (type 7).
func tenths(xs []float64) (p10, p50, p90 float64) {
	q := quantiles7(xs, 0.1, 0.5, 0.9)
	return q[0], q[1], q[2]
}

// quantiles7 are Hyndman and Fan's type 7 at ps, without sorting all of xs. They
// agree with prices.Quantile7, which wants xs sorted.
func quantiles7(xs []float64, ps ...float64) []float64 {
	r, out := newRanking(xs), make([]float64, len(ps))
	for i, p := range ps {
		h := float64(len(xs)-1) * p
		j := int(h)
		ends := []float64{r.nth(j), r.nth(min(j+1, len(xs)-1))}
		out[i] = prices.Quantile7(ends, h-float64(j))
	}
	return out
}

// nth is the n-th smallest of xs, n from 0.
func nth(xs []float64, n int) float64 { return newRanking(xs).nth(n) }

// ranking finds values by their rank. It counts how many fall into each of many
// equal intervals, and sorts only the interval that a rank is in (the first pass
// of a bucket sort; Knuth, The Art of Computer Programming 3, 1998, section
// 5.2.5, from memory).
type ranking struct {
	xs         []float64
	low, scale float64            // scale is 0 where all are equal, or too far apart
	before     [intervals + 1]int // how many are in the intervals below
	at         int                // interval that is sorted, -1 for none
	sorted     []float64
}

// intervals is how many intervals a ranking has.
const intervals = 1024

func newRanking(xs []float64) *ranking {
	r := &ranking{xs: xs, at: -1}
	if len(xs) == 0 {
		return r
	}
	high := xs[0]
	r.low = high
	for _, x := range xs {
		r.low, high = min(r.low, x), max(high, x)
	}
	if scale := (intervals - 0.5) / (high - r.low); scale < math.Inf(1) {
		r.scale = scale
	}
	for _, x := range xs {
		r.before[r.interval(x)+1]++
	}
	for i := range intervals {
		r.before[i+1] += r.before[i]
	}
	return r
}

// interval is the interval of a value. It rises with the value, whatever the
// rounding: so the order of the intervals is that of the values.
func (r *ranking) interval(x float64) int {
	if r.scale == 0 {
		return 0
	}
	return int((x - r.low) * r.scale)
}

// nth is the n-th smallest, n from 0.
func (r *ranking) nth(n int) float64 {
	i := sort.SearchInts(r.before[1:], n+1)
	if r.at != i {
		r.at, r.sorted = i, r.sorted[:0]
		for _, x := range r.xs {
			if r.interval(x) == i {
				r.sorted = append(r.sorted, x)
			}
		}
		slices.Sort(r.sorted)
	}
	return r.sorted[n-r.before[i]]
}
