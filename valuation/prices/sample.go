package prices

import (
	"math"
	"slices"
)

// Quantile7 is the p-quantile of values that are sorted ascending, by type 7 of
// Hyndman and Fan, Sample Quantiles in Statistical Packages, The American
// Statistician 50(4), 1996, doi 10.2307/2684934: linear between the values, of
// which the first is the 0-quantile and the last the 1-quantile. p below 0 or
// above 1 is taken as 0 or 1. The quantile of no values is NaN.
func Quantile7(sorted []float64, p float64) float64 {
	if len(sorted) == 0 || math.IsNaN(p) {
		return math.NaN()
	}
	h := float64(float64(len(sorted)-1) * min(max(p, 0), 1))
	i := int(h)
	if i == len(sorted)-1 {
		return sorted[i]
	}
	part := h - float64(i)
	return float64((1-part)*sorted[i]) + float64(part*sorted[i+1])
}

// Constants of the modified z-score. 0.6745 is the 0.75-quantile of the
// standard normal, so that the median absolute deviation estimates its standard
// deviation; 1.253314 is √(π/2), which does that for the mean absolute one.
const (
	medianScale = 0.6745
	meanScale   = 1.253314
	// maxZ is the size above which Iglewicz and Hoaglin call a value a
	// potential outlier.
	maxZ = 3.5
)

// ModifiedZ is the modified z-score of each value, 0.6745·(x−median)/MAD with
// MAD the median absolute deviation from the median: Iglewicz and Hoaglin, How
// to Detect and Handle Outliers, 1993, ISBN 0-87389-247-X, as in the
// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17,
// https://www.itl.nist.gov/div898/handbook/eda/section3/eda35h.htm. Where MAD
// is 0, since more than half of the values are equal, it is
// (x−median)/(1.253314·mean absolute deviation), the usual way out (from
// memory, no source); where all are equal, 0.
func ModifiedZ(x []float64) []float64 {
	z := make([]float64, len(x))
	if len(x) == 0 {
		return z
	}
	copy(z, x)
	centre, sum := median(z), 0.0
	for i, v := range x {
		z[i] = math.Abs(v - centre)
		sum += z[i]
	}
	scale := median(z) / medianScale
	if scale == 0 {
		scale = meanScale * sum / float64(len(x))
	}
	if scale == 0 {
		clear(z)
		return z
	}
	for i, v := range x {
		z[i] = (v - centre) / scale
	}
	return z
}

// median is the middle value, or the mean of the two middle ones. It sorts x.
func median(x []float64) float64 {
	slices.Sort(x)
	return Quantile7(x, 0.5)
}
