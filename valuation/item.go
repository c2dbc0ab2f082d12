package valuation

import (
	"errors"
	"slices"
	"strings"

	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
	"lotgauge/valuation/prices"
)

// Item is something that a price can be of: a part, or a model, which is a
// variant of a family.
type Item struct {
	ID     string // of a part, or family/variant
	Title  string
	Grades []string // of a model, the best one last; nil for a part

	guide   *money.Amount
	family  *checklist.Family // of a model
	variant int
}

// Model reports whether the item is a model.
func (x *Item) Model() bool { return x.family != nil }

// Item finds an item by its id. It is nil if no family of the folder knows it;
// the diagnostic then has the nearest name that one does know. A model is
// looked for in its family alone.
func (l *Library) Item(id string) (*Item, diag.List) {
	family, variant, model := strings.Cut(id, "/")
	if !model {
		if p, ok := l.foreignPart(id); ok {
			return &Item{ID: id, Title: p.Title, guide: p.Guide}, nil
		}
		return nil, l.noItem(id)
	}
	ids, diags := l.Families()
	if diags.HasErrors() || !slices.Contains(ids, family) {
		return nil, append(diags, l.noItem(id)...)
	}
	f, diags := l.Family(family)
	if diags.HasErrors() {
		return nil, diags
	}
	v := f.VariantIndex(variant)
	if v < 0 {
		return nil, append(diags, l.noItem(id)...)
	}
	return &Item{
		ID: id, Title: f.Title + ", " + f.Variants[v].ID + ": " + f.Variants[v].Title, guide: f.Variants[v].Guide,
		Grades: gradeIDs(f), family: f, variant: v,
	}, diags
}

func gradeIDs(f *checklist.Family) []string {
	return ids(f.Grades, func(g checklist.Grade) string { return g.ID })
}

// noItem says that there is no such item.
func (l *Library) noItem(id string) diag.List {
	near, _ := diag.Nearest(id, l.Items())
	return diag.List{{
		Severity: diag.Error, Summary: "no family knows the item " + quoted(id),
		Expected: "the id of a part, or family/variant", Try: near,
	}}
}

// Items are the ids of all parts and models of the folder, sorted, as far as
// its families can be read.
func (l *Library) Items() []string {
	var out []string
	families, _ := l.Families()
	for _, id := range families {
		f, diags := l.Family(id)
		if diags.HasErrors() {
			continue
		}
		for v := range f.Variants {
			out = append(out, modelID(f, v))
		}
		for _, p := range f.Parts {
			out = append(out, p.ID)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// CheckRow reports what estimates could not use in a row of the item: a grade
// or a state that its family has not, or one for a part, which has neither.
func (x *Item) CheckRow(row prices.Row) diag.List {
	var diags diag.List
	fail := func(key, summary string) {
		diags.Add(diag.Diagnostic{Severity: diag.Error, Key: key, Summary: summary})
	}
	if !x.Model() {
		if row.Grade != "" {
			fail("grade", "grade "+quoted(row.Grade)+": a part has no grade")
		}
		if row.Lacking != "" {
			fail("lacking", "lacking "+quoted(row.Lacking)+": a part lacks nothing")
		}
		return diags
	}
	if _, err := saleFactor(x.family, row); err != nil && !errors.As(err, &diags) {
		fail("lacking", err.Error())
	}
	return diags
}
