package checklist

import (
	"fmt"
	"slices"

	"lotgauge/valuation/diag"
)

// readFeatures reads tables such as
//
//	[[feature]]
//	id = "roof"
//	title = "Roof version"
//	options = ["early", "late"]
//	tell = "The late roof has a grille"
//
// Among fewer than two options there is nothing to tell, and no odds of having
// told wrong.
func (r *reader) readFeatures(t *diag.Table) {
	for _, c := range list(t, "feature", r.features) {
		f := Feature{ID: r.id(c, r.features), Tell: c.Text("tell"), Options: c.Texts("options")}
		f.Title = titled(c, f.ID)
		known := newRoster("option of " + f.ID)
		for i, o := range f.Options {
			if !isID(o) {
				place{c, "options", i}.report("not an id: "+quoted(o), "letters, digits, - and _", "")
			}
			known.enter(o, place{c, "options", i})
		}
		known.partial = known.partial || c.Unread("options") || len(f.Options) == 0
		if n := len(f.Options); n < 2 && !c.Unread("options") {
			c.Report("options", "a feature needs something to differ in", "at least two options", "")
		} else if n > MaxEach {
			c.Report("options", fmt.Sprintf("%d options", n), fmt.Sprintf("at most %d", MaxEach), "")
		}
		r.options = append(r.options, known)
		r.fam.Features = append(r.fam.Features, f)
	}
}

// readVariants reads tables such as
//
//	[[variant]]
//	id = "6043"
//	title = "red, late roof"
//	years = [1986, 1991]
//	made = 2.0
//	guide = "120 EUR"
//	fit = { roof = "late" }
func (r *reader) readVariants(t *diag.Table) {
	sum := 0.0
	for _, c := range list(t, "variant", r.variants) {
		v := Variant{ID: r.id(c, r.variants), Made: c.Number("made", 1, 0, maxWeight), Guide: guide(c)}
		v.Title = titled(c, v.ID)
		v.From, v.To = years(c)
		v.Fit = r.fit(c)
		sum += v.Made
		r.fam.Variants = append(r.fam.Variants, v)
	}
	switch {
	case t.Unread("variant"): // of the others nothing is known
	case len(r.fam.Variants) == 0:
		t.Report("variant", "a family without variants", "at least one [[variant]]", "")
	case sum == 0:
		t.Report("variant", "no variant was ever made", "made above 0 for at least one", "")
	}
}

// years reads the first and the last year made, which may be the same. Without
// them, or where they are refused, both are 0.
func years(t *diag.Table) (from, to int) {
	if !t.Has("years") {
		return 0, 0
	}
	y := t.Integers("years")
	if t.Unread("years") {
		return 0, 0
	}
	if len(y) != 2 || y[0] < 1800 || y[1] > 2200 || y[0] > y[1] {
		t.Report("years", "not a span of years", "the first and the last, such as [1986, 1991]", "")
		return 0, 0
	}
	return y[0], y[1]
}

// fit reads the option a variant has of every feature; -1 where that fails. A
// feature may not be left out: templates and `only` rest on all of them. One
// that is there under a name spelt nearly right is reported as misspelt, and
// not as missing on top.
func (r *reader) fit(t *diag.Table) []int {
	fit := slices.Repeat([]int{-1}, len(r.fam.Features))
	excused := map[string]bool{} // there, or misspelt
	c := t.Child("fit")
	if t.Unread("fit") {
		return fit
	}
	if c != nil {
		for _, name := range c.Keys() {
			option := c.Required(name)
			i := r.features.find(name, at(c, name))
			if i < 0 {
				excused[r.features.near(name)] = true
				continue
			}
			excused[name] = true
			if option != "" {
				fit[i] = r.options[i].find(option, at(c, name))
			}
		}
	}
	for i, f := range r.fam.Features {
		if !excused[f.ID] && f.ID != "" {
			t.Report("fit", "the fit leaves out the feature "+quoted(f.ID),
				"fit with "+f.ID+" = "+r.options[i].choice(), "")
		}
	}
	return fit
}

// only reads which variants a point applies to: those whose fit is among the
// options named, for every feature named:
//
//	only = { reverser = ["relay", "electronic"], roof = ["late"] }
//
// A point that is left without any variant is reported, unless a name in it is
// unknown, which then is the likelier mistake. A variant whose fit is not known
// may have the point.
func (r *reader) only(t *diag.Table) []bool {
	applies := slices.Repeat([]bool{true}, len(r.fam.Variants))
	c := t.Child("only")
	if c == nil {
		return applies
	}
	known := true // all names so far
	for _, name := range c.Keys() {
		options := c.Texts(name)
		i := r.features.find(name, at(c, name))
		if i < 0 {
			known = false
			continue
		}
		allowed := r.allowed(c, name, i, options)
		known = known && !allowed[-1]
		for v := range applies {
			fit := r.fam.Variants[v].Fit[i]
			applies[v] = applies[v] && (fit < 0 || allowed[fit])
		}
	}
	if known && !r.variants.partial && len(applies) > 0 && !slices.Contains(applies, true) {
		t.Report("only", "no variant has this fit", "options that at least one variant has together", "")
	}
	return applies
}

// allowed is the set of the options named, by index; -1 is in it where one is
// unknown.
func (r *reader) allowed(t *diag.Table, key string, feature int, options []string) map[int]bool {
	set := map[int]bool{}
	for i, o := range options {
		where := place{t, key, i}
		k := r.options[feature].find(o, where)
		if set[k] && k >= 0 {
			where.report("option "+quoted(o)+" named twice", "each option once", "")
		}
		set[k] = true
	}
	if len(options) == 0 {
		t.Report(key, "no option named", "at least one of "+r.options[feature].choice(), "")
		set[-1] = true
	}
	return set
}
