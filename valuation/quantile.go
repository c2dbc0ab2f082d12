package valuation

import (
	"lotgauge/valuation/prices"
	"math"
	"slices"
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

// tenths are the 10%, 50% and 90% points of xs (type 7), which it reorders.
func tenths(xs []float64) (p10, p50, p90 float64) {
	q := quantiles7(xs, 0.1, 0.5, 0.9)
	return q[0], q[1], q[2]
}

// quantiles7 are Hyndman and Fan's type 7 at ascending ps, without sorting all
// of xs, which it reorders. They agree with prices.Quantile7, which wants xs
// sorted.
func quantiles7(xs []float64, ps ...float64) []float64 {
	out, from := make([]float64, len(ps)), 0
	for i, p := range ps {
		h := float64(len(xs)-1) * p
		j := int(h)
		lo := nth(xs[from:], j-from) // what is below is in place already
		from = j
		next := lo
		if j+1 < len(xs) {
			next = slices.Min(xs[j+1:])
		}
		out[i] = prices.Quantile7([]float64{lo, next}, h-float64(j))
	}
	return out
}

// nth is the n-th smallest of xs, n from 0. It partitions xs around it (Hoare,
// Algorithm 65: Find, Communications of the ACM 4, 1961).
func nth(xs []float64, n int) float64 {
	lo, hi := 0, len(xs)-1
	for lo < hi {
		pivot := xs[lo+(hi-lo)/2]
		i, j := lo, hi
		for i <= j {
			for xs[i] < pivot {
				i++
			}
			for xs[j] > pivot {
				j--
			}
			if i <= j {
				xs[i], xs[j] = xs[j], xs[i]
				i++
				j--
			}
		}
		switch {
		case n <= j:
			hi = j
		case n >= i:
			lo = i
		default:
			return xs[n]
		}
	}
	return xs[n]
}
