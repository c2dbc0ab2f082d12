package prices

import (
	"math"
	"slices"
)

// theilSen is the median of the slopes between any two points, an interval for
// it, and the confidence that the interval reaches, at least the one asked for.
// x must be sorted ascending and y as long.
//
// Theil, A rank-invariant method of linear and polynomial regression analysis,
// 1950; Sen, Estimates of the Regression Coefficient Based on Kendall's Tau,
// Journal of the American Statistical Association 63(324), 1968, pp. 1379-1389,
// doi 10.1080/01621459.1968.10480934, who has pairs of equal x left out. The
// slopes below the true one are as many as the inversions of y − slope·x, and
// those are distributed as in a random order. So the interval leaves out, at
// either end, the k slopes of which k or fewer would be below the true one with
// a probability of at most half of what may be missed: Hollander, Wolfe and
// Chicken, Nonparametric Statistical Methods, 3rd edition, 2014,
// ISBN 978-0-470-38737-5, section 9.3; Conover, Practical Nonparametric Statistics,
// 3rd edition, 1999, ISBN 0-471-16068-7, section 5.5 (both from memory; the tests
// have Sen's own example). The distribution is
// exact and not the normal approximation of Gilbert, Statistical Methods for
// Environmental Pollution Monitoring, 1987, ISBN 0-442-23050-8, section 16.5 (from
// memory), which is for ten points or more.
//
// Prices that are equal are so by rounding and need no care: no pair of them
// stays equal when a slope is taken off.
//
// Without slopes all is NaN. Where the slopes are too few for the confidence the
// interval is without ends and its confidence 1.
func theilSen(x, y []float64, confidence float64) (slope, low, high, reached float64) {
	slopes := pairSlopes(x, y)
	if len(slopes) == 0 {
		return math.NaN(), math.NaN(), math.NaN(), math.NaN()
	}
	slope = Quantile7(slopes, 0.5)
	k, below, missed := -1, 0.0, 0.0
	for i, p := range inversions(groupSizes(x)) {
		if below += p; 2*below > 1-confidence+roundOff {
			break
		}
		k, missed = i, 2*below
	}
	if k < 0 {
		return slope, math.Inf(-1), math.Inf(1), 1
	}
	return slope, slopes[k], slopes[len(slopes)-1-k], round(1-missed, logPlaces)
}

// roundOff is more than the sums of chances are off by, and less than any
// difference between them that matters.
const roundOff = 1e-12

// pairSlopes are the slopes between points of different x, ascending.
func pairSlopes(x, y []float64) []float64 {
	slopes := make([]float64, 0, len(x)*(len(x)-1)/2)
	for j := range x {
		for i := range j {
			if x[i] != x[j] {
				slopes = append(slopes, (y[j]-y[i])/(x[j]-x[i]))
			}
		}
	}
	slices.Sort(slopes)
	return slopes
}

// groupSizes are the lengths of the runs of equal values.
func groupSizes(x []float64) []int {
	var sizes []int
	for i := range x {
		if i == 0 || x[i] != x[i-1] {
			sizes = append(sizes, 0)
		}
		sizes[len(sizes)-1]++
	}
	return sizes
}

// inversions are the chances of 0, 1, 2 … inversions between members of
// different groups, where every order of all members is equally likely.
//
// The number of orders with r of them is the coefficient of q^r in the Gaussian
// multinomial, the product of (1−q^i) for i up to all members over the same for
// each group: Stanley, Enumerative Combinatorics 1, 2nd edition, 2012,
// ISBN 978-1-107-60262-5, section 1.7 (from memory). With groups of one it is Mahonian, the
// distribution of Kendall's tau; with two groups it is that of Mann and
// Whitney's U. One member after the other is put in, each time multiplied by
// (1−q^all)/(1−q^own), and divided by its value at q = 1, all/own, so that what
// is kept are chances.
func inversions(groups []int) []float64 {
	chances, all := []float64{1}, 0
	for _, size := range groups {
		for own := 1; own <= size; own++ {
			all++
			chances = widen(chances, all, own)
		}
	}
	return chances
}

// widen multiplies chances, a polynomial in q, by (1−q^all)/(1−q^own)·own/all.
// With all = own that is nothing. The quotient is a polynomial, since the
// Gaussian coefficients are.
func widen(chances []float64, all, own int) []float64 {
	wide := make([]float64, len(chances)+all-own)
	for r := range wide {
		p := 0.0
		if r < len(chances) {
			p = chances[r]
		}
		if r >= all {
			p -= chances[r-all]
		}
		wide[r] = p
	}
	for r := own; r < len(wide); r++ {
		wide[r] += wide[r-own]
	}
	for r := range wide {
		wide[r] = wide[r] * float64(own) / float64(all)
	}
	return wide
}
