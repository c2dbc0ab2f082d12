package prices

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Student is Student's t distribution, moved and stretched.
type Student struct {
	Freedom float64 // degrees of freedom, above 0, whole or not
	Mu      float64 // location
	Scale   float64 // not the standard deviation, which is larger
}

// Quantile is the value that is not exceeded with probability p, for p above 0
// and below 1.
func (s Student) Quantile(p float64) float64 {
	return s.Mu + float64(s.Scale*studentQuantile(s.Freedom, p))
}

// studentQuantile is the quantile of the standard t distribution. With
// x = freedom/(freedom+t²) the two tails beyond ±t have the probability
// Iₓ(freedom/2, 1/2), the regularized incomplete beta function: Abramowitz and
// Stegun, Handbook of Mathematical Functions, 26.5.27 and 26.7.1 (p. 948), from
// memory; https://dlmf.nist.gov/8.17 for the function. Good to 1e-12
// for up to 1,000 degrees of freedom and to 1e-8 for a million.
func studentQuantile(freedom, p float64) float64 {
	if p == 0.5 {
		return 0
	}
	x := mathext.InvRegIncBeta(freedom/2, 0.5, 2*min(p, 1-p))
	t := math.Sqrt(freedom * (1 - x) / x)
	return math.Copysign(t, p-0.5)
}

// Values is the number of equally likely values that stand for a price.
const Values = 41

// standardQuantiles are the quantiles (i−½)/41 of the standard t distribution,
// of which one half mirrors the other. Each is sought from where the two before
// it point to.
func standardQuantiles(freedom float64) (t [Values]float64) {
	log, _ := math.Lgamma(freedom / 2)
	log1, _ := math.Lgamma((freedom + 1) / 2)
	top := 2 / math.Sqrt(freedom*math.Pi) * exp(log1-log) // twice the density at 0
	before := -1 / (Values * top)                         // nearly t[Values/2-1]
	for i := Values/2 + 1; i < Values; i++ {
		within := float64(2*i+1-Values) / Values // probability of |T| < t[i]
		t[i] = climb(freedom, top, 2*t[i-1]-before, within)
		t[Values-1-i] = -t[i]
		before = t[i-1]
	}
	return t
}

// climb is the t that |T| is below with a probability, from one near it, by
// Halley's method: the density falls by the factor 1 − (ν+1)·t/(ν+t²) for each
// unit of t, and half a step sees half of that (Press, Teukolsky, Vetterling and
// Flannery, Numerical Recipes, 2007, section 9.4.2, from memory).
func climb(freedom, top, t, probability float64) float64 {
	const (
		maxSteps = 100
		near     = 1e-5 // after a step this small the error is of the order of its cube
	)
	for range maxSteps {
		square := float64(t * t)
		within := mathext.RegIncBeta(0.5, freedom/2, square/(freedom+square))
		density := top * exp(-(freedom+1)/2*math.Log1p(square/freedom))
		step := (probability - within) / density
		step /= max(0.5, 1-float64(step*(freedom+1)*t/(freedom+square)/2))
		t += step
		if math.Abs(step) <= near*t {
			break
		}
	}
	return t
}

// prices are the quantiles (i−½)/41, exponentiated: the equally likely prices
// whose logarithm has this distribution. The standard quantiles are those of
// [standardQuantiles] for the degrees of freedom. A price has no finite mean under a t
// distribution of its logarithm; these values do, since the outermost 1.2% on
// either side are cut off.
//
// Equal input gives equal prices on every platform, although the quantile and
// math.Exp do not: math.Exp is written in assembly for some, and some fuse a
// product with a sum, which rounds once less
// (https://go.dev/ref/spec#Floating_point_operators). So the logarithm is
// rounded to 11 decimals, which is beyond their differences, raised with
// math.Exp2, and the price rounded to 7 decimals.
func (s Student) prices(standard *[Values]float64) (prices [Values]float64) {
	for i, t := range standard {
		prices[i] = round(exp(round(s.Mu+float64(s.Scale*t), logPlaces)), pricePlaces)
	}
	return prices
}

// Places that logarithms and prices are rounded to, as powers of ten.
const (
	logPlaces   = 1e11
	pricePlaces = 1e7
)

// round brings v to a multiple of 1/places.
func round(v, places float64) float64 {
	if scaled := v * places; math.Abs(scaled) < 1<<52 {
		return math.Round(scaled) / places
	}
	return v // no fraction is left to round
}

// exp is e to the power of v, see Student.prices.
func exp(v float64) float64 { return math.Exp2(v * math.Log2E) }
