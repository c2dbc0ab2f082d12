package valuation

import (
	"slices"

	"lotgauge/valuation/belief"
	"lotgauge/valuation/diag"
)

// ReckonOptions are what the caller may set for a ready reckoner.
type ReckonOptions struct {
	InspectOptions
	Variant string // the catalogue number, empty where it is not known
	Buy     string // the buying sheet, empty for that of the settings
	Finds   int    // to measure the errors over, 0 for 500
}

// A Reckoner is a family's checks on paper: add up what was found, and read off
// where to stop. It is additive, which a worth is not: Errors say how far off
// that is.
//
// The figure starts at Unseen, and each check made changes it by the Change of
// what was found; a check not made changes nothing. It never falls below Floor.
// The same sum the other way round starts at Sound, takes off the Deduction of
// what was found, and for each check not made its Unmade.
type Reckoner struct {
	Family, Title string
	// Variant is the catalogue number, empty where all of them are reckoned with
	// and it is one of the checks.
	Variant string
	// Currency is the home currency, of all worths; SheetCurrency is that of the
	// buying sheet, of all bids.
	Currency, SheetCurrency string
	Sheet, SheetTitle       string

	// Unseen is a model that nothing is known of, Sound one with nothing wrong,
	// of the dearest catalogue number; of a hundred models one is worth less than
	// Floor.
	Unseen, Sound, Floor Figure
	// Checks are the points, and the catalogue number, the best paying first. The
	// first Paying of them pay by themselves. Function tests are not among them:
	// what they show follows from the points.
	Checks []ReckonedCheck
	Paying int
	// Errors are with a few checks made, with those that pay, with all.
	Errors []ReckonError
}

// A Figure is a worth in the home currency, or a change of one, and the bid that
// goes with it in the currency of the buying sheet. Bids are not rounded to the
// ladder: what is read off is rounded down to a bid that can be made.
type Figure struct{ Worth, Bid Money }

// ReckonedCheck is a check of a reckoner.
type ReckonedCheck struct {
	Check
	// Pays tells whether knowing it is worth more than the time it takes, to a
	// bidder who does not know where the hammer falls.
	Pays bool
	// Unmade comes off the sound start where the check is not made.
	Unmade Figure
	States []ReckonedState
}

// ReckonedState is one answer to a check.
type ReckonedState struct {
	CheckAnswer
	// Change is against not knowing: added to the unseen start.
	Change Figure
	// Deduction is against sound, or the dearest catalogue number: taken off the
	// sound start. It is below zero for what is worth more than that.
	Deduction Figure
}

// ReckonError is how far the sum on paper is from the appraisal in full, over
// simulated finds. Both are the bid at which to stop, on the ladder, in the
// currency of the buying sheet.
type ReckonError struct {
	// Checks is how many of the checks are made, the first ones.
	Checks int
	// Mean and P90 are of the absolute difference.
	Mean, P90 Money
	// StopOnPaper and StopInFull are the mean bids. If they are close together
	// the reckoner is right on average.
	StopOnPaper, StopInFull Money
}

// Reckon makes the ready reckoner of a family. It is nil if the diagnostics have
// errors.
func (l *Library) Reckon(family string, o ReckonOptions) (*Reckoner, diag.List) {
	x, diags := l.NewFind(family, "", o.Buy, o.Today)
	if diags.HasErrors() {
		return nil, diags
	}
	x.Variant = o.Variant
	n, diags := l.Inspect(x, o.InspectOptions)
	if diags.HasErrors() {
		return nil, diags
	}
	if !n.a.whole() {
		return nil, refuse("a price is missing: "+n.a.missing[0].id, "a price or a guide for it", "")
	}
	if o.Finds <= 0 {
		o.Finds = 500
	}
	return newReckoning(n).reckoner(o.Finds)
}

