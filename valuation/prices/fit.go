package prices

import "errors"

// FitRow is one observation of a [Fit].
type FitRow struct {
	Log    float64 // logarithm of the price
	Weight float64 // above 0
	Terms  []int   // which of the terms hold for it
}

// Fit is a regression of the logarithm of a price on a constant and terms that
// hold for a row or do not.
type Fit struct {
	Terms     []Term    // as given
	Rows      int       // that it rests on
	Freedom   int       // rows less terms that can be told; 0: there are no intervals
	Spread    float64   // standard deviation of the logarithm about the fit, of a row of weight 1
	Residuals []float64 // of the rows, as given
}

// Term is what a term multiplies a price by.
type Term struct {
	Name              string
	Rows              int      // that it holds for
	Known             bool     // false: the rows do not tell it, and the figures are 0
	Factor, Low, High float64  // estimate and 90% interval
	Alias             []string // other terms that the rows do not tell it apart from; "" is the constant
}

// FitFactors fits.
func FitFactors(rows []FitRow, terms []string) (*Fit, error) {
	return nil, errors.New("fit: no rows")
}
