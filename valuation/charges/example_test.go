package charges_test

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/diag"
)

// An invented house takes a quarter of the whole price up to 500, and a fifth
// of it above: a bid of 501 costs less than one of 500.
func ExampleSheet_Highest() {
	doc := diag.ReadDocument("northquay.toml", strings.NewReader(`
format = 1
id = "northquay"
title = "Northquay Rooms"
side = "buy"
currency = "EUR"
increment = [ { from = "0", step = "1" } ]
[[charge]]
id = "premium"
title = "Buyer's premium"
on = ["hammer"]
tiers = [ { up_to = "500", rate = "25%" }, { rate = "20%" } ]
tiering = "whole"
`))
	sheet := charges.Read(doc)
	if err := doc.Diagnostics().Err(); err != nil {
		fmt.Println(err)
		return
	}
	home := charges.Conversion{Home: "EUR"}
	budget := decimal.NewFromInt(610)
	for _, bid := range []int64{488, 489, 500, 501, 508, 509} {
		landed := sheet.Landed(decimal.NewFromInt(bid), home)
		fmt.Println(bid, "lands at", landed.StringFixed(2), "within", budget, landed.LessThanOrEqual(budget))
	}
	bid, _ := sheet.Highest(budget, home)
	fmt.Println("highest:", bid)
	for _, line := range sheet.Apply(bid).Lines {
		fmt.Println(line.Title, line.Amount.StringFixed(2))
	}
	// Output:
	// 488 lands at 610.00 within 610 true
	// 489 lands at 611.25 within 610 false
	// 500 lands at 625.00 within 610 false
	// 501 lands at 601.20 within 610 true
	// 508 lands at 609.60 within 610 true
	// 509 lands at 610.80 within 610 false
	// highest: 508
	// Hammer price 508.00
	// Buyer's premium 101.60
}
