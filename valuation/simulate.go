package valuation

import "lotgauge/valuation/diag"

// SimulateOptions are what the caller may set for a simulation: those of an
// inspection, whose draws are behind every decision, and how many finds.
type SimulateOptions struct {
	InspectOptions
	Finds int // at least 1
}

// A Simulation compares orders of checking a family's models over simulated
// finds. Each find is a model drawn from the checklist's own odds: variant,
// states of all points, symptoms and prices. What is asked for it is drawn
// around the expected worth of the family, not of the find: the seller knows no
// more than the buyer. The buyer looks, each check telling the truth, and buys
// if the expected worth is above what the model then lands at.
//
// Regret is the money lost against deciding with every variant, state and
// symptom known, which is what perfect information is worth (Howard, Information
// value theory, IEEE Transactions on Systems Science and Cybernetics 2, 1966;
// from memory). It is taken at mean prices: no check shows a price, so drawing
// them costs all orders alike and only blurs the figure. Money is in Currency,
// as floats: these are averages.
type Simulation struct {
	Family, Currency string
	Finds, Draws     int
	Seed             uint64

	// PerMinute is what a minute at the stall is worth.
	PerMinute float64
	// Blind is the regret of deciding without a look.
	Blind float64
	// Orders are the results: paying, patient, checklist, weight.
	Orders []OrderResult
}

// The orders that a simulation compares.
const (
	OrderPaying    = "paying"    // what pays the most next, as an Inspection has it
	OrderPatient   = "patient"   // the same for somebody whose time is worth a tenth, in what it stops at; its Total is at the full worth
	OrderChecklist = "checklist" // the catalogue number, then as the checklist has it
	OrderWeight    = "weight"    // the catalogue number, then points by weight, the heaviest first
)

// OrderResult is what an order costs a find on average. Every order stops by the
// same rule, when no check that is left pays, alone or with others; save the
// patient one the orders differ only in which check comes next.
//
// Where two orders stop, neither the minutes alone nor the regret alone tells
// which is better, since looking longer leaves less to regret. They are compared
// on equal terms: SameMinutes and SameRegret. The limit must not depend on the
// find: an order stops when it has made up its mind, and another one cut short at
// that very moment has not.
type OrderResult struct {
	Order string
	// Minutes are those until the rule stops it, Regret is what is then lost,
	// and RegretSE its standard error.
	Minutes, Regret, RegretSE float64
	// AtDrawn is Regret at the prices drawn with each find.
	AtDrawn float64
	// Total is Regret, and Minutes at what they are worth.
	Total float64

	// SameMinutes is the regret under a limit on the minutes, the same for all
	// finds, by which this order takes at least as many as the paying order does.
	// A check begun in time is finished.
	SameMinutes float64
	// SameRegret is the minutes under the shortest such limit that brings the
	// regret down to the paying order's.
	SameRegret float64
	// Reaches tells whether there is such a limit; if not, SameRegret is Minutes.
	Reaches bool

	// FullMinutes are those of every check there is, whether it pays or not;
	// FullRegret is what they leave to regret, which the evidence to be had here
	// does not show.
	FullMinutes, FullRegret float64
}

// Simulate simulates finds of a family. The simulation is nil if the diagnostics
// have errors.
func (l *Library) Simulate(family string, o SimulateOptions) (*Simulation, diag.List) {
	if o.Finds < 1 {
		return nil, refuse("no finds to simulate", "1 or more", "")
	}
	x, diags := l.NewFind(family, "", "", o.Today)
	if diags.HasErrors() {
		return nil, diags
	}
	n, diags := l.Inspect(x, o.InspectOptions)
	if diags.HasErrors() {
		return nil, diags
	}
	if !n.a.whole() {
		return nil, refuse("a price is missing: "+n.a.missing[0].id, "a price or a guide for it", "")
	}
	return newSimulator(n, o.Finds).run()
}
