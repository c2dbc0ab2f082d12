package charges

import (
	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// A Conversion brings amounts of a sheet into the currency the user thinks in.
type Conversion struct {
	// Rate is home units for one unit of the sheet's currency, above 0. It is
	// not looked at where the two currencies are the same.
	Rate money.Ratio
	Home money.Currency
}

// Landed is what a bid costs in the end, in home currency: the total of the
// bill × the rate × (1 + the sheet's margin), rounded once, by the sheet's
// rule, to the minor unit of the home currency. Where the currencies are the
// same the rate is 1 and there is no margin. On a Sell sheet it is what a sale
// at that price brings, and there is no margin either.
func (s *Sheet) Landed(bid decimal.Decimal, c Conversion) decimal.Decimal {
	return s.land(s.total(s.amounts(bid, len(s.Charges))), c)
}

// land converts a total.
func (s *Sheet) land(total decimal.Decimal, c Conversion) decimal.Decimal {
	return s.Rounding.Round(s.factor(c).MulDecimal(total), c.Home.Unit())
}

// factor is what a total is multiplied by.
func (s *Sheet) factor(c Conversion) money.Ratio {
	one := money.WholeRatio(decimal.NewFromInt(1))
	if c.Home == s.Currency {
		return one
	}
	return c.Rate.Mul(one.Add(s.Margin))
}

// most is the largest total, among the multiples of grid, that lands within
// the budget. It is false where none does or the conversion has no rate.
//
// Landing rounds to multiples of a unit u, so only the budget b cut off to one
// counts. A half-way rule brings to b or less what is below b + u/2, and one
// tie; cutting off, what is below b + u. So the largest total is the last
// multiple of grid at that bound, if it lands well, or else the one before.
func (s *Sheet) most(budget decimal.Decimal, c Conversion, grid decimal.Decimal) (decimal.Decimal, bool) {
	factor, unit := s.factor(c), c.Home.Unit()
	if budget.Sign() < 0 || factor.Sign() <= 0 {
		return decimal.Decimal{}, false
	}
	slack := unit
	if s.Rounding != money.Down {
		slack = unit.Mul(decimal.New(5, -1))
	}
	bound := money.Down.RoundDecimal(budget, unit).Add(slack)
	total := money.Down.Round(money.WholeRatio(bound).Quo(factor), grid)
	if s.land(total, c).GreaterThan(budget) {
		total = total.Sub(grid)
	}
	return total, true
}
