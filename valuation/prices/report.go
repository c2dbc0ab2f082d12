package prices

import (
	"fmt"

	"lotgauge/valuation/diag"
)

// MaxReports is the number of diagnostics kept for one file. Where there are
// more, the last of them says how many are not shown.
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

// list is what was kept, in the order of the file. The last one gives way to how
// many are not shown: at least two, since it is one of them.
func (r *reports) list() diag.List {
	kept := r.kept.Sorted()
	if r.count > MaxReports {
		shown := min(len(kept), MaxReports-1)
		kept = kept[:shown]
		kept.Add(diag.Diagnostic{Severity: diag.Error, Pos: kept[shown-1].Pos,
			Summary: fmt.Sprintf("%d more problems are not shown", r.count-shown),
			Try:     "to mend those shown first"})
	}
	return kept
}
