package belief

// Kind says what a finding is about.
type Kind uint8

// The kinds of findings. The zero Kind is invalid.
const (
	PointState    Kind = iota + 1 // point Subject is in state Value
	PointOption                   // point Subject shows option Value of its feature
	PointHidden                   // point Subject could have been shown and is not
	FeatureOption                 // feature Subject has option Value
	VariantIs                     // the model is variant Value
	SymptomIs                     // symptom Subject is there (Value 1) or not (Value 0)
	PointReading                  // point Subject was measured: what that means is reading Value of the model
	SymptomHidden                 // symptom Subject could have been shown or denied and is not: "untested"
)

// A Finding is one thing somebody found or said. Trust, from 0 to 1, is the
// probability that it is right; mistakes fall evenly on the other answers.
// The hidden kinds do not use it. See Gather for what each kind weighs.
type Finding struct {
	Kind    Kind
	Subject int // index of the point, feature or symptom; unused for VariantIs
	Value   int // index of the state, option, variant or reading; symptom: 1 there, 0 not
	Trust   float64
	Label   string // how an error names it
}

// Hidden is what a hidden finding weighs: how often a thing that is normally
// shown is not shown, if it is sound (a symptom: absent) and if it is faulty
// (a symptom: there).
type Hidden struct{ Sound, Faulty float64 }

// hides tells whether the kind is about what is not shown.
func (k Kind) hides() bool { return k == PointHidden || k == SymptomHidden }
