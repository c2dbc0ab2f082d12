package valuation

import (
	"slices"
	"time"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// InspectOptions are what the caller may set for one inspection.
type InspectOptions struct {
	Options
	// Here is the evidence to be had where the model is: ByHand, ByTrack where
	// there is a test track, ByPhoto with only pictures to look at, BySeller
	// where somebody answers. None: by hand, as at a stall.
	Here []string
}

// An Inspection guides somebody through the checks that pay. It holds what has
// been found so far; whatever it says follows from that, as the appraisal of
// the same listing does, with the same figures for the same draws and seed. It
// is not for use by several goroutines at once.
//
// The usual round is Next, Answer, Standing, until Next has no check that pays;
// Back takes an answer back. A finding of the caller's own choice goes in by
// Answer to any Check, or by Record. What comes of it all is the Listing.
type Inspection struct {
	start *Listing
	here  []string
	steps []step
	// a appraises the listing with the findings so far.
	a *appraiser
	// plan and standing follow from the findings; nil until they are asked for.
	plan     *plan
	standing *Standing
}

// A Reply is one thing that was done in an inspection. Replies given in the same
// order to another inspection of the same listing bring it to the same point, so
// that they are all that has to be kept of one that was broken off.
type Reply struct {
	// Check is the key of the check, "point:wheels"; empty for a finding that was
	// recorded, which the listing has.
	Check string
	// Answer is what Answer was given.
	Answer string
}

// step is a reply and what it did.
type step struct {
	Reply
	finding *Finding // nil for none
	minutes float64
	// instead is the earlier step that it took the place of, nil for none, and
	// where that stood.
	instead *step
	stood   int
}

// Inspect starts an inspection of a listing's model. What the listing has found
// already counts. The inspection is nil if the diagnostics have errors.
func (l *Library) Inspect(x *Listing, o InspectOptions) (*Inspection, diag.List) {
	start := *x
	n := &Inspection{start: &start, here: slices.Clone(o.Here)}
	if len(n.here) == 0 {
		n.here = []string{ByHand}
	}
	if diags := checkHere(n.here); diags.HasErrors() {
		return nil, diags
	}
	a, diags := l.run(&start, o.Options)
	if a == nil {
		return nil, diags
	}
	start.Date = a.on
	n.a = a
	return n, diags
}

// checkHere reports evidence that cannot be had of a model.
func checkHere(here []string) diag.List {
	known := []string{ByHand, ByTrack, ByPhoto, BySeller}
	for _, by := range here {
		if !slices.Contains(known, by) {
			near, _ := diag.Nearest(by, known)
			return refuse("no evidence is called "+quoted(by), "one of "+listed(known), near)
		}
	}
	return nil
}

// NewFind is a listing for a model of a family that nothing is known of. With an
// ask it is for sale at that price, an amount such as "38 GBP" or a plain number
// in the currency of the buying sheet; an empty buy is the sheet of the
// settings. The listing is nil if the diagnostics have errors.
func (l *Library) NewFind(family, ask, buy string, on time.Time) (*Listing, diag.List) {
	x := &Listing{Family: family, Buy: buy, Date: on}
	a, diags := l.prepare(x, Options{Today: on})
	if diags.HasErrors() {
		return nil, diags.Sorted()
	}
	x.Title = a.family.Title
	if ask == "" {
		return x, nil
	}
	x.Fixed = true
	amount, err := money.ParseAmount(ask)
	if plain, perr := money.ParsePlain(ask); perr == nil {
		amount, err = money.Amount{Value: plain, Currency: a.buy.Currency}, nil
	}
	if err != nil {
		return nil, refuse("the price "+quoted(ask)+": "+err.Error(), `money such as "38 GBP" or 38`, "")
	}
	x.Ask = &amount
	a.checkMoney(&diags)
	if diags.HasErrors() {
		return nil, diags
	}
	return x, nil
}

// Listing is the listing with what has been found, in the order in which it was.
// It is a copy, and fit to be written and appraised.
func (n *Inspection) Listing() *Listing {
	x := *n.start
	x.Findings = slices.Clone(x.Findings)
	for _, s := range n.steps {
		if s.finding != nil {
			x.Findings = append(x.Findings, *s.finding)
		}
	}
	return &x
}

// Replies are what was done so far.
func (n *Inspection) Replies() []Reply {
	out := make([]Reply, len(n.steps))
	for i, s := range n.steps {
		out[i] = s.Reply
	}
	return out
}

// Back takes the last step back; what it took the place of counts again. It is
// false where there is none.
func (n *Inspection) Back() bool {
	if len(n.steps) == 0 {
		return false
	}
	last := n.steps[len(n.steps)-1]
	n.steps = n.steps[:len(n.steps)-1]
	if last.instead != nil {
		n.steps = slices.Insert(n.steps, last.stood, *last.instead)
	}
	n.plan, n.standing = nil, nil
	if last.finding != nil || last.instead != nil {
		n.believe() // what was possible before the step is so again
	}
	return true
}

// believe infers and evaluates from what has been found. Where that is
// impossible nothing changes. Prices stay: they do not depend on findings, and
// were looked up for every variant that the first findings left possible, which
// further ones can only make fewer.
func (n *Inspection) believe() diag.List {
	next := *n.a
	next.listing = n.Listing()
	for _, step := range []func() diag.List{next.resolve, next.infer} {
		if diags := step(); diags.HasErrors() {
			return diags
		}
	}
	next.missing, next.shut, next.even = nil, [routes][]string{}, nil
	next.findMissing()
	next.evaluate()
	n.a = &next
	n.plan, n.standing = nil, nil
	return nil
}
