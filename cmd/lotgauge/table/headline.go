package table

import (
	"fmt"

	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// headline writes what to do, in the first line, and the reasons below it.
func (p *printer) headline(a *valuation.Appraisal) {
	p.verdict(a)
	switch a.Reading.Verdict {
	case valuation.WalkAway:
		p.reasons(a)
	case valuation.Marginal:
		if a.Purchase.Ask != nil && a.Purchase.BreakEvenBid != nil {
			p.para(warn, "", margin, marginal(a))
		}
	}
}

// alerts writes what is doubtful at a certain place of the listing or the data,
// such as a catalogue number that does not go with what was seen: nobody should
// bid before having read it.
func (p *printer) alerts(a *valuation.Appraisal) {
	for _, d := range a.Reading.Warnings {
		if placed(d) {
			p.para(warn, "", margin, d.Error())
		}
	}
}

// placed tells whether a doubt is about one place, and can be mended there.
func placed(d diag.Diagnostic) bool { return d.Pos.File != "" }

// verdict is the first line by itself.
func (p *printer) verdict(a *valuation.Appraisal) {
	switch a.Reading.Verdict {
	case valuation.Unpriceable:
		p.para(bad, "", margin, unpriceable(a.Reading.Missing))
	case valuation.WalkAway:
		p.para(bad, "", margin, "Walk away: "+sentence(lower(reasons(a)[0])))
	case valuation.TooDear:
		p.para(bad, "", margin, "Too dear at "+askedAt(a)+": "+limits(a)+".")
	case valuation.Marginal:
		p.para(warn, "", margin, mixed(a))
	default:
		p.para(good, "", margin, buy(a))
	}
}

// reasons are why to walk away, at least one.
func reasons(a *valuation.Appraisal) []string {
	if len(a.Reading.Reasons) == 0 {
		return []string{"no bid pays"}
	}
	var out []string
	for i := range a.Reading.Reasons {
		out = append(out, a.Reading.Reasons[i].Because(percent))
	}
	return out
}

// reasons writes the further reasons to walk away, and the bids in spite of them.
func (p *printer) reasons(a *valuation.Appraisal) {
	for _, reason := range reasons(a)[1:] {
		p.item(bad, capital(sentence(reason)))
	}
	if a.Purchase.BreakEvenBid != nil {
		p.para(plain, "", margin, "By the figures alone: "+limits(a)+".")
	}
}

// mixed is the headline where the ask, if any, pays, but not carefully. A fixed
// price may pay though no bid on the ladder does.
func mixed(a *valuation.Appraisal) string {
	if a.Purchase.BreakEvenBid == nil && a.Purchase.Ask != nil {
		return marginal(a)
	}
	return capital(limits(a)) + "."
}

// marginal says what is the matter with an ask that is not careful.
func marginal(a *valuation.Appraisal) string {
	text := capital(priceAsked(a)) + " pays on average"
	if loss := a.Purchase.LossChance; loss != nil {
		text += ", but you lose money " + in100(*loss) + " such purchases, more often than you tolerate"
	}
	return text + "."
}

// buy is the headline where the ask, if any, is a careful price.
func buy(a *valuation.Appraisal) string {
	switch b := &a.Purchase; {
	case b.Ask == nil || !b.Fixed && b.BreakEvenBid != nil:
		return capital(limits(a)) + "."
	case b.BreakEvenBid == nil:
		return "Buy at " + askedAt(a) + "."
	}
	return "Buy at " + askedAt(a) + "; " + limits(a) + "."
}

// limits names the bid at which to stop and the careful one.
func limits(a *valuation.Appraisal) string {
	b := &a.Purchase
	if b.BreakEvenBid == nil {
		return "no bid pays"
	}
	stop := "stop at " + bid(a, b.BreakEvenBid, b.BreakEvenLanded)
	switch {
	case b.CarefulBid == nil:
		return stop + "; no bid is a careful one"
	case b.CarefulBid.GreaterThanOrEqual(b.BreakEvenBid.Decimal):
		return stop + ", which is careful too"
	}
	return stop + "; careful: " + bid(a, b.CarefulBid, b.CarefulLanded)
}

// bid is a bid, and what it costs in the end where that is another figure:
// "50.00 GBP (84.10 EUR in all)".
func bid(a *valuation.Appraisal, m, landed *valuation.Money) string {
	text := tied(amount(m, a.Purchase.Currency))
	if landed == nil || a.Currency == a.Purchase.Currency && landed.Equal(m.Decimal) {
		return text
	}
	return text + " (" + tied(amount(landed, a.Currency)) + " in all)"
}

// askedAt is the ask and what it costs in the end.
func askedAt(a *valuation.Appraisal) string { return bid(a, a.Purchase.Ask, a.Purchase.Landed) }

// priceAsked is the ask in a sentence: a price, or where the bidding stands.
func priceAsked(a *valuation.Appraisal) string {
	if a.Purchase.Fixed {
		return "the price of " + askedAt(a)
	}
	return "the ask of " + askedAt(a)
}

func unpriceable(missing []valuation.MissingPrice) string {
	if len(missing) == 0 {
		return "No bid can be named: a price is missing."
	}
	text := "No bid can be named: there is no price for " + missing[0].Title
	if more := len(missing) - 1; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text + "."
}
