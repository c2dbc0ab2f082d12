package checklist

import (
	"fmt"
	"slices"

	"lotgauge/valuation/diag"
)

// A verdict is what can be said of a condition before any appraisal. Never and
// always are certain. Sometimes is all the rest, also where a condition fails
// for a reason that is not looked for, such as two points that cannot be in the
// states named at once.
type verdict uint8

const (
	sometimes verdict = iota
	never
	always
)

// rules reports rules that can never fire, and warns of those that always do.
func (p *prover) rules() {
	for i, t := range p.root.Children("rule") {
		switch v, why := p.judge(p.fam.Rules[i].When, t.Child("when")); v {
		case never:
			t.Report("when", "the rule can never fire: "+why, "a condition that can hold", "")
		case always:
			t.Warn("when", "the rule always fires: "+why, "a condition that can fail", "")
		}
	}
}

// judge says what is known of a condition, read from t, and why; there is no
// reason for sometimes.
func (p *prover) judge(c Condition, t *diag.Table) (verdict, string) {
	switch {
	case c.All != nil:
		return p.judgeAll(c, t)
	case c.Any != nil:
		return p.judgeAny(c, t)
	case c.Not != nil:
		v, why := p.judge(*c.Not, t.Child("not"))
		return v.not(), why
	case c.Figure != "":
		return judgeFigure(c)
	case c.Point >= 0:
		return p.judgePoint(c)
	}
	s := p.fam.Symptoms[c.Symptom]
	if s.Leak == 1 {
		return always, fmt.Sprintf("symptom %s is always there", quoted(s.ID))
	}
	return sometimes, "" // a symptom that never occurs is an error of its own
}

// not is the verdict on the opposite.
func (v verdict) not() verdict {
	switch v {
	case never:
		return always
	case always:
		return never
	}
	return sometimes
}

// judgeAll looks at the conditions one by one, and then at the bounds that they
// put on the same figure.
func (p *prover) judgeAll(c Condition, t *diag.Table) (verdict, string) {
	result, because := always, ""
	for i, inner := range t.Children("all") {
		switch v, why := p.judge(c.All[i], inner); {
		case v == never:
			return never, why
		case v == sometimes:
			result = sometimes
		case because == "":
			because = why
		}
	}
	if name, ok := contradiction(c); ok {
		return never, "the bounds on " + name + " contradict each other"
	}
	return result, because
}

// judgeAny also warns of a branch that never holds beside others that may.
func (p *prover) judgeAny(c Condition, t *diag.Table) (verdict, string) {
	result, because := never, ""
	inner := t.Children("any")
	reasons := map[int]string{}
	for i := range inner {
		v, why := p.judge(c.Any[i], inner[i])
		switch {
		case v == always:
			return always, why
		case v == never:
			reasons[i] = why
			because = why
		default:
			result = sometimes
		}
	}
	if result == never {
		return never, because
	}
	for i, why := range reasons {
		inner[i].Warn("", "this condition can never hold: "+why, "one that can", "")
	}
	return result, ""
}

// judgePoint: the chance of states that cannot occur is 0, and that of all the
// states which can is 1 if every variant has the point. Anything between can be
// reached by findings.
func (p *prover) judgePoint(c Condition) (verdict, string) {
	x := p.fam.Points[c.Point]
	occurs := func(s int) bool { return p.occurs(x.States[s]) }
	if !slices.ContainsFunc(c.States, occurs) {
		return never, fmt.Sprintf("point %s is never in the states named", quoted(x.ID))
	}
	for s := range x.States {
		if occurs(s) && !slices.Contains(c.States, s) {
			return sometimes, ""
		}
	}
	if slices.Contains(x.Applies, false) {
		return sometimes, ""
	}
	return always, fmt.Sprintf("point %s is always in one of the states named", quoted(x.ID))
}

// judgeFigure compares the bounds with what the figure can be. That no figure is
// always above a bound is so because 0%, the least, can be reached by all.
func judgeFigure(c Condition) (verdict, string) {
	whole := spanOf(c.Figure)
	held := c.span()
	switch {
	case c.Above != nil && c.Below != nil && *c.Above >= *c.Below:
		return never, "above is not less than below"
	case whole.and(held).empty() && c.Above != nil && *c.Above >= whole.high:
		return never, fmt.Sprintf("%s is never above %s", c.Figure, percent(*c.Above))
	case whole.and(held).empty():
		return never, fmt.Sprintf("%s is never below %s", c.Figure, percent(*c.Below))
	case c.Above == nil && *c.Below > whole.high:
		return always, fmt.Sprintf("%s is always below %s", c.Figure, percent(*c.Below))
	}
	return sometimes, ""
}

func percent(f float64) string { return fmt.Sprintf("%.6g%%", 100*f) }
