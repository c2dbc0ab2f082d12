package main

import (
	"slices"
	"strings"

	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

// knownFeatures is the error of a feature or option that the family does not
// have.
func knownFeatures(f *checklist.Family, seen []valuation.Sighted) error {
	for _, s := range seen {
		i := f.FeatureIndex(s.Feature)
		if i < 0 {
			var known []string
			for _, x := range f.Features {
				known = append(known, x.ID)
			}
			return unknownName("feature", s.Feature, f.ID, known)
		}
		if f.Features[i].OptionIndex(s.Option) < 0 {
			return unknownName("option of "+s.Feature, s.Option, f.ID, f.Features[i].Options)
		}
	}
	return nil
}

// neverMade is the error of options that no catalogue number has together, two
// of them if two are enough; nil where there is one that has all.
func neverMade(f *checklist.Family, seen []valuation.Sighted) error {
	if made(f, seen) {
		return nil
	}
	for i, x := range seen {
		for _, y := range seen[i+1:] {
			if pair := []valuation.Sighted{x, y}; !made(f, pair) {
				return contradiction(f, pair)
			}
		}
	}
	return contradiction(f, seen)
}

// made tells whether a catalogue number left the factory with all of it.
func made(f *checklist.Family, seen []valuation.Sighted) bool {
	return slices.ContainsFunc(f.Variants, func(v checklist.Variant) bool {
		return !slices.ContainsFunc(seen, func(s valuation.Sighted) bool {
			i := f.FeatureIndex(s.Feature)
			return f.Features[i].Options[v.Fit[i]] != s.Option
		})
	})
}

func contradiction(f *checklist.Family, seen []valuation.Sighted) error {
	var all []string
	for _, s := range seen {
		all = append(all, s.Feature+"="+s.Option)
	}
	return usagef("no catalogue number of %s left the factory with %s", f.ID, strings.Join(all, " and ")).
		hint("look again, or something was exchanged: write a listing with both as findings of points").
		hint("lotgauge families %s lists what was made", f.ID)
}

func unknownName(what, name, family string, known []string) error {
	err := usagef("no %s called %q in family %s", what, name, family)
	if near, ok := diag.Nearest(name, known); ok {
		err.hint("did you mean %s?", near)
	}
	if len(known) == 0 {
		return err.hint("it has none")
	}
	return err.hint("there is %s", strings.Join(known, ", "))
}
