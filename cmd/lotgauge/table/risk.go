package table

import (
	"fmt"
	"slices"

	"lotgauge/valuation"
)

// The bids that there are.
const (
	careful = "careful"
	asked   = "asked"
	stopAt  = "stop at"
)

// A risk is a bid and how often it loses money.
type risk struct {
	what        string
	bid, landed *valuation.Money
	loss        *valuation.Share
}

// risks are those of the bids that are known, the lowest bid first.
func risks(a *valuation.Appraisal) []risk {
	b := &a.Purchase
	all := slices.DeleteFunc([]risk{
		{careful, b.CarefulBid, b.CarefulLanded, b.CarefulLoss},
		{asked, b.Ask, b.Landed, b.LossChance},
		{stopAt, b.BreakEvenBid, b.BreakEvenLanded, b.BreakEvenLoss},
	}, func(r risk) bool { return r.bid == nil || r.loss == nil })
	slices.SortStableFunc(all, func(x, y risk) int { return x.bid.Cmp(y.bid.Decimal) })
	return all
}

// sureness says how sure the figure is, in words.
func (p *printer) sureness(a *valuation.Appraisal) {
	if a.Worth == nil {
		return
	}
	p.heading("How sure that is")
	p.note(plain, worthRange(a))
	p.risks(a)
	if likely := atHammer(a); likely != "" {
		p.note(plain, likely)
	}
	if !p.full {
		return
	}
	p.note(faint, fmt.Sprintf("%s draws; more of them would move the worth by about %s.",
		tied(grouped(a.Draws)), tied(amount(&a.Worth.SE, a.Currency))))
}

// worthRange is what it is worth and how far that may be off.
func worthRange(a *valuation.Appraisal) string {
	w := a.Worth
	return fmt.Sprintf("Worth %s on average; in 80 of 100 cases between %s and %s.",
		tied(amount(&w.Mean, a.Currency)), figure(&w.P10), tied(amount(&w.P90, a.Currency)))
}

// risks shows the bids side by side.
func (p *printer) risks(a *valuation.Appraisal) {
	all := risks(a)
	if len(all) == 0 {
		return
	}
	bids, landed := make([]string, len(all)), make([]string, len(all))
	for i, r := range all {
		bids[i], landed[i] = amount(r.bid, a.Purchase.Currency), amount(r.landed, a.Currency)
	}
	bids, landed = aligned(bids), aligned(landed)
	g := &grid{columns: []column{
		{}, {head: "Bid", right: true}, {head: "In all", right: true, spare: 1}, {head: "You lose money", flex: true},
	}}
	for i, r := range all {
		g.add(words(r.what), words(bids[i]), words(landed[i]), words(in100(*r.loss)+" such purchases"))
	}
	if !slices.ContainsFunc(all, func(r risk) bool { return bid(a, r.bid, r.landed) != tied(amount(r.bid, a.Purchase.Currency)) }) {
		g = g.without(2)
	}
	p.grid(g)
}

// atHammer says what there is to gain where the bidding should end.
func atHammer(a *valuation.Appraisal) string {
	m := a.Reading.Margin
	if m == nil || !m.AtHammer {
		return ""
	}
	near := "Bidding should end near " + tied(amount(&m.Price, a.Purchase.Currency))
	switch {
	case m.Chance == nil || m.Bidding == nil:
		return near + "; there you " + gains(m.Amount, a.Currency) + "."
	case *m.Chance <= 0 || a.Purchase.BreakEvenBid == nil:
		return near + ", and hardly at or below your stop."
	}
	return near + ", but " + in100(*m.Chance) + " such auctions at or below your stop: bidding up to there you " + gains(*m.Bidding, a.Currency) + " over all of them."
}

// gains says what is gained on average, or lost.
func gains(m valuation.Money, currency string) string {
	switch m.Sign() {
	case 1:
		return "gain " + tied(amount(&m, currency)) + " on average"
	case -1:
		m.Decimal = m.Neg()
		return "lose " + tied(amount(&m, currency)) + " on average"
	}
	return "neither gain nor lose on average"
}
