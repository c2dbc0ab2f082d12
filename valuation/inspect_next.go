package valuation

import (
	"slices"

	"lotgauge/valuation/checklist"
	"lotgauge/valuation/money"
)

// An Outlook says whether to look further, and if not why.
type Outlook uint8

const (
	// LookOn: there is a check that pays.
	LookOn Outlook = iota + 1
	// NoLongerPays: checks are left, but none is worth the time it takes. Decide.
	NoLongerPays
	// AllSeen: nothing is left that could be checked here.
	AllSeen
	// DealBroken: something was found that rules the deal out.
	DealBroken
	// NotPriced: a price is missing, so that nothing can be weighed.
	NotPriced
)

// Next is the check to make next: the one that brings the most, the time at the
// stall taken off. It is false where no check pays; Outlook then says why.
func (n *Inspection) Next() (Check, bool) {
	p := n.planned()
	if n.Outlook() != LookOn {
		return Check{}, false
	}
	c := n.weighed(p.best)
	if p.together > 1 {
		c.Together = p.together
		c.Worth, c.Net = n.a.home(p.both), n.a.home(n.stall().net(p.both, p.time))
	}
	if p.with >= 0 {
		c.With = n.question(p.subjects[p.with]).Title
	}
	return c, true
}

// Checks are all checks that are left to make here, the best by itself first.
func (n *Inspection) Checks() []Check {
	out := []Check{}
	for i := range n.planned().subjects {
		out = append(out, n.weighed(i))
	}
	return out
}

// Outlook says whether to look further.
func (n *Inspection) Outlook() Outlook {
	s := n.Standing()
	switch p := n.planned(); {
	case !n.a.whole():
		return NotPriced
	case s.Verdict == WalkAway && n.broken(s):
		return DealBroken
	case len(p.subjects) == 0:
		return AllSeen
	case p.best < 0:
		return NoLongerPays
	}
	return LookOn
}

// broken tells whether something was found, or a rule of the family says, that
// the deal is off, and not only its price.
func (n *Inspection) broken(s *Standing) bool {
	stop := func(r FiredRule) bool { return r.Level == checklist.Stop.String() }
	return slices.ContainsFunc(s.Rules, stop) || len(n.a.dealBreakers()) > 0
}

// weighed is a check of the plan, with what it is worth by itself.
func (n *Inspection) weighed(i int) Check {
	p := n.planned()
	c := n.check(p.subjects[i])
	c.Together = 1
	c.Worth, c.Net = n.a.home(p.worth[i]), n.a.home(p.net(i, n.stall()))
	return c
}

// stall is what time is worth to the user. What is less than the smallest coin is
// a trifle.
func (n *Inspection) stall() stall {
	return stall{perMinute: n.a.settings.StallRate / 60, trifle: money.Float(n.a.settings.Currency.Unit()) / 2}
}

// planned is the plan that follows from the findings. What was put off is weighed
// once more when nothing else pays. Without prices for all that is open there is
// no worth, and the plan is empty.
func (n *Inspection) planned() *plan {
	if n.plan != nil {
		return n.plan
	}
	n.plan = &plan{best: -1, with: -1, together: 1}
	if !n.a.whole() {
		return n.plan
	}
	told, later := n.answered()
	var now, put []subject
	for _, s := range n.subjects() {
		switch key := n.key(s); {
		case told[key] || !n.open(s):
		case later[key]:
			put = append(put, s)
		default:
			now = append(now, s)
		}
	}
	n.plan = n.weigh(now)
	if n.plan.best < 0 && len(put) > 0 {
		n.plan = n.weigh(append(now, put...))
	}
	return n.plan
}

// weigh values checks over the cases behind the standing. The prospect is that of
// the appraisal: against the price asked, or against where the hammer may fall
// by the listing or else around the bid at which to stop now. So what a check is
// worth follows from the listing alone, however it came about.
func (n *Inspection) weigh(subjects []subject) *plan {
	q := &asker{cases: n.a.expected.cases, values: [][]float64{n.a.expected.value}}
	q.g = n.a.prospect(&Appraisal{Purchase: n.Standing().Purchase})
	about := make([]inquiry, len(subjects))
	for i, s := range subjects {
		about[i] = n.inquiry(s)
	}
	return newPlan(q, subjects, about, n.stall())
}

// answered tells which checks have had an answer that another one would not
// better, "cannot tell" included, and which have been put off.
func (n *Inspection) answered() (told, later map[string]bool) {
	told, later = map[string]bool{}, map[string]bool{}
	for _, s := range n.subjects() {
		about := func(f Finding) bool { return f.By == s.by && n.about(s, &f) }
		if slices.ContainsFunc(n.a.listing.Findings, about) {
			told[n.key(s)] = true
		}
	}
	for _, s := range n.steps {
		switch s.Answer {
		case Skip:
			told[s.Check] = told[s.Check] || later[s.Check]
			later[s.Check] = true
		case CannotTell:
			told[s.Check] = true
		}
	}
	return told, later
}

// about tells whether a finding is the answer to a check. A reading is not: it
// need not tell the states of its point apart.
func (n *Inspection) about(s subject, f *Finding) bool {
	switch s.kind {
	case CheckPoint:
		return f.Point == n.id(s) && f.State != ""
	case CheckSymptom:
		return f.Symptom == n.id(s)
	case CheckFeature:
		return f.Feature == n.id(s) || s.shows >= 0 && f.Option != "" && f.Point == n.a.family.Points[s.shows].ID
	}
	return f.Variant != ""
}
