package prices

import (
	"cmp"
	"slices"
)

// Trend is how the price of an item moves, from its rows: the median of the
// slopes between any two of them. Up to 29% of the rows, 1 − 1/√2, may be odd
// without moving it at will (Rousseeuw and Leroy, Robust Regression and Outlier
// Detection, 1987, ISBN 0-471-85233-3, section 2.7, from memory).
type Trend struct {
	// Slope is the change of the logarithm of the price in a year of 365.25
	// days; Low and High are the ends of its interval. All are 0 while rows are
	// lacking. [Trend.Yearly] has them as rates.
	Slope, Low, High float64
	// Confidence is what the interval reaches, at least 0.9. It is not 0.9
	// exactly, since its ends are slopes between rows.
	Confidence float64
	Rows       int // that it rests on: not set aside, the newest 200
	Lacking    int // how many more are needed for a trend; 0: there is one
}

// When there is a trend, and over how many rows.
const (
	// With 8 rows on 4 days an interval of 90% leaves slopes out at both ends;
	// fewer would do for one to exist, but it would say next to nothing.
	minTrendRows = 8
	minTrendDays = 4
	// Above 200 rows the older ones are left out: the market is asked about, not
	// its history, and the work grows with the square of the rows.
	maxTrendRows = 200

	trendConfidence = 0.9
	daysPerYear     = 365.25
)

// Yearly are the slope and the ends of its interval as what a price changes by
// in a year: 0.05 is 5% more.
func (t Trend) Yearly() (rate, low, high float64) {
	return exp(t.Slope) - 1, exp(t.Low) - 1, exp(t.High) - 1
}

// Trend is the trend of the rows of an estimate that were not set aside, by
// their prices without postage, in the home currency, of a sound one, those
// asked for scaled to what is paid. Old rows count like new ones.
//
// It is the estimator of Theil and Sen with the interval that Sen derives from
// Kendall's test: see theilSen. A trend whose interval holds 0 is none that the
// rows show.
func (e Estimate) Trend() Trend {
	rows := e.trendRows()
	t := Trend{Rows: len(rows), Lacking: lackingRows(rows)}
	if t.Lacking > 0 {
		return t
	}
	x, y := make([]float64, len(rows)), make([]float64, len(rows))
	for i, u := range rows {
		x[i] = float64(dayOf(u.Row.Day)-dayOf(rows[0].Row.Day)) / daysPerYear
		y[i] = u.Log
	}
	t.Slope, t.Low, t.High, t.Confidence = theilSen(x, y, trendConfidence)
	return t
}

// trendRows are the uses a trend rests on, oldest first.
func (e Estimate) trendRows() []Use {
	var rows []Use
	for _, u := range e.Uses {
		if !u.SetAside {
			rows = append(rows, u)
		}
	}
	slices.SortStableFunc(rows, func(a, b Use) int { return cmp.Compare(dayOf(a.Row.Day), dayOf(b.Row.Day)) })
	return rows[max(0, len(rows)-maxTrendRows):]
}

// lackingRows is how many more rows, each on a day of its own, make enough of
// rows sorted by day.
func lackingRows(rows []Use) int {
	days := 0
	for i := range rows {
		if i == 0 || !rows[i].Row.Day.Equal(rows[i-1].Row.Day) {
			days++
		}
	}
	return max(minTrendRows-len(rows), minTrendDays-days, 0)
}