// reckoning is a reckoner in the making.
type reckoning struct {
	n    *Inspection
	plan *plan
	// In the order of the checks.
	subjects []subject
	cases    *belief.Cases
	// Worth of each case.
	value []float64
	// By subject and case.
	answers [][]uint8
	effects [][]float64
	line    line
	floor   float64
}

// newReckoning draws models that nothing is known of and fits the effects of what
// may be found to what they are worth. The paper starts nowhere below the worth
// that all but one in a hundred models reach: the sum of many faults would fall
// below what is left in a wreck's parts.
func newReckoning(n *Inspection) *reckoning {
	r := &reckoning{n: n, plan: n.planned()}
	a := n.a
	r.cases = a.posterior.Draw(a.draws, a.seed)
	r.value = a.ledger.values(r.cases)
	for _, s := range r.plan.subjects {
		if s.kind == CheckPoint || s.kind == CheckVariant {
			r.subjects = append(r.subjects, s)
		}
	}
	at := *n
	at.a = a.given(a.posterior, r.cases, r.value)
	for _, s := range r.subjects {
		r.answers = append(r.answers, at.inquiry(s).answers)
	}
	r.effects = r.fit()
	worths := slices.Clone(r.value)
	tail := quantiles7(worths, 0.01, 0.10, 0.90)
	r.floor = tail[0]
	r.line = newLine(&a.purchase, tail[1], tail[2])
	return r
}

// reckoner puts the figures together.
func (r *reckoning) reckoner(finds int) (*Reckoner, diag.List) {
	a := r.n.a
	out := &Reckoner{
		Family: a.family.ID, Title: a.family.Title, Variant: a.listing.Variant, Currency: string(a.settings.Currency),
		Sheet: a.buy.ID, SheetTitle: a.buy.Title, SheetCurrency: string(a.buy.Currency),
		Unseen: r.figure(a.expected.worth), Floor: r.figure(r.floor),
	}
	sound := a.expected.worth
	for i, s := range r.subjects {
		c := r.check(i, s)
		sound += r.best(i)
		if c.Pays {
			out.Paying++
		}
		out.Checks = append(out.Checks, c)
	}
	out.Sound = r.figure(sound)
	for _, checks := range distinct(min(few, len(out.Checks)), out.Paying, len(out.Checks)) {
		e, err := r.measure(checks, finds)
		if err != nil {
			return nil, diag.List{a.impossible(err)}
		}
		out.Errors = append(out.Errors, e)
	}
	return out, nil
}

// few is how many checks are made in a hurry.
const few = 5

// distinct are some numbers in ascending order, each once.
func distinct(xs ...int) []int {
	slices.Sort(xs)
	return slices.Compact(xs)
}

// check is a check with the figures of its answers.
func (r *reckoning) check(i int, s subject) ReckonedCheck {
	at := slices.Index(r.plan.subjects, s)
	c := ReckonedCheck{Check: r.n.weighed(at), Unmade: r.change(r.best(i))}
	c.Pays = r.plan.net(at, r.n.stall()) > r.n.stall().trifle
	for _, answer := range c.Answers {
		effect := r.effects[i][r.index(s, answer.ID)]
		c.States = append(c.States, ReckonedState{
			CheckAnswer: answer, Change: r.change(effect), Deduction: r.change(r.best(i) - effect),
		})
	}
	return c
}

// index is the answer of an id.
func (r *reckoning) index(s subject, id string) int {
	if s.kind == CheckVariant {
		return r.n.a.family.VariantIndex(id)
	}
	return r.n.a.family.Points[s.index].StateIndex(id)
}

// best is the effect of check i against which its answers are deductions: that
// of the sound state, or of the dearest catalogue number.
func (r *reckoning) best(i int) float64 {
	if r.subjects[i].kind == CheckPoint {
		return r.effects[i][0]
	}
	best := 0.0
	for v, p := range r.n.a.posterior.Variants() {
		if p > 0 {
			best = max(best, r.effects[i][v])
		}
	}
	return best
}
