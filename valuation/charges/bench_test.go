package charges

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// eightLines is a sheet with eight charges, four of them in tiers, two of these
// falling, and a condition that ends: an invented house, invented rates.
const eightLines = `
format = 1
id = "northquay"
title = "Northquay Rooms, bidding online"
side = "buy"
currency = "GBP"
convert = { margin = "1.5%" }
valid = [2026-01-01, 2026-12-31]

[[charge]]
id = "premium"
on = ["hammer"]
tiers = [ { up_to = "500", rate = "25%" }, { up_to = "10000", rate = "20%" }, { rate = "12.5%" } ]
min = "2"
max = "90000"
[[charge]]
id = "platform"
on = ["hammer"]
tiers = [ { up_to = "200", rate = "4.95%" }, { up_to = "5000", rate = "3%" }, { rate = "2%" } ]
tiering = "whole"
[[charge]]
id = "premium-vat"
on = ["premium", "platform"]
rate = "20%"
[[charge]]
id = "post"
amount = "9.50"
[[charge]]
id = "insurance"
on = ["hammer", "premium", "platform"]
tiers = [ { up_to = "1000", rate = "1.5%" }, { rate = "1%" } ]
tiering = "whole"
allowance = "50"
[[charge]]
id = "duty"
on = ["hammer", "premium", "post"]
tiers = [ { up_to = "700", rate = "2.5%" }, { rate = "4.7%" } ]
tiering = "whole"
when = { on = ["hammer"], above = "135" }
waived_up_to = "9"
[[charge]]
id = "handling"
amount = "12"
when = { on = ["hammer", "premium"], above = "15", up_to = "630" }
[[charge]]
id = "import-vat"
on = ["hammer", "premium", "post", "duty"]
rate = "1/5"
rounding = "down"
`

// mustRead reads a sheet that has no faults.
func mustRead(t testing.TB, text string) *Sheet {
	t.Helper()
	doc := diag.ReadDocument("sheet.toml", strings.NewReader(text))
	s := Read(doc)
	if list := doc.Diagnostics(); len(list) > 0 {
		t.Fatalf("%v\n%s", list, text)
	}
	return s
}

var inEuro = Conversion{Rate: money.NewRatio(decimal.NewFromInt(1), decimal.RequireFromString("0.85448")), Home: "EUR"}

func BenchmarkApply8Lines(b *testing.B) {
	s, bid := mustRead(b, eightLines), decimal.RequireFromString("1234.56")
	for b.Loop() {
		s.Apply(bid)
	}
}

func BenchmarkLanded8Lines(b *testing.B) {
	s, bid := mustRead(b, eightLines), decimal.RequireFromString("1234.56")
	for b.Loop() {
		s.Landed(bid, inEuro)
	}
}

// Budgets up to a million, on a ladder of one cent.
func BenchmarkHighestMillion(b *testing.B) {
	for _, budget := range []string{"80", "1205", "14000", "1000000"} {
		b.Run(budget, func(b *testing.B) {
			s, most := mustRead(b, eightLines), decimal.RequireFromString(budget)
			for b.Loop() {
				s.Highest(most, inEuro)
			}
		})
	}
}

// A budget beyond what 64 bits hold: bills in decimals.
func BenchmarkHighestBeyond(b *testing.B) {
	s, most := mustRead(b, eightLines), decimal.New(1, 20)
	for b.Loop() {
		s.Highest(most, inEuro)
	}
}
