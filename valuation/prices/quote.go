package prices

// Quote is what is believed of a price.
type Quote struct {
	Values [Values]float64 // ascending, equally likely, in the home currency
	Mean   float64         // their average
}

// Quantile is a quantile of the values, see [Quantile7].
func (q Quote) Quantile(p float64) float64 { return Quantile7(q.Values[:], p) }

// quoteOf is the quote from what is believed of the logarithm of the price. It
// is not one if the belief is so wide that the top price is no price at all,
// above 1e15, the most that money is read to. That is so where a table knows of
// an item without a guide only from prices so old that they weigh next to
// nothing.
func quoteOf(b Belief) (q Quote, ok bool) {
	if b.Kappa == 0 {
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
