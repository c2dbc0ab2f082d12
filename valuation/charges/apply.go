package charges

import (
	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// A Line is one amount of a bill, in the sheet's currency.
type Line struct {
	ID, Title string
	Amount    decimal.Decimal
	Memo      bool // a base for others, not paid
}

// A Bill is a sheet applied to a hammer or sale price. Lines has the first
// line and one for each charge, in the order of the sheet, zero ones included;
// charges are positive on both sides. Total is the first line and the charges
// that are paid, or, on a Sell sheet, what is left of the price after them,
// which can be below 0.
type Bill struct {
	Lines []Line
	Total decimal.Decimal
}

// Apply works out every line for a first line of the given amount, which is 0
// or more.
func (s *Sheet) Apply(first decimal.Decimal) Bill {
	amounts := s.amounts(first, len(s.Charges))
	bill := Bill{Lines: make([]Line, len(amounts)), Total: s.total(amounts)}
	bill.Lines[0] = Line{ID: s.First(), Title: firstTitle(s.Side), Amount: first}
	for i, c := range s.Charges {
		bill.Lines[i+1] = Line{ID: c.ID, Title: c.Title, Amount: amounts[i+1], Memo: c.Memo}
	}
	return bill
}

func firstTitle(side Side) string {
	if side == Sell {
		return "Price"
	}
	return "Hammer price"
}

// amounts is the first line and the first n charges.
func (s *Sheet) amounts(first decimal.Decimal, n int) []decimal.Decimal {
	lines, unit := make([]decimal.Decimal, 1, n+1), s.Currency.Unit()
	lines[0] = first
	for i := range n {
		lines = append(lines, s.Charges[i].amount(lines, unit))
	}
	return lines
}

// total sums lines as the sheet's side has it; lines may be the first few.
func (s *Sheet) total(lines []decimal.Decimal) decimal.Decimal {
	total := lines[0]
	for i, amount := range lines[1:] {
		switch {
		case s.Charges[i].Memo:
		case s.Side == Sell:
			total = total.Sub(amount)
		default:
			total = total.Add(amount)
		}
	}
	return total
}

// amount is the line of c after those before it, in the order that [Charge]
// gives; unit is the minor unit.
func (c *Charge) amount(lines []decimal.Decimal, unit decimal.Decimal) decimal.Decimal {
	if c.When != nil && !c.When.holds(lines) {
		return decimal.Decimal{}
	}
	amount := c.Rounding.Round(c.exact(lines), c.step(unit))
	if c.Min != nil && amount.LessThan(*c.Min) {
		amount = *c.Min
	}
	if c.Max != nil && amount.GreaterThan(*c.Max) {
		amount = *c.Max
	}
	if c.WaivedUpTo != nil && amount.LessThanOrEqual(*c.WaivedUpTo) {
		return decimal.Decimal{}
	}
	return amount
}

// holds reports whether the condition is met.
func (w *When) holds(lines []decimal.Decimal) bool {
	base := sum(lines, w.On)
	return (w.Above == nil || base.GreaterThan(*w.Above)) && (w.UpTo == nil || base.LessThanOrEqual(*w.UpTo))
}

// step is what the line is rounded to.
func (c *Charge) step(unit decimal.Decimal) decimal.Decimal {
	if c.RoundTo.Sign() > 0 {
		return c.RoundTo
	}
	return unit
}

// exact is the charge before rounding. A base that an allowance has brought to
// 0 or below is charged nothing.
func (c *Charge) exact(lines []decimal.Decimal) money.Ratio {
	if c.Amount != nil {
		return money.WholeRatio(*c.Amount)
	}
	base := sum(lines, c.On)
	if c.Allowance != nil {
		base = base.Sub(*c.Allowance)
	}
	if base.Sign() <= 0 {
		return money.Ratio{}
	}
	if c.Whole {
		return whole(c.Tiers, base)
	}
	return sliced(c.Tiers, base)
}

// whole applies to all of base the rate of the tier it falls in.
func whole(tiers []Tier, base decimal.Decimal) money.Ratio {
	for _, t := range tiers {
		if !t.Bounded || base.LessThanOrEqual(t.UpTo) {
			return t.Rate.MulDecimal(base)
		}
	}
	return money.Ratio{}
}

// sliced applies to each slice of base its own rate. A bound belongs to the
// slice below it.
func sliced(tiers []Tier, base decimal.Decimal) money.Ratio {
	var charge money.Ratio
	var from decimal.Decimal
	for _, t := range tiers {
		if !t.Bounded || base.LessThanOrEqual(t.UpTo) {
			return charge.Add(t.Rate.MulDecimal(base.Sub(from)))
		}
		charge = charge.Add(t.Rate.MulDecimal(t.UpTo.Sub(from)))
		from = t.UpTo
	}
	return charge
}

// sum adds the lines named.
func sum(lines []decimal.Decimal, on []int) decimal.Decimal {
	if len(on) == 0 {
		return decimal.Decimal{}
	}
	total := lines[on[0]]
	for _, i := range on[1:] {
		total = total.Add(lines[i])
	}
	return total
}
