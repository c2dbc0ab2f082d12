package main

import (
	"fmt"
	"slices"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
)

// lotOf keeps of an appraisal what a ranking shows.
func lotOf(file string, a *valuation.Appraisal) table.Lot {
	p := &a.Purchase
	l := table.Lot{
		Listing: file, Title: a.Title, Family: a.Family, Date: a.Date,
		Verdict: a.Reading.Verdict, Fixed: p.Fixed, Margin: a.Reading.Margin, Home: a.Currency,
		Ask: p.Ask, Careful: p.CarefulBid, Stop: p.BreakEvenBid, Currency: p.Currency,
		Loss: p.LossChance, Coverage: a.Score.Coverage, Unpriced: a.Unpriced,
	}
	if a.Worth != nil {
		worth := a.Worth.Mean
		l.Worth = &worth
	}
	switch {
	case l.Verdict == valuation.WalkAway && len(a.Reading.Reasons) > 0:
		l.Reason = a.Reading.Reasons[0].Text
	case len(a.Reading.Missing) > 0:
		l.Reason = "there is no price for " + a.Reading.Missing[0].Title
		if more := len(a.Reading.Missing) - 1; more > 0 {
			l.Reason += fmt.Sprintf(" and %d more", more)
		}
	}
	if i := slices.IndexFunc(a.Questions, func(q valuation.Question) bool { return q.Worth.IsPositive() }); i >= 0 {
		q := a.Questions[i]
		l.Question = &q
	}
	return l
}
