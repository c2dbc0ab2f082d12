package valuation

// A Standing is where an inspection has come to: the figures of the appraisal of
// its listing.
type Standing struct {
	Currency  string   // home currency
	Worth     *Worth   // nil where a price is missing
	Purchase  Purchase // BreakEvenBid is where to stop, CarefulBid the careful bid, LossChance at the ask
	Coverage  Share    // of the inspection that has been done
	Condition Tenth    // expected score, 0 to 100
	Verdict   Verdict
	Reasons   []string // to walk away
	Rules     []FiredRule
	Missing   []MissingPrice // why there are no figures
	Minutes   float64        // spent on the checks answered so far
	Checked   int            // checks answered so far, "cannot tell" included
}

// Standing is where the inspection has come to.
func (n *Inspection) Standing() *Standing {
	if n.standing != nil {
		return n.standing
	}
	a := n.a
	out := &Appraisal{Currency: string(a.settings.Currency), Score: a.scores(), AllPartsFound: Share(a.expected.allFound)}
	out.RepairShare = a.repairShare()
	out.Worth, out.Purchase = a.worth(), a.purchaseReport()
	out.Rules = a.facts(out).fired(a.family)
	s := &Standing{
		Currency: out.Currency, Worth: out.Worth, Purchase: out.Purchase,
		Coverage: out.Score.Coverage, Condition: out.Score.Condition.Mean,
		Rules: out.Rules, Missing: a.missingLines(),
	}
	s.Verdict, s.Reasons = a.verdict(out)
	for _, step := range n.steps {
		if step.Answer != Skip && step.Check != "" {
			s.Checked++
			s.Minutes += step.minutes
		}
	}
	n.standing = s
	return s
}
