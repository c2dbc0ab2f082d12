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
// may show. All are shares of a whole, 0 to 1; repair-share alone can exceed 1.
// The three scores enter divided by 100. It is not to be changed.
var Figures = []string{
	"repair-share", "loss-chance", "all-parts-found-chance", "coverage",
	"condition", "originality", "completeness", "scarce-needed-chance",
}

// A Rule is a warning with the condition under which it is given.
type Rule struct {
	ID    string
	Level Level
	When  Condition
	Say   string // with places such as {repair-share}, all of them in Figures
}

// A Condition is of exactly one kind, told by the field that is set: All, Any,
// Not, Figure, Point (0 or more) or Symptom (0 or more). Point and Symptom are
// -1 in the other kinds.
type Condition struct {
	All, Any []Condition // at least one each where set
	Not      *Condition

	Figure       string   // holds where the figure is
	Above, Below *float64 // strictly above the one and strictly below the other; one of them may be nil

	Point   int   // holds where the point is, with chance Chance or more,
	States  []int // in one of these states
	Symptom int   // holds where the symptom is there with chance Chance or more

	Chance float64 // above 0, at most 1
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
