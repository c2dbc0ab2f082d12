package checklist

// Level is how much a rule matters. The zero value is no level.
type Level uint8

// The levels, from least to most.
const (
	Note    Level = iota + 1 // worth knowing
	Caution                  // think twice
	Stop                     // walk away
)

// levelNames are the words of the file, at the index of the level less one.
var levelNames = [...]string{"note", "caution", "stop"}

// String is the word in the file: note, caution or stop.
func (l Level) String() string {
	if l < Note || l > Stop {
		return "no level"
	}
	return levelNames[l-1]
}

// Figures are the figures of an appraisal that a rule may look at and its text
// may show. All are shares of a whole, 0 to 1; repair-share alone, a cost over
// a price, can exceed 1. The three scores enter divided by 100. It is not to be
// changed.
var Figures = []string{
	"repair-share", "loss-chance", "all-parts-found-chance", "coverage",
	"condition", "originality", "completeness", "scarce-needed-chance",
}

// A Rule is a warning with the condition under which it is given.
type Rule struct {
	ID    string
	Level Level
	When  Condition
	// Say is the text, with places such as {repair-share} for Figures. It has
	// no other braces.
	Say string
}

// A Condition is of exactly one kind, told by the field that is set: All, Any,
// Not, Figure, Point (0 or more) or Symptom (0 or more). Point and Symptom are
// -1 in the other kinds.
type Condition struct {
	// All holds where all of them do, Any where one of them does; where set,
	// there is at least one. Not holds where the other does not.
	All, Any []Condition
	Not      *Condition

	// Figure is one of Figures. The condition holds where it is strictly above
	// Above and strictly below Below, of which one may be nil.
	Figure       string
	Above, Below *float64

	// Point holds where the point is in one of States with chance Chance or
	// more in all, Symptom where it is there with chance Chance or more. A
	// chance is above 0 and at most 1.
	Point   int
	States  []int
	Symptom int
	Chance  float64
}

// Walk calls visit for the condition and then for each one within it, outer
// before inner, in file order.
func (c Condition) Walk(visit func(Condition)) {
	visit(c)
	for _, list := range [...][]Condition{c.All, c.Any} {
		for _, inner := range list {
			inner.Walk(visit)
		}
	}
	if c.Not != nil {
		c.Not.Walk(visit)
	}
}
