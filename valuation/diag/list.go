package diag

import (
	"cmp"
	"fmt"
	"slices"
)

// A List is what was found in one or more files. It implements error.
type List []Diagnostic

// Add appends a diagnostic.
func (l *List) Add(d Diagnostic) { *l = append(*l, d) }

// HasErrors reports whether there is more than warnings.
func (l List) HasErrors() bool { return slices.ContainsFunc(l, isError) }

// Err is the sorted list if it has errors, and nil otherwise. Warnings alone are
// no error, but stay in the list beside one. Use [errors.As] to get it back.
func (l List) Err() error {
	if !l.HasErrors() {
		return nil
	}
	return l.Sorted()
}

// Error is the first error and how many other diagnostics there are.
func (l List) Error() string {
	if len(l) == 0 {
		return "nothing is wrong"
	}
	first := max(0, slices.IndexFunc(l, isError))
	if len(l) == 1 {
		return l[first].Error()
	}
	return fmt.Sprintf("%s (and %d more)", l[first].Error(), len(l)-1)
}

// Sorted is a copy in order of file, line and column. Of diagnostics that say
// the same of the same key and place, only the first stays.
func (l List) Sorted() List {
	type same struct {
		pos          Pos
		key, summary string
	}
	seen := make(map[same]bool, len(l))
	sorted := make(List, 0, len(l))
	for _, d := range l {
		if s := (same{d.Pos, d.Key, d.Summary}); !seen[s] {
			seen[s] = true
			sorted = append(sorted, d)
		}
	}
	slices.SortStableFunc(sorted, byPlace)
	return sorted
}

// byPlace orders by file, line and column; what is of a whole file comes first.
func byPlace(a, b Diagnostic) int {
	return cmp.Or(
		cmp.Compare(a.Pos.File, b.Pos.File),
		cmp.Compare(a.Pos.Line, b.Pos.Line),
		cmp.Compare(a.Pos.Column, b.Pos.Column))
}

// isError reports whether a diagnostic makes a document unusable.
func isError(d Diagnostic) bool { return d.Severity != Warning }
