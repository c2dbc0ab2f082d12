package table

import (
	"fmt"
	"io"

	"lotgauge/valuation"
)

// fewLeft is how many of the checks that are left are named.
const fewLeft = 3

// InspectOutlook prints why no check is asked for any more.
func InspectOutlook(w io.Writer, why valuation.Outlook, left []valuation.Check, s *valuation.Standing, o Options) error {
	p := newPrinter(o)
	p.blank()
	switch why {
	case valuation.NoLongerPays:
		p.para(strong, "", margin, "Looking further no longer pays: decide. "+capital(counted(len(left), "check"))+
			" left, none worth the time it takes.")
		if s.Verdict == valuation.Marginal && s.Purchase.Ask != nil {
			p.para(warn, "", margin, stillRisky(s))
		}
	case valuation.DealBroken:
		p.para(bad, "", margin, "Looking further no longer pays: what was found ends the deal.")
	case valuation.AllSeen:
		p.para(strong, "", margin, "Everything that can be checked here has been: decide.")
	default:
		p.para(bad, "", margin, "No check can be weighed: a price is missing.")
	}
	p.left(left, s.Currency)
	return p.writeTo(w)
}

// stillRisky says that what no longer pays to look at is no careful buy for that.
func stillRisky(s *valuation.Standing) string {
	text := "That is no reason to buy: at " + askedAt(asAppraisal(s)) + " you still lose money more often than you tolerate. Leave it"
	if s.Purchase.CarefulBid == nil {
		return text + ": no bid is a careful one."
	}
	return text + ", or offer what is careful: " + bidText(s.Purchase.CarefulBid, s.Purchase.Currency) + "."
}

// left names the best of the checks that are left.
func (p *printer) left(left []valuation.Check, currency string) {
	g := &grid{columns: []column{{head: "Best of those left", flex: true}, {head: "Worth " + currency, right: true}, {head: "Minutes", right: true}}}
	for i := range left[:min(fewLeft, len(left))] {
		c := &left[i]
		g.add(words(clipped(c.Title, titleRunes)), words(figure(&c.Worth)), words(fmt.Sprintf("%.3g", c.Minutes)))
	}
	p.grid(g)
}

// An InspectionEnd is where an inspection was left.
type InspectionEnd struct {
	Why      string // "" where somebody stopped it
	File     string
	Standing *valuation.Standing
	Replies  int
}

// InspectEnd prints where to stop in the end and where it is kept.
func InspectEnd(w io.Writer, e InspectionEnd, o Options) error {
	p := newPrinter(o)
	p.blank()
	if e.Why != "" {
		p.para(faint, "", margin, e.Why)
	}
	p.standing(e.Standing)
	p.para(plain, "", margin, capital(sofar(e.Standing)))
	p.para(plain, "", margin, "Kept in "+e.File+": lotgauge appraise "+e.File+" says the whole of it, lotgauge inspect "+e.File+" goes on.")
	return p.writeTo(w)
}
