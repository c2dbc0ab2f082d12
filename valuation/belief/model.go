package belief

// A Model is a family as far as beliefs go. It is read, never changed, and may
// serve many posteriors. Check says whether it is sound.
type Model struct {
	Variants  []Variant
	Features  []Feature
	Histories []History // at least one
	Points    []Point
	Symptoms  []Symptom
	Readings  []Reading // what findings of the kind PointReading refer to
}

// A Reading is what a gauge or a meter showed of a point: how well each of its
// states explains that, from 0, not at all, to 1, fully.
type Reading []float64

// A Variant is one catalogue number. Its prior is proportional to Made, a
// weight of any scale; zero rules it out.
type Variant struct {
	ID   string
	Made float64
	Fit  []int // the option it left the factory with, one per feature
}

// A Feature is what differs between variants.
type Feature struct {
	ID      string
	Options []string
}

// A History is a way the model may have been kept. Its prior is proportional
// to Odds, a weight of any scale.
type History struct {
	ID   string
	Odds float64
}

// A State is one answer to an inspection point. Under history h its chance is
// Odds[h] over the sum of Odds[h] of the point's states; where that sum is
// zero, variants that have the point cannot have the history.
//
// Original and Complete matter to PointOption findings only: a part that is
// not original may show another variant's option, one that is not there shows
// none.
type State struct {
	ID                 string
	Odds               []float64 // one per history
	Original, Complete bool
}

// A Point is one thing to inspect. Its first state is the sound one, of which
// only PointHidden findings take notice. It has 1 to 255 states.
type Point struct {
	ID      string
	Feature int    // the feature it shows, -1 for none
	Applies []bool // one per variant: whether it has the point at all
	States  []State
}

// A Cause is a state of a point that brings a symptom about with probability
// Strength. The same state listed twice is two independent causes.
type Cause struct {
	Point, State int
	Strength     float64
}

// A Symptom is what a function test may show. It appears without any cause
// with probability Leak, and else if any of its causes brings it about, each
// by itself with its Strength (noisy-OR; Pearl 1988, section 4.3.2,
// pp. 184-190).
type Symptom struct {
	ID     string
	Leak   float64
	Causes []Cause
}
