package valuation

import (
	"lotgauge/valuation/prices"
	"math"
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
	return quantile7(xs, 0.1), quantile7(xs, 0.5), quantile7(xs, 0.9)
}

// quantile7 is Hyndman and Fan's type 7 without sorting all of xs, which it
// reorders. It agrees with prices.Quantile7, which wants them sorted.
func quantile7(xs []float64, p float64) float64 {
	h := float64(len(xs)-1) * p
	j := int(h)
	lo := nth(xs, j)
	if j+1 >= len(xs) {
		return lo
	}
	next := xs[j+1]
	for _, x := range xs[j+2:] {
		next = min(next, x)
	}
	return prices.Quantile7([]float64{lo, next}, h-float64(j))
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
