package money_test

import (
	"fmt"

	"lotgauge/valuation/money"
)

// VAT inside a margin of 500 at 20% is a sixth of it, which no percentage says.
func ExampleRounding_Round() {
	margin, _ := money.ParseAmount("500 GBP")
	sixth, _ := money.ParseRate("1/6")
	percent, _ := money.ParseRate("16.67%")
	fmt.Println(money.HalfUp.Round(sixth.MulDecimal(margin.Value), margin.Currency.Unit()))
	fmt.Println(money.HalfUp.Round(percent.MulDecimal(margin.Value), margin.Currency.Unit()))
	// Output:
	// 83.33
	// 83.35
}
