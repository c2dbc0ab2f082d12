package prices_test

import (
	"fmt"
	"strings"
	"time"

	"lotgauge/valuation/prices"
)

// What an invented pickup shoe costs, from three sales, two of them in pounds.
func Example() {
	table, faults := prices.ReadTable("prices.csv", strings.NewReader(
		`date,item,kind,price,currency,postage,qty
2025-11-02,shoe,sold,5.20,EUR,1.60,1
2026-01-17,shoe,sold,9.00,GBP,1.30,2
2026-02-20,shoe,asked,8.00,GBP,1.30,1
`))
	rates, more := prices.ReadRates("rates.csv", strings.NewReader("Date,GBP,\n2026-02-20,0.8720,\n2026-01-16,0.8675,\n"))
	if err := append(faults, more...).Err(); err != nil {
		fmt.Println(err)
		return
	}
	on := time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)
	rules := prices.Rules{Home: "EUR", HalfLifeDays: 730, AskedFactor: 0.85, AskedWeight: 0.5, Spread: 0.25, FindWithinDays: 180}
	estimate, err := table.Estimate(prices.Item{ID: "shoe"}, rules, rates, on)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range []float64{0.1, 0.5, 0.9} {
		fmt.Printf("%2.0f%%: sells at %.2f, costs %.2f\n", 100*p, estimate.Sell.Quantile(p), estimate.Buy.Quantile(p))
	}
	fmt.Printf("found within half a year: %.0f%%\n", 100*table.Scarcity("shoe", rules, on).FindChance)
	// Output:
	// 10%: sells at 4.06, costs 4.92
	// 50%: sells at 5.66, costs 6.84
	// 90%: sells at 7.88, costs 9.50
	// found within half a year: 75%
}
