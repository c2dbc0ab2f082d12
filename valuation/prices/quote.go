package prices

// Quote is what is believed of a price.
type Quote struct {
	Values [Values]float64 // ascending, equally likely, in the home currency
	Mean   float64         // their average
}

// Quantile is a quantile of the values, see [Quantile7].
func (q Quote) Quantile(p float64) float64 { return Quantile7(q.Values[:], p) }

// leastKappa is the least that prices without a guide must weigh together. At a
// tenth of a fresh price, three half-lives of age, the deviation of the price is
// a factor of two; below, the mean of the 41 values is soon many times any price
// that was ever seen, and that is no price to bid on.
const leastKappa = 0.1

// quoteOf is the quote from what is believed of the logarithm of the price. It
// is not one if the belief rests on next to nothing, or if it is so wide that
// the top price is no price at all, above 1e15, the most that money is read to.
func quoteOf(b Belief) (q Quote, ok bool) {
	if b.Kappa < leastKappa {
		return Quote{}, false
	}
	q.Values = b.Predictive().Prices()
	for _, v := range q.Values {
		q.Mean += v
	}
	q.Mean /= Values
	return q, q.Values[Values-1] < maxPrice
}

const maxPrice = 1e15
