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

// quotesOf are the quotes for selling and for buying, from what is believed of
// the logarithms of the prices. They are none if a belief rests on next to
// nothing, or if it is so wide that the top price is no price at all, above
// 1e15, the most that money is read to.
func quotesOf(sell, buy Belief) (sells, buys Quote, ok bool) {
	if sell.Kappa < leastKappa || buy.Kappa < leastKappa {
		return Quote{}, Quote{}, false
	}
	s, b := sell.Predictive(), buy.Predictive()
	t := standardQuantiles(s.Freedom)
	sells = quoteOf(s.prices(&t))
	if b.Freedom != s.Freedom { // a row is set aside on one side only
		t = standardQuantiles(b.Freedom)
	}
	buys = quoteOf(b.prices(&t))
	return sells, buys, max(sells.Values[Values-1], buys.Values[Values-1]) < maxPrice
}

func quoteOf(values [Values]float64) Quote {
	q := Quote{Values: values}
	for _, v := range q.Values {
		q.Mean += v
	}
	q.Mean /= Values
	return q
}

const maxPrice = 1e15
