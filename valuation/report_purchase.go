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
	if a.even != nil {
		landed := a.purchase.landed(*a.even)
		p.BreakEvenBid, p.BreakEvenLanded = a.bid(a.even), a.landedMoney(landed)
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
// worth, counted from 0. Where every loss is tolerated it is the largest worth:
// no draw says what lies above.
func (a *appraiser) carefulBudget() float64 {
	n := len(a.drawn.worth)
	k := int(math.Floor(float64(a.settings.Tolerance*float64(n)) + 1e-9))
	return a.drawn.ranked().nths(min(k, n-1))[0]
}

// margin is the expected gain at the middle of the hammer range (the geometric
// mean of its ends, the median of the log-normal), else at the ask; nil where
// the listing gives neither.
func (a *appraiser) margin() *Margin {
	m := &Margin{}
	var at decimal.Decimal
	switch {
	case !a.listing.Fixed && a.listing.Hammer != nil:
		h := a.listing.Hammer
		at = money.FromFloat(math.Sqrt(money.Float(h.Low.Value)*money.Float(h.High.Value)), a.buy.Currency)
		m.AtHammer = true
		m.Chance, m.Bidding = a.bidding(money.Float(h.Low.Value), money.Float(h.High.Value))
	case a.listing.Ask != nil:
		at = a.listing.Ask.Value
	default:
		return nil
	}
	m.Price = *a.bid(&at)
	m.Amount = a.home(a.expected.worth - money.Float(a.purchase.landed(at)))
	return m
}

// bidding is the chance that the hammer falls at or below the break-even bid, and
// the expected gain of bidding up to there.
func (a *appraiser) bidding(low, high float64) (*Share, *Money) {
	won, gain := 0.0, 0.0
	for _, x := range lognormal(low, high, hammers) {
		hammer := money.Decimal(x)
		if a.even == nil || hammer.GreaterThan(*a.even) {
			continue
		}
		won++
		gain += a.expected.worth - money.Float(a.purchase.landed(hammer))
	}
	chance := Share(won / hammers)
	return &chance, a.homePtr(gain / hammers)
}
