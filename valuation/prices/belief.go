package prices

import "math"

// Belief is what is believed of the logarithms of an item's prices, taken to
// be normal with mean m and variance s² unknown: normal-inverse-gamma,
//
//	m | s² ~ Normal(Mu, s²/Kappa),  s² ~ InverseGamma(Alpha, Beta)
//
// Murphy, Conjugate Bayesian Analysis of the Gaussian Distribution, 2007,
// section 6, https://www.cs.ubc.ca/~murphyk/Papers/bayesGauss.pdf; Gelman et al.,
// Bayesian Data Analysis, section 3.3 (both from memory; the tests have
// published values).
//
// Logarithms, because prices are positive and differ by factors: a price is as
// likely to be half the usual one as twice.
type Belief struct {
	Mu    float64 // of the mean
	Kappa float64 // how many observations Mu is worth; 0: Mu says nothing
	Alpha float64 // half the observations that Beta/Alpha is worth; above 0
	Beta  float64 // half their sum of squares; above 0
}

// Update is the belief after observations y. One of weight w counts as w
// observations, so old prices fade; weights are at least 0, and nil weights are
// all 1. Observations may come at once or one by one. With Kappa 0 and no
// weight at all the belief stays as it is.
//
// Squares are taken about the mean of the observations, not about 0, so that no
// digits are lost where prices differ by little: the two-pass algorithm of
// Chan, Golub and LeVeque, Algorithms for Computing the Sample Variance, The
// American Statistician 37(3), 1983, pp. 242-247 (from memory).
func (b Belief) Update(y, weights []float64) Belief {
	total, sum := 0.0, 0.0
	for i, v := range y {
		w := weight(weights, i)
		total += w
		sum += float64(w * v)
	}
	if total == 0 {
		return b
	}
	mean, squares := sum/total, 0.0
	for i, v := range y {
		squares += float64(weight(weights, i) * float64((v-mean)*(v-mean)))
	}
	kappa, shift := b.Kappa+total, mean-b.Mu
	between := float64(b.Kappa * total / (2 * kappa) * float64(shift*shift))
	return Belief{ // conversions keep products from being fused with sums
		Mu:    (float64(b.Kappa*b.Mu) + float64(total*mean)) / kappa,
		Kappa: kappa,
		Alpha: b.Alpha + float64(total/2),
		Beta:  b.Beta + float64(squares/2) + between,
	}
}

// weight is weights[i], or 1 without weights.
func weight(weights []float64, i int) float64 {
	if weights == nil {
		return 1
	}
	return weights[i]
}

// Predictive is the distribution of the next observation of weight 1, a
// Student-t with 2·Alpha degrees of freedom. It is not defined for Kappa 0,
// where Scale is infinite.
func (b Belief) Predictive() Student {
	return Student{
		Freedom: 2 * b.Alpha,
		Mu:      b.Mu,
		Scale:   math.Sqrt(b.Beta * (b.Kappa + 1) / (b.Alpha * b.Kappa)),
	}
}
