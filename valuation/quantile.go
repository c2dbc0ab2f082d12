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

// quantiles7 are Hyndman and Fan's type 7 at ps, without sorting all of xs. They
// agree with prices.Quantile7, which wants xs sorted.
func quantiles7(xs []float64, ps ...float64) []float64 { return newRanking(xs).quantiles7(ps...) }

// ranking finds values by their rank. It counts how many fall into each of many
// equal intervals, and sorts only the intervals that the wanted ranks are in (the
// first pass of a bucket sort; Knuth, The Art of Computer Programming 3, 1998,
// section 5.2.5, from memory).
type ranking struct {
	xs     []float64
	grid   grid
	before [intervals + 1]int // how many are in the intervals below
}

// intervals is how many intervals a grid has.
const intervals = 1024

func newRanking(xs []float64) *ranking {
	r := &ranking{xs: xs, grid: newGrid(xs)}
	var count [2][intervals]int32 // by turns: what has just been written is slow to read
	grid := r.grid
	for k, x := range xs {
		count[k&1][grid.interval(x)&(intervals-1)]++
	}
	for i := range intervals {
		r.before[i+1] = r.before[i] + int(count[0][i]+count[1][i])
	}
	return r
}

// grid divides the values from low up into intervals. The zero grid has one.
type grid struct{ low, perUnit float64 }

func newGrid(xs []float64) grid {
	if len(xs) == 0 {
		return grid{}
	}
	low, high := xs[0], xs[0]
	for _, x := range xs {
		if x < low {
			low = x
		}
		if x > high {
			high = x
		}
	}
	perUnit := (intervals - 0.5) / (high - low)
	if !(perUnit > 0) || math.IsInf(perUnit, 0) { // too far apart, all the same, or no numbers
		return grid{}
	}
	return grid{low, perUnit}
}

// interval is the interval of a value. It rises with the value, whatever the
// rounding: so the order of the intervals is that of the values.
func (g grid) interval(x float64) int { return int((x - g.low) * g.perUnit) }

// quantiles7 are those of type 7.
func (r *ranking) quantiles7(ps ...float64) []float64 {
	last, out := len(r.xs)-1, make([]float64, len(ps))
	ends := make([]int, 0, 2*len(ps))
	for i, p := range ps {
		out[i] = float64(float64(last) * p)
		j := int(out[i])
		ends = append(ends, j, min(j+1, last))
	}
	at := r.nths(ends...)
	for i, h := range out {
		out[i] = prices.Quantile7(at[2*i:2*i+2], h-float64(int(h)))
	}
	return out
}

// nths are the n-th smallest values, for each n from 0.
func (r *ranking) nths(ns ...int) []float64 {
	var sought [intervals]uint8 // 1 for the first interval that a rank is in
	var sorted [][]float64
	for _, n := range ns {
		if i := r.holds(n); sought[i] == 0 {
			sorted = append(sorted, make([]float64, 0, r.before[i+1]-r.before[i]))
			sought[i] = uint8(len(sorted))
		}
	}
	grid := r.grid
	for _, x := range r.xs {
		if at := sought[grid.interval(x)&(intervals-1)]; at != 0 {
			sorted[at-1] = append(sorted[at-1], x)
		}
	}
	for _, some := range sorted {
		slices.Sort(some)
	}
	out := make([]float64, len(ns))
	for i, n := range ns {
		in := r.holds(n)
		out[i] = sorted[sought[in]-1][n-r.before[in]]
	}
	return out
}

// holds is the interval that the n-th smallest is in.
func (r *ranking) holds(n int) int { return sort.SearchInts(r.before[1:], n+1) }
