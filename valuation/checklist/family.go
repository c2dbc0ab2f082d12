package checklist

import (
	"slices"

	"lotgauge/valuation/money"
)

// MaxEach is how many histories, features, options, variants, points, states of
// a point and symptoms a family may have, each.
const MaxEach = 255

// MaxStates is how many states of points a family may have, counted for every
// variant; the largest built-in one has about 1,100.
const MaxStates = 50_000

// AnyHistory is the id of the one history of a family that lists none.
const AnyHistory = "any"

// A Family is a checklist: models that share tooling. Whatever refers to
// another list of the family does so by index into it. Slices are in file
// order, and are not to be changed by readers.
type Family struct {
	ID    string
	Title string
	Scale string // as people write it, "H0"; "" where not given
	File  string // the file it was read from, as diagnostics name it

	// BreakMinutes is the bench time to take one apart for parts, default 0.
	BreakMinutes float64

	// Grades are at least one, with ascending scores.
	Grades []Grade
	// Histories are at least one, with odds above 0 for one of them.
	Histories []History
	Features  []Feature
	// Variants are at least one, made above 0 for one of them.
	Variants []Variant
	// Points are at least one, with a weight above 0 among those that apply to
	// a variant.
	Points   []Point
	Symptoms []Symptom
	// Parts are the family's own in file order, then the foreign ones that it
	// needs or yields in order of their first mention.
	Parts []Part
	Rules []Rule
}

// A Grade is a word for a condition, such as "good", with what a model in it
// brings against the reference grade.
type Grade struct {
	ID string
	// Score is the condition score the grade stands for, 0 to 100.
	Score float64
	// Factor is the price against that of the reference grade, above 0, since
	// prices seen are divided by it.
	Factor float64
}

// A History is how a model may have been kept. It is not seen, and shifts the
// odds of all points together.
type History struct {
	ID, Title string
	// Odds are the relative frequency among the histories, default 1.
	Odds float64
}

// A Feature is something in which the variants differ.
type Feature struct {
	ID, Title string
	// Tell says how to tell the options apart.
	Tell string
	// Options are ids, at least two.
	Options []string
}

// A Variant is one catalogue number.
type Variant struct {
	ID, Title string
	// From and To are the years made, both included; 0 where not known.
	From, To int
	// Made is the relative frequency among the variants, default 1.
	Made float64
	// Guide is the price of a sound one at the reference grade, above 0, in any
	// currency; nil where none is given.
	Guide *money.Amount
	// Fit is the option it left the factory with, one index per feature.
	Fit []int
}

// A Point is one thing to inspect.
type Point struct {
	ID, Title string
	// Area is where on the model it is, for grouping; How says what to do to
	// see its state.
	Area, How string
	// Ask is what to ask a seller for.
	Ask Phrases
	// Weight is the share of the condition score, of any scale, default 1. It
	// is 0 for what is priced apart from condition, such as a box.
	Weight float64
	// See is the evidence that can settle it: hand, track, photo, seller. It is
	// never empty.
	See []string
	// Mind is what checking it takes that is to be minded, see below. It is nil
	// where the file does not say, and empty where it says that there is nothing.
	Mind []string
	// Minutes is the time to check it in the hand, default 0.
	Minutes float64
	// Applies tells per variant whether it has the point at all.
	Applies []bool
	// Feature is the feature the point shows, -1 for none.
	Feature int
	// NeededToRun marks a point whose remedy is part of making a runner.
	NeededToRun bool
	// Measure is what can be measured of it, nil for nothing.
	Measure *Measure
	// States are at least two, the sound one first: what all remedies lead to.
	States []State
}

// What is to be minded of a check: with whose leave, and on what supply.
const (
	MindOpening = "opening" // something may have to be opened, unscrewed or unclipped
	MindPower   = "power"   // it is tried under power
	MindSolvent = "solvent" // a solvent, oil or an eraser comes near it
)

// Minded is what is to be minded by whoever has the model in the hand: as the file
// says, or else by what can settle the point. What no picture would show is inside,
// and what the hand can settle needs no power.
func (p *Point) Minded() []string {
	if p.Mind != nil {
		return p.Mind
	}
	by := func(evidence string) bool { return slices.Contains(p.See, evidence) }
	switch {
	case by("hand") && !by("photo"):
		return []string{MindOpening}
	case by("track") && !by("hand"):
		return []string{MindPower}
	}
	return nil
}

// Phrases is a text by language, a tag of two lower-case letters. It is nil
// where the file has none.
type Phrases map[string]string

// A State is one way to find a point.
type State struct {
	ID, Title string
	// Score is the share of the point's weight that it earns, 0 to 1, default 1.
	Score float64
	// Factor is what a buyer pays relative to a sound one, default 1: for what
	// is priced apart from condition.
	Factor float64
	// Original is false where it is not as it left the factory, Complete where
	// something is missing. Both default to true.
	Original, Complete bool
	// Odds are one weight per history, default 1.
	Odds []float64
	// Needs are the parts that the remedy takes, Spend the consumables (nil:
	// none), Minutes the bench time.
	Needs   []Supply
	Spend   *money.Amount
	Minutes float64
	// Incurable is set by cure = "none": it stays as it is.
	Incurable bool
	// Yields are the parts that can be harvested in this state.
	Yields []Supply
	// Stop is why to walk away when it is found, "" if that is no reason.
	Stop string
	// Range is the readings of the point's measure that the state allows, nil
	// for all of them.
	Range *Range
}

// A Supply is a number of pieces of one part, which part depending on the
// variant.
type Supply struct {
	// Template is the part id as in the file, "pantograph-{pantograph}".
	Template string
	// Qty counts pieces, at least 1.
	Qty int
	// Part is an index into Family.Parts per variant, -1 where the point does
	// not apply to the variant.
	Part []int
}

// A Symptom is what a function test shows. Its causes act independently of each
// other.
type Symptom struct {
	ID, Title string
	// Ask is what to ask a seller about it.
	Ask Phrases
	// Leak is the chance that it is there without any of the causes, 0 to 1,
	// default 0.
	Leak float64
	// See is the evidence that can settle it, as for a point.
	See []string
	// Minutes is the time to test for it, default 0.
	Minutes float64
	Causes  []Cause
}

// A Cause is a state that brings a symptom about.
type Cause struct {
	Point, State int
	// Strength is the chance, 0 to 1, that it alone does so.
	Strength float64
}

// A Part is something that can be bought, harvested and sold by itself.
type Part struct {
	ID, Title string
	// Group is what it is compared with for scarcity, "" for nothing.
	Group string
	// Guide is the price of one piece, above 0, in any currency; nil where none
	// is given.
	Guide *money.Amount
	// Sells is the chance that a harvested one sells, 0 to 1; nil: as the
	// settings say.
	Sells *float64
	// File is the file it was read from. Foreign tells that this is another
	// family's.
	File    string
	Foreign bool
}
