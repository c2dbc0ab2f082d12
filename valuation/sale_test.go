package valuation

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

func readSheet(t *testing.T, text string) *charges.Sheet {
	t.Helper()
	doc := diag.ReadDocument("sheet.toml", strings.NewReader(text))
	s := charges.Read(doc)
	if err := doc.Diagnostics().Err(); err != nil {
		t.Fatal(err)
	}
	return s
}

const sellHead = `
format = 1
id = "s"
title = "Invented"
side = "sell"
currency = "EUR"
`

// bentSheet uses every key that bends the net.
const bentSheet = sellHead + `
[[charge]]
id = "fee"
title = "Fee"
on = ["price"]
tiers = [ { up_to = "50", rate = "12%" }, { up_to = "200", rate = "9%" }, { rate = "5%" } ]
min = "1.50"
max = "19"
[[charge]]
id = "fee-vat"
title = "VAT on the fee"
on = ["fee"]
rate = "1/5"
[[charge]]
id = "whole"
title = "Whole-amount tier"
on = ["price"]
tiers = [ { up_to = "100", rate = "3%" }, { rate = "2%" } ]
tiering = "whole"
when = { on = ["price"], above = "20", up_to = "400" }
[[charge]]
id = "excess"
title = "On the excess"
on = ["price", "fee"]
rate = "1%"
allowance = "40"
waived_up_to = "0.50"
[[charge]]
id = "base"
title = "Only a base"
amount = "7"
memo = true
[[charge]]
id = "post"
title = "Postage"
amount = "4.20"
`

// TestSaleAgreesWithTheSheet: the float estimate and the exact sheet differ by
// no more than the rounding of each line, half a cent a line.
func TestSaleAgreesWithTheSheet(t *testing.T) {
	straight := sellHead + "[[charge]]\nid = \"fee\"\ntitle = \"Fee\"\non = [\"price\"]\nrate = \"8%\"\n[[charge]]\nid = \"stamp\"\ntitle = \"Stamp\"\namount = \"1.00\"\n"
	rng := rand.New(rand.NewPCG(1, 2))
	for _, text := range []string{bentSheet, straight} {
		s := readSheet(t, text)
		sale := newSale(s, charges.Conversion{Rate: money.WholeRatio(decimal.NewFromInt(1)), Home: "EUR"})
		if sale.straight != (text == straight) {
			t.Errorf("straight: %v", sale.straight)
		}
		bound := 0.005*float64(len(s.Charges)) + 1e-9
		for range 5000 {
			price := decimal.New(rng.Int64N(60000), -2)
			if atWaiver(s, price) {
				continue
			}
			within(t, "net of "+price.String(), sale.net(money.Float(price)), money.Float(s.Apply(price).Total), bound)
		}
	}
}

// atWaiver tells whether the waived line is within a cent of its limit, where
// rounding decides whether it is collected.
func atWaiver(s *charges.Sheet, price decimal.Decimal) bool {
	bill := s.Apply(price)
	for _, c := range s.Charges {
		if c.WaivedUpTo == nil {
			continue
		}
		base := decimal.Zero
		for _, on := range c.On {
			base = base.Add(bill.Lines[on].Amount)
		}
		line := c.Tiers[0].Rate.MulDecimal(base.Sub(*c.Allowance)).Float()
		if near := line - money.Float(*c.WaivedUpTo); near > -0.01 && near < 0.01 {
			return true
		}
	}
	return false
}

func TestSaleConverts(t *testing.T) {
	s := readSheet(t, strings.Replace(bentSheet, "EUR", "GBP", 1))
	two := charges.Conversion{Rate: money.WholeRatio(decimal.NewFromInt(2)), Home: "EUR"}
	within(t, "net", newSale(s, two).net(200), 2*money.Float(s.Apply(decimal.NewFromInt(100)).Total), 0.05)
}

func TestGradeAt(t *testing.T) {
	grades := []checklist.Grade{{ID: "poor", Score: 20, Factor: 0.3}, {ID: "good", Score: 70, Factor: 0.78}, {ID: "excellent", Score: 90, Factor: 1}}
	for _, c := range []struct{ score, want float64 }{
		{0, 0.3}, {20, 0.3}, {45, 0.54}, {70, 0.78}, {80, 0.89}, {90, 1}, {100, 1},
	} {
		within(t, "factor", newGrading(grades).at(c.score), c.want, 1e-12)
	}
	within(t, "without grades", newGrading(nil).at(50), 1, 0)
}
