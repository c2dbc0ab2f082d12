package valuation

import (
	"maps"
	"slices"
	"strings"

	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// maxStrays bounds how large a table is searched for misspelt items.
const maxStrays = 3000

// sameStart is how many characters a misspelt item has right from the start.
const sameStart = 3

// strays warns of rows of the price table that look meant for a family and name
// nothing of it: a misspelt item would count for nothing, and nobody would know.
// It is worked out once for each family.
func (l *Library) strays(f *checklist.Family, table *prices.Table) diag.List {
	if found, ok := l.strayRows[f.ID]; ok {
		return found
	}
	var out diag.List
	known := itemsOf(f)
	names := slices.Sorted(maps.Keys(known))
	items := table.Items()
	if len(items) <= maxStrays {
		for _, item := range items {
			if near, ok := l.stray(item, f, known, names); ok {
				out.Add(diag.Diagnostic{
					Severity: diag.Warning, Pos: diag.Pos{File: table.File(), Line: table.Rows(item)[0].Line},
					Summary: "the item " + quoted(item) + " counts for nothing: no family knows it", Try: near,
				})
			}
		}
	}
	l.strayRows[f.ID] = out
	return out
}

// stray tells whether an item looks meant for the family, but is neither its nor
// anybody's.
func (l *Library) stray(item string, f *checklist.Family, known map[string]bool, names []string) (near string, ok bool) {
	if known[item] {
		return "", false
	}
	if family, _, model := strings.Cut(item, "/"); model {
		near, _ = diag.Nearest(item, names)
		return near, family == f.ID
	}
	near, ok = diag.Nearest(item, startingAs(item, names))
	if !ok {
		return "", false // another family's part of the same kind, more likely
	}
	_, foreign := l.foreignPart(item)
	return near, !foreign
}

// startingAs are the names that start as the item does, among sorted ones: another
// may be nearer, but is not what was meant.
func startingAs(item string, names []string) []string {
	if len(item) < sameStart {
		return nil
	}
	start := item[:sameStart]
	from, _ := slices.BinarySearch(names, start)
	to := from
	for to < len(names) && strings.HasPrefix(names[to], start) {
		to++
	}
	return names[from:to]
}

// itemsOf are the items of the price table that a family knows.
func itemsOf(f *checklist.Family) map[string]bool {
	out := map[string]bool{}
	for _, p := range f.Parts {
		out[p.ID] = true
	}
	for v := range f.Variants {
		out[modelID(f, v)] = true
	}
	return out
}
