package valuation

import (
	"lotgauge/valuation/belief"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

// resolver holds a listing against its family: names become indices, and what
// does not fit is reported at its place in the listing's file.
type resolver struct {
	listing  *Listing
	family   *checklist.Family
	settings *Settings
	readings []belief.Reading // that findings refer to
	diags    diag.List
}

// variant is the index of the variant that the listing names, -1 for none.
func (r *resolver) variant() int {
	if r.listing.Variant == "" {
		return -1
	}
	v := r.family.VariantIndex(r.listing.Variant)
	if v < 0 {
		r.unknown(r.listing.pos("variant"), "catalogue number", r.listing.Variant, variantIDs(r.family))
	}
	return v
}

// findings turns the listing's findings into those of the belief room, one for
// one. Those that do not fit the family are reported.
func (r *resolver) findings() []belief.Finding {
	out := make([]belief.Finding, 0, len(r.listing.Findings))
	for i := range r.listing.Findings {
		f := &r.listing.Findings[i]
		if f.partial {
			r.names(f)
		} else if b, ok := r.finding(f); ok {
			b.Trust = r.trust(f)
			b.Label = r.label(f)
			out = append(out, b)
		}
	}
	return out
}

func (r *resolver) trust(f *Finding) float64 {
	if f.Trust != nil {
		return *f.Trust
	}
	if r.settings == nil {
		return 0
	}
	return r.settings.Trust[f.By]
}

// label names a finding in messages, with its place.
func (r *resolver) label(f *Finding) string {
	what := f.Point
	switch {
	case f.Feature != "":
		what = f.Feature + " is " + f.Option
	case f.Symptom != "" && f.By == ByHidden:
		what = f.Symptom + " is hidden"
	case f.Symptom != "" && f.Present:
		what = f.Symptom
	case f.Symptom != "":
		what = "no " + f.Symptom
	case f.Variant != "":
		what = "catalogue number " + f.Variant
	case f.State != "":
		what += " is " + f.State
	case f.Option != "":
		what += " is of type " + f.Option
	case f.Reading != "":
		what += " reads " + f.Reading
	default:
		what += " is hidden"
	}
	what += " by " + f.By
	if at := f.pos(r.listing.File, "").String(); at != "" {
		what += " (" + at + ")"
	}
	return what
}

func (r *resolver) finding(f *Finding) (belief.Finding, bool) {
	switch {
	case f.Point != "":
		return r.point(f)
	case f.Feature != "":
		i := r.family.FeatureIndex(f.Feature)
		if i < 0 {
			return r.unknownIn(f, "feature", f.Feature, featureIDs(r.family))
		}
		return r.option(f, belief.Finding{Kind: belief.FeatureOption, Subject: i}, i)
	case f.Symptom != "":
		i := r.family.SymptomIndex(f.Symptom)
		if i < 0 {
			return r.unknownIn(f, "symptom", f.Symptom, symptomIDs(r.family))
		}
		if f.By == ByHidden {
			return belief.Finding{Kind: belief.SymptomHidden, Subject: i}, true
		}
		return belief.Finding{Kind: belief.SymptomIs, Subject: i, Value: bit(f.Present)}, true
	default:
		v := r.family.VariantIndex(f.Variant)
		if v < 0 {
			return r.unknownIn(f, "variant", f.Variant, variantIDs(r.family))
		}
		return belief.Finding{Kind: belief.VariantIs, Value: v}, true
	}
}

// names holds the names in a finding against the family, each by itself, where
// the finding as a whole makes no sense: that was said when it was read.
func (r *resolver) names(f *Finding) {
	hold := func(said bool, one Finding) {
		if said {
			one.table = f.table
			r.finding(&one)
		}
	}
	point, feature := f.Point != "", f.Feature != ""
	hold(point, Finding{Point: f.Point, By: ByHidden})
	hold(point && f.State != "", Finding{Point: f.Point, State: f.State})
	hold(point && f.Reading != "", Finding{Point: f.Point, Reading: f.Reading})
	hold(point && !feature && f.Option != "", Finding{Point: f.Point, Option: f.Option})
	hold(feature && !point && f.Option != "", Finding{Feature: f.Feature, Option: f.Option})
	if feature && r.family.FeatureIndex(f.Feature) < 0 {
		r.unknownIn(f, "feature", f.Feature, featureIDs(r.family))
	}
	hold(f.Symptom != "", Finding{Symptom: f.Symptom})
	hold(f.Variant != "", Finding{Variant: f.Variant})
}

func bit(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (r *resolver) point(f *Finding) (belief.Finding, bool) {
	i := r.family.PointIndex(f.Point)
	if i < 0 {
		return r.unknownIn(f, "point", f.Point, pointIDs(r.family))
	}
	p := &r.family.Points[i]
	switch {
	case f.By == ByHidden:
		return belief.Finding{Kind: belief.PointHidden, Subject: i}, true
	case f.State != "":
		s := p.StateIndex(f.State)
		if s < 0 {
			return r.unknownIn(f, "state", f.State, stateIDs(p))
		}
		return belief.Finding{Kind: belief.PointState, Subject: i, Value: s}, true
	case f.Reading != "":
		return r.reading(f, i)
	case p.Feature < 0:
		r.report(f.pos(r.listing.File, "option"), "point "+quoted(f.Point)+" shows no feature",
			"state = one of "+listed(stateIDs(p)), "")
		return belief.Finding{}, false
	}
	return r.option(f, belief.Finding{Kind: belief.PointOption, Subject: i}, p.Feature)
}

func (r *resolver) option(f *Finding, b belief.Finding, feature int) (belief.Finding, bool) {
	ft := &r.family.Features[feature]
	b.Value = ft.OptionIndex(f.Option)
	if b.Value < 0 {
		return r.unknownIn(f, "option", f.Option, ft.Options)
	}
	return b, true
}

// unknownIn reports an unknown name under a key of a finding.
func (r *resolver) unknownIn(f *Finding, key, name string, known []string) (belief.Finding, bool) {
	r.unknown(f.pos(r.listing.File, key), key, name, known)
	return belief.Finding{}, false
}

func (r *resolver) unknown(at diag.Pos, what, name string, known []string) {
	near, _ := diag.Nearest(name, known)
	r.report(at, "no "+what+" "+quoted(name)+" in family "+quoted(r.family.ID), "one of "+listed(known), near)
}

func (r *resolver) report(at diag.Pos, summary, expected, try string) {
	r.diags.Add(diag.Diagnostic{Severity: diag.Error, Pos: at, Summary: summary, Expected: expected, Try: try})
}

func variantIDs(f *checklist.Family) []string {
	return ids(f.Variants, func(v checklist.Variant) string { return v.ID })
}

func featureIDs(f *checklist.Family) []string {
	return ids(f.Features, func(x checklist.Feature) string { return x.ID })
}

func symptomIDs(f *checklist.Family) []string {
	return ids(f.Symptoms, func(s checklist.Symptom) string { return s.ID })
}

func pointIDs(f *checklist.Family) []string {
	return ids(f.Points, func(p checklist.Point) string { return p.ID })
}

func stateIDs(p *checklist.Point) []string {
	return ids(p.States, func(s checklist.State) string { return s.ID })
}

func ids[T any](xs []T, id func(T) string) []string {
	out := make([]string, len(xs))
	for i, x := range xs {
		out[i] = id(x)
	}
	return out
}
