package checklist

import "lotgauge/valuation/money"

// MaxEach is how many histories, features, options, variants, points, states of
// a point and symptoms a family may have, each.
const MaxEach = 255

// AnyHistory is the id of the one history of a family that lists none.
const AnyHistory = "any"

// A Family is a checklist: models that share tooling. Whatever refers to
// another list of the family does so by index into it. Slices are in file
// order, and are not to be changed by readers.
type Family struct {
	ID, Title, Scale string
	File             string  // the file it was read from, as diagnostics name it
	BreakMinutes     float64 // bench time to take one apart for parts, default 0
	Grades           []Grade // at least one, scores ascending
	Histories        []History
	Features         []Feature
	Variants         []Variant
	Points           []Point
	Symptoms         []Symptom
	Parts            []Part // its own first, then foreign ones it needs or yields
	Rules            []Rule
}

// A Grade is a word for a condition, such as "good", with what a model in it
// brings against the reference grade.
type Grade struct {
	ID     string
	Score  float64 // condition score, 0 to 100
	Factor float64 // above 0
}

// A History is how a model may have been kept. It is not seen, and shifts the
// odds of all points together.
type History struct {
	ID, Title string
	Odds      float64 // relative frequency, default 1
}

// A Feature is something in which the variants differ.
type Feature struct {
	ID, Title string
	Tell      string   // how to tell the options apart
	Options   []string // ids, at least two
}

// A Variant is one catalogue number.
type Variant struct {
	ID, Title string
	From, To  int           // years made, both included; 0 where unknown
	Made      float64       // relative frequency among the variants, default 1
	Guide     *money.Amount // price of a sound one at the reference grade; nil: none given
	Fit       []int         // the option it left the factory with, per feature
}

// A Point is one thing to inspect.
type Point struct {
	ID, Title string
	Area      string   // where on the model, for grouping
	How       string   // what to do to see its state
	Ask       Phrases  // what to ask a seller for
	Weight    float64  // share of the condition score, default 1
	See       []string // evidence that can settle it: hand, track, photo, seller
	Minutes   float64  // time to check it in the hand, default 0
	Applies   []bool   // per variant
	Feature   int      // the feature it shows, -1 for none

	NeededToRun bool    // its remedy is part of making a runner
	States      []State // at least two, the sound one first
}

// Phrases is a text by language tag, "en" first among them. It is nil where the
// file has none.
type Phrases map[string]string

// A State is one way to find a point.
type State struct {
	ID, Title string
	Score     float64       // 0 to 1, default 1: share of the point's weight it earns
	Factor    float64       // what a buyer pays relative to sound, default 1
	Original  bool          // as it left the factory, default true
	Complete  bool          // nothing missing, default true
	Odds      []float64     // a weight per history, default 1
	Needs     []Supply      // parts its remedy takes
	Spend     *money.Amount // consumables its remedy takes; nil: none
	Minutes   float64       // bench time its remedy takes
	Incurable bool          // cure = "none": it stays as it is
	Yields    []Supply      // parts that can be harvested in this state
	Stop      string        // why to walk away when it is found, "" if no reason to
}

// A Supply is a number of pieces of one part, which part depending on the
// variant.
type Supply struct {
	Template string // as in the file, "pantograph-{pantograph}"
	Qty      int    // pieces, at least 1
	Part     []int  // index into Family.Parts per variant, -1 where the point does not apply
}

// A Symptom is what a function test shows.
type Symptom struct {
	ID, Title string
	Ask       Phrases
	Leak      float64  // chance that it is there without any of the causes, default 0
	See       []string // evidence that can settle it, as for a point
	Minutes   float64  // time to test for it, default 0
	Causes    []Cause
}

// A Cause is a state that brings a symptom about, by itself with chance
// Strength (0 to 1).
type Cause struct {
	Point, State int
	Strength     float64
}

// A Part is something that can be bought, harvested and sold by itself.
type Part struct {
	ID, Title string
	Group     string        // what it is compared with for scarcity, "" for nothing
	Guide     *money.Amount // price of one piece; nil: none given
	Sells     *float64      // chance that a harvested one sells; nil: as the settings say
	File      string        // the file it was read from
	Foreign   bool          // defined in another family of the folder
}
