package prices

import (
	"fmt"

	"lotgauge/valuation/diag"
)

// MaxReports is the number of diagnostics kept for one file.
const MaxReports = 100

// reports collects the diagnostics of a file and counts those over the limit.
type reports struct {
	file  string
	kept  diag.List
	count int // all so far, kept or not
}

// add keeps a diagnostic if there is room.
func (r *reports) add(d diag.Diagnostic) {
	d.Pos.File = r.file
	if r.count++; r.count <= MaxReports {
		r.kept.Add(d)
	}
}

// error adds an error at a place.
func (r *reports) error(line, column int, summary, expected, try string) {
	r.add(diag.Diagnostic{Severity: diag.Error, Pos: diag.Pos{Line: line, Column: column},
		Summary: summary, Expected: expected, Try: try})
}

// list is what was kept, in the order of the file, and at the place of the last
// of it how many were not.
func (r *reports) list() diag.List {
	kept := r.kept.Sorted()
	if cut := r.count - MaxReports; cut > 0 {
		kept.Add(diag.Diagnostic{Severity: diag.Error, Pos: kept[len(kept)-1].Pos,
			Summary: fmt.Sprintf("%d more problems are not shown", cut),
			Try:     "to mend those shown first"})
	}
	return kept
}
