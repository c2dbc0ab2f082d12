package charges

import "github.com/shopspring/decimal"

// evaluator is the fastest there is for the sheet and the limit: integers
// where the sheet can be compiled to them, or else the bill itself.
func (s *Sheet) evaluator(bids ladder, drops []drop, limit decimal.Decimal) evaluator {
	bills := &biller{s, bids, drops, limit}
	if p, ok := compile(bills); ok {
		return p
	}
	return bills
}

// A biller is the evaluator that makes the bill in decimals, for any amount.
type biller struct {
	sheet *Sheet
	bids  ladder
	drops []drop
	limit decimal.Decimal
}

// above makes the bill as far as the charge of the drop.
func (b *biller) above(rung int64, i int) bool {
	d := b.drops[i]
	lines := b.sheet.amounts(b.bids.bid(rung), d.charge)
	return sum(lines, d.on).GreaterThan(d.bound)
}

// fits makes the bill of the first n charges.
func (b *biller) fits(rung int64, n int) bool {
	lines := b.sheet.amounts(b.bids.bid(rung), n)
	return b.sheet.total(lines).LessThanOrEqual(b.limit)
}

// grid is a power of ten of which every amount on the sheet, every bid and
// every line is a multiple: 0.01 for a sheet in cents. Lines are, because each
// is a multiple of what it is rounded to, or one of the amounts, or 0.
func (s *Sheet) grid() decimal.Decimal {
	exponent := -s.Currency.Digits()
	refine := func(amounts ...*decimal.Decimal) {
		for _, d := range amounts {
			if d != nil {
				exponent = min(exponent, d.Exponent())
			}
		}
	}
	for _, r := range s.Increment {
		refine(&r.From, &r.Step)
	}
	for _, c := range s.Charges {
		refine(c.Amount, c.Min, c.Max, c.Allowance, c.WaivedUpTo, &c.RoundTo)
		for _, t := range c.Tiers {
			refine(&t.UpTo)
		}
		if c.When != nil {
			refine(c.When.Above, c.When.UpTo)
		}
	}
	return decimal.New(1, exponent)
}
