package valuation

import (
	"lotgauge/valuation/money"
	"math"

	"github.com/shopspring/decimal"
)

// lossAt is the share of draws that lose money at a landed cost.
func (a *appraiser) lossAt(landed decimal.Decimal) *Share {
	limit, lost := money.Float(landed), 0
	for _, w := range a.drawn.worth {
		if w < limit {
			lost++
		}
	}
	s := Share(float64(lost) / float64(len(a.drawn.worth)))
	return &s
}

func (a *appraiser) purchaseReport() Purchase {
	p := Purchase{
		Sheet: a.buy.ID, SheetTitle: a.buy.Title, Currency: string(a.buy.Currency),
		Fixed: a.listing.Fixed, Tolerance: Share(a.settings.Tolerance), Lines: []BillLine{},
	}
	if ask := a.listing.Ask; ask != nil {
		a.atAsk(&p, ask.Value)
	}
	if !a.whole() {
		return p
	}
	if ask := a.listing.Ask; ask != nil {
		p.LossChance = a.lossAt(a.purchase.landed(ask.Value))
	}
	if even := a.purchase.highest(a.expected.worth); even != nil {
		landed := a.purchase.landed(*even)
		p.BreakEvenBid, p.BreakEvenLanded = a.bid(even), a.landedMoney(landed)
		p.BreakEvenLoss = a.lossAt(landed)
	}
	if careful := a.purchase.highest(a.carefulBudget()); careful != nil {
		landed := a.purchase.landed(*careful)
		p.CarefulBid, p.CarefulLanded = a.bid(careful), a.landedMoney(landed)
		p.CarefulLoss = a.lossAt(landed)
	}
	return p
}

func (a *appraiser) atAsk(p *Purchase, ask decimal.Decimal) {
	bill := a.buy.Apply(ask)
	p.Ask = a.bid(&ask)
	p.Total = a.bid(&bill.Total)
	p.Landed = a.landedMoney(a.purchase.landed(ask))
	for _, line := range bill.Lines {
		p.Lines = append(p.Lines, BillLine{
			ID: line.ID, Title: line.Title, Memo: line.Memo,
			Amount: Money{atUnit(line.Amount, a.buy.Currency)},
		})
	}
}

func (a *appraiser) landedMoney(d decimal.Decimal) *Money {
	return &Money{atUnit(d, a.settings.Currency)}
}

// carefulBudget is the largest landed cost that loses money in at most the
// tolerated share of draws: with n draws, the floor(tolerance·n)-th smallest
// worth, counted from 0.
func (a *appraiser) carefulBudget() float64 {
	n := len(a.drawn.worth)
	k := int(math.Floor(a.settings.Tolerance*float64(n) + 1e-9))
	return nth(a.drawn.worth, min(k, n-1))
}
