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
// symptom known. It is taken at mean prices: no check shows a price, so drawing
// them costs all orders alike and only blurs the figure. Money is in Currency, as
// floats: these are averages.
type Simulation struct {
	Family, Currency string
	Finds, Draws     int
	Seed             uint64
	PerMinute        float64 // what a minute at the stall is worth
	Blind            float64 // regret of deciding without a look
	Orders           []OrderResult
}

// The orders that a simulation compares.
const (
	OrderPaying    = "paying"    // what pays the most next, as an Inspection has it
	OrderChecklist = "checklist" // the catalogue number, then as the checklist has it
	OrderWeight    = "weight"    // the catalogue number, then points by weight, the heaviest first
)

// OrderResult is what an order costs a find on average. Every order stops by the
// same rule, when no check that is left pays, one or two steps ahead; the orders
// differ in which check comes next.
type OrderResult struct {
	Order    string
	Minutes  float64 // until the rule stops it
	Regret   float64 // then
	RegretSE float64 // standard error of Regret
	AtDrawn  float64 // Regret at the prices drawn with each find
	Total    float64 // Regret, and Minutes at what they are worth

	// On equal terms with the paying order.
	SameMinutes float64 // Regret, where each find gets the minutes that the paying order spent on it; a check begun in time is finished
	SameRegret  float64 // Minutes, under the shortest limit for all finds that brings Regret down to the paying order's
	Reaches     bool    // whether it ever gets there; if not, SameRegret is Minutes

	// With every check made, whether it pays or not.
	FullMinutes float64
	FullRegret  float64 // what the checks that can be made do not show
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
