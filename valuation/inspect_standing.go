package valuation

// A Standing is where an inspection has come to: the figures of the appraisal of
// its listing.
type Standing struct {
	// Currency is the home currency.
	Currency string
	// Worth is nil where a price is missing; Missing then says which.
	Worth   *Worth
	Missing []MissingPrice
	// Purchase is the buying side: BreakEvenBid is where to stop, CarefulBid the
	// careful bid, LossChance that at the ask.
	Purchase Purchase
	// Coverage is the share of the inspection that has been done, Condition the
	// expected score, 0 to 100.
	Coverage  Share
	Condition Tenth
	// Verdict is what to do, Reasons why to walk away, Rules those that fired.
	Verdict Verdict
	Reasons []Reason
	Rules   []FiredRule
	// Checked counts the checks answered so far, "cannot tell" included, and
	// Minutes is the time they take.
	Checked int
	Minutes float64
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
