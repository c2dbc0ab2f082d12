package prices_test

import (
	"fmt"
	"strings"
	"time"

	"lotgauge/valuation/prices"
)

// Whether an invented lamp grows dearer, from ten sales.
func ExampleEstimate_Trend() {
	text := "date,item,kind,price,currency\n"
	for i, price := range []string{"8.00", "8.20", "7.90", "8.60", "9.10", "8.80", "9.40", "9.20", "9.90", "10.10"} {
		text += time.Date(2022, time.Month(1+5*i), 3, 0, 0, 0, 0, time.UTC).Format(time.DateOnly) + ",lamp,sold," + price + ",EUR\n"
	}
	table, _ := prices.ReadTable("prices.csv", strings.NewReader(text))
	rules := prices.Rules{Home: "EUR", HalfLifeDays: 730, AskedFactor: 0.85, AskedWeight: 0.5, Spread: 0.25}
	for _, day := range []string{"2024-06-30", "2026-03-14"} {
		on, _ := time.Parse(time.DateOnly, day)
		estimate, err := table.Estimate(prices.Item{ID: "lamp"}, rules, nil, on)
		if err != nil {
			fmt.Println(err)
			return
		}
		trend := estimate.Trend()
		if trend.Lacking > 0 {
			fmt.Printf("%s: no trend of %d rows, %d more are needed\n", day, trend.Rows, trend.Lacking)
			continue
		}
		rate, low, high := trend.Yearly()
		fmt.Printf("%s: %+.1f%% a year, %+.1f%% to %+.1f%% (%.0f%%)\n", day, 100*rate, 100*low, 100*high, 100*trend.Confidence)
	}
	// Output:
	// 2024-06-30: no trend of 6 rows, 2 more are needed
	// 2026-03-14: +6.4% a year, +4.9% to +8.6% (93%)
}

// What a box is worth, and a thing that only ever came with one.
func ExampleFitTerms() {
	var rows []prices.FitRow
	for i, log := range []float64{4.0, 4.2, 4.1, 3.8, 3.9, 3.9, 4.1, 3.8} {
		row := prices.FitRow{Log: log, Weight: 1}
		if i >= 3 && i != 6 {
			row.Terms = []int{0}
		}
		if i == 6 {
			row.Terms = []int{1, 2}
		}
		rows = append(rows, row)
	}
	fit, err := prices.FitTerms(rows, []string{"box missing", "papers missing", "key missing"})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, t := range fit.Terms {
		if t.Known {
			fmt.Printf("%s: %.2f, %.2f to %.2f, %d rows\n", t.Name, t.Factor, t.Low, t.High, t.Rows)
		} else {
			fmt.Printf("%s: not to be told from %s\n", t.Name, strings.Join(t.Alias, ", "))
		}
	}
	// Output:
	// box missing: 0.78, 0.69 to 0.88, 4 rows
	// papers missing: not to be told from key missing
	// key missing: not to be told from papers missing
}
