package table

import (
	"io"
	"strings"

	"lotgauge/valuation"
)

// Brief prints the headline of an appraisal and three lines: what it is worth,
// how often one loses, and what to ask first; where a price is missing, the row
// to add, the state it should be in and what it probably needs.
func Brief(w io.Writer, a *valuation.Appraisal, o Options) error {
	p := newPrinter(o)
	p.verdict(a)
	lines := []string{missingBrief(a), stateBrief(a), needBrief(a)}
	if a.Worth != nil {
		lines = []string{worthRange(a), riskBrief(a), askBrief(a)}
	}
	for _, line := range lines {
		p.para(plain, "", margin, line)
	}
	return p.writeTo(w)
}

// riskBrief says how often one loses at the price asked and where to stop: "At
// 38.00 GBP asked, 39 of 100 such purchases lose money; at 42.00 GBP, 49."
func riskBrief(a *valuation.Appraisal) string {
	var all []string
	for _, r := range risks(a) {
		if r.what == careful {
			continue // in no more than is tolerated
		}
		text := "at " + tied(amount(r.bid, a.Purchase.Currency))
		if r.what == asked {
			text += " asked"
		}
		often := strings.TrimPrefix(in100(*r.loss), "in ")
		if len(all) == 0 {
			all = append(all, text+", "+often+" such purchases lose money")
		} else {
			all = append(all, text+", "+strings.TrimSuffix(often, " of 100"))
		}
	}
	if len(all) == 0 {
		return "No bid pays."
	}
	return capital(strings.Join(all, "; ")) + "."
}

func askBrief(a *valuation.Appraisal) string {
	worth := worthAsking(a)
	if len(worth) == 0 {
		return "Nothing that is left to find out would change what to do."
	}
	return "Find out first: " + worth[0].Title + " (knowing is worth " + tied(amount(&worth[0].Worth, a.Currency)) + ")."
}

func missingBrief(a *valuation.Appraisal) string {
	if len(a.Reading.Missing) == 0 {
		return "Without it no figure is given."
	}
	return "Add to prices.csv: " + a.Reading.Missing[0].Row
}

func stateBrief(a *valuation.Appraisal) string {
	s := &a.Score
	return "Condition " + score(s.Condition.Mean) + " of 100, originality " + score(s.Originality.Mean) +
		", completeness " + score(s.Completeness.Mean) + "; " + percent(s.Coverage) + " of it seen."
}

// needBrief names the parts that are more likely needed than not.
func needBrief(a *valuation.Appraisal) string {
	var all []string
	for _, n := range likeliest(a.Parts) {
		if n.Chance >= probable {
			all = append(all, n.Title+" "+percent(valuation.Share(n.Chance)))
		}
	}
	if len(all) == 0 {
		return "No part is more likely needed than not."
	}
	return "Probably needed: " + strings.Join(all[:min(3, len(all))], "; ") + "."
}
