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
// The figure begins at Start, and each check made changes it by the Change of
// what was found; a check not made changes nothing. A sum below Floor counts as
// Floor. The same sum the other way round begins at Sound, takes off the
// Deduction of what was found, and for each check not made its Unmade.
//
// The figures are for checks made in their order from the first on. What a state
// says of the catalogue number is in that check, and what it says of checks that
// are not made in part in its own figure.
type Reckoner struct {
	Family, Title string
	// Variant is the catalogue number, empty where all of them are reckoned with
	// and it is one of the checks.
	Variant string
	// Currency is the home currency, of all worths; SheetCurrency is that of the
	// buying sheet, of all bids.
	Currency, SheetCurrency string
	Sheet, SheetTitle       string

	// Unseen is a model that nothing is known of, as it is appraised; the sum
	// begins at Start, which is a little below that, since Floor lifts the worst.
	Unseen, Start Figure
	// Sound is one with nothing wrong, of the catalogue number Dearest.
	Sound   Figure
	Dearest string
	// Floor is the least that the paper says. The share Below of all models are
	// worth less.
	Floor Figure
	Below Share
	// Checks are the points, and the catalogue number. Each of the first Paying
	// adds most to those before it, and more than the time it takes; the rest add
	// less than that to those, the best of them first. Function tests are not
	// among them: what they show follows from the points.
	Checks []ReckonedCheck
	Paying int
	// Errors are with a few checks made, with those that pay, with all.
	Errors []ReckonError
}

// A Figure is a worth in the home currency, or a change of one, and the bid that
// goes with it in the currency of the buying sheet. Bids are not rounded to the
// ladder: what is read off is rounded down to a bid that can be made.
type Figure struct{ Worth, Bid Money }

// ReckonedCheck is a check of a reckoner. Its Worth and Net are what it adds for
// somebody who decides by the sum and has made the checks before it, of those
// that pay.
type ReckonedCheck struct {
	Check
	// Pays tells whether it adds more than the time it takes, to a bidder who does
	// not know where the hammer falls.
	Pays bool
	// Unmade comes off the sound start where the check is not made.
	Unmade Figure
	States []ReckonedState
}

// ReckonedState is one answer to a check.
type ReckonedState struct {
	CheckAnswer
	// Change is against not knowing: added to the start.
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
	n     *Inspection
	cases *belief.Cases
	// value is the worth of each case.
	value  []float64
	checks []*reckoned
	paying int
	line   line
	// start is where the sum begins, floor the least it comes to.
	start, floor float64
}

// reckoned is a check of it.
type reckoned struct {
	subject
	minutes float64
	answers []uint8 // by case
	// By answer: what it would change if it alone were different, and its effect.
	alone, effects []float64
	// worth is what it adds to those made before it, net that less its time.
	worth, net float64
}

// below is the share of models that are worth less than the floor. A floor so
// low that no model is would be of no use: the sum of many faults falls below
// what is left in a wreck's parts. The sums come closest with 2 to 5 in a hundred,
// and the more there are the further the start is from the worth of a model
// that nothing is known of.
const below = 0.02

// newReckoning fits the effects of what may be found to what drawn models are
// worth; first to put the checks in their order, and then in that order.
func newReckoning(n *Inspection) *reckoning {
	r := drawReckoning(n)
	r.fit()
	r.order()
	r.fit()
	return r
}

// drawReckoning draws models that nothing is known of.
func drawReckoning(n *Inspection) *reckoning {
	r := &reckoning{n: n}
	a := n.a
	r.cases = a.posterior.Draw(a.draws, a.seed)
	r.value = a.ledger.values(r.cases)
	at := *n
	at.a = a.given(a.posterior, r.cases, r.value)
	for _, s := range n.planned().subjects {
		if s.kind != CheckPoint && s.kind != CheckVariant {
			continue
		}
		q := at.inquiry(s)
		r.checks = append(r.checks, &reckoned{subject: s, minutes: q.Minutes, answers: q.answers, alone: r.alone(s)})
	}
	worths := slices.Clone(r.value)
	tail := quantiles7(worths, below, 0.10, 0.90)
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
		Unseen: r.figure(a.expected.worth), Start: r.figure(r.start), Floor: r.figure(r.floor), Below: below,
		Dearest: a.listing.Variant, Paying: r.paying,
	}
	sound := r.start
	for i, c := range r.checks {
		best := r.best(c)
		sound += c.effects[best]
		if c.kind == CheckVariant {
			out.Dearest = a.family.Variants[best].ID
		}
		out.Checks = append(out.Checks, r.check(c, i < r.paying))
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

// distinct are some numbers in ascending order, each once, without a zero.
func distinct(xs ...int) []int {
	slices.Sort(xs)
	return slices.DeleteFunc(slices.Compact(xs), func(x int) bool { return x == 0 })
}

// check is a check with the figures of its answers.
func (r *reckoning) check(c *reckoned, pays bool) ReckonedCheck {
	best := c.effects[r.best(c)]
	out := ReckonedCheck{Check: r.n.check(c.subject), Pays: pays, Unmade: r.change(best)}
	out.Together = 1
	out.Worth, out.Net = r.n.a.home(c.worth), r.n.a.home(c.net)
	for _, answer := range out.Answers {
		effect := c.effects[r.index(c.subject, answer.ID)]
		out.States = append(out.States, ReckonedState{
			CheckAnswer: answer, Change: r.change(effect), Deduction: r.change(best - effect),
		})
	}
	return out
}

// index is the answer of an id.
func (r *reckoning) index(s subject, id string) int {
	if s.kind == CheckVariant {
		return r.n.a.family.VariantIndex(id)
	}
	return r.n.a.family.Points[s.index].StateIndex(id)
}

// best is the answer against which the others are deductions: the sound state, or
// the dearest catalogue number.
func (r *reckoning) best(c *reckoned) int {
	if c.kind == CheckPoint {
		return 0
	}
	best := -1
	for v, p := range r.n.a.posterior.Variants() {
		if p > 0 && (best < 0 || c.effects[v] > c.effects[best]) {
			best = v
		}
	}
	return best
}
