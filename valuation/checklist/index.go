package checklist

import "slices"

// PointIndex is the index of the point of that id, -1 if there is none.
func (f *Family) PointIndex(id string) int {
	return slices.IndexFunc(f.Points, func(p Point) bool { return p.ID == id })
}

// VariantIndex is the index of the variant of that id, -1 if there is none.
func (f *Family) VariantIndex(id string) int {
	return slices.IndexFunc(f.Variants, func(v Variant) bool { return v.ID == id })
}

// FeatureIndex is the index of the feature of that id, -1 if there is none.
func (f *Family) FeatureIndex(id string) int {
	return slices.IndexFunc(f.Features, func(x Feature) bool { return x.ID == id })
}

// SymptomIndex is the index of the symptom of that id, -1 if there is none.
func (f *Family) SymptomIndex(id string) int {
	return slices.IndexFunc(f.Symptoms, func(s Symptom) bool { return s.ID == id })
}

// PartIndex is the index of the part of that id, foreign ones included, -1 if
// there is none.
func (f *Family) PartIndex(id string) int {
	return slices.IndexFunc(f.Parts, func(p Part) bool { return p.ID == id })
}

// StateIndex is the index of the state of that id, -1 if there is none.
func (p Point) StateIndex(id string) int {
	return slices.IndexFunc(p.States, func(s State) bool { return s.ID == id })
}

// OptionIndex is the index of the option of that id, -1 if there is none.
func (f Feature) OptionIndex(id string) int {
	return slices.Index(f.Options, id)
}
