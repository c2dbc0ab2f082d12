package charges_test

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// Whatever is read does not panic, and a sheet without errors keeps the laws:
// lines sum to the total, none is negative, and the highest bid is on the ladder
// and within the budget while the bid above it on a plain walk is not.
func FuzzRead(f *testing.F) {
	f.Add(complete)
	f.Add(sawtooth(3))
	for _, test := range readErrors {
		f.Add(strings.Replace(complete, test.from, test.to, 1))
	}
	f.Fuzz(func(t *testing.T, text string) {
		doc := diag.ReadDocument("sheet.toml", strings.NewReader(text))
		s := charges.Read(doc)
		if s == nil {
			t.Fatal("no sheet")
		}
		if doc.Diagnostics().HasErrors() {
			return
		}
		for _, first := range []string{"0.01", "49", "1234.56", "999999999"} {
			checkBill(t, s, s.Apply(dec(first)))
		}
		if s.Side == charges.Buy {
			checkHighest(t, s, "1000", charges.Conversion{Rate: money.NewRatio(dec("7"), dec("6")), Home: "EUR"})
		}
	})
}

func checkBill(t *testing.T, s *charges.Sheet, b charges.Bill) {
	t.Helper()
	total := b.Lines[0].Amount
	for _, line := range b.Lines[1:] {
		if line.Amount.Sign() < 0 {
			t.Errorf("line %s is %s", line.ID, line.Amount)
		}
		switch {
		case line.Memo:
		case s.Side == charges.Sell:
			total = total.Sub(line.Amount)
		default:
			total = total.Add(line.Amount)
		}
	}
	if !total.Equal(b.Total) || len(b.Lines) != len(s.Charges)+1 {
		t.Errorf("%d charges, total %s, lines %v", len(s.Charges), b.Total, b.Lines)
	}
}

// checkHighest holds the answer against the next bids on the ladder.
func checkHighest(t *testing.T, s *charges.Sheet, budget string, c charges.Conversion) {
	t.Helper()
	bid, ok := s.Highest(dec(budget), c)
	if !ok {
		bid = decimal.Decimal{}
	} else if !s.OnLadder(bid) || s.Landed(bid, c).GreaterThan(dec(budget)) {
		t.Errorf("%s lands at %s", bid, s.Landed(bid, c))
	}
	for range 50 {
		bid = bid.Add(s.Currency.Unit())
		if s.OnLadder(bid) && !s.Landed(bid, c).GreaterThan(dec(budget)) {
			t.Errorf("%s fits, too, within %s", bid, budget)
		}
	}
}
