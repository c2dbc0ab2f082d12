package charges

import (
	"fmt"
	"slices"

	"lotgauge/valuation/diag"
)

// A sheet names its lines; a Sheet numbers them. Since a charge may rest only on
// lines above it, a sheet can be worked out from top to bottom, and a circle of
// charges shows as a name from further down.

// resolve turns names of lines into their numbers. Those that are no line
// above the present charge are reported and left out.
func (r *reader) resolve(t *diag.Table, key string) []int {
	var on []int
	for i, name := range t.Texts(key) {
		n := slices.Index(r.named, name)
		switch {
		case name == "" && n < 0: // reported, or a charge without id
			t.ReportItem(key, i, "empty", "the id of a line above", "")
		case n < 0:
			r.unresolved(t, key, i, name)
		case slices.Contains(on, n):
			t.ReportItem(key, i, fmt.Sprintf("%s is named twice", name), "each line once", "")
		default:
			on = append(on, n)
		}
	}
	if t.Has(key) && len(t.Texts(key)) == 0 {
		t.Report(key, "it names no line", fmt.Sprintf("at least one, such as [%q]", r.sheet.First()), "")
	}
	return on
}

// unresolved reports a name that is no line above: the charge itself or one
// below, the first line of the other side, or nothing known. Where the side or
// some id is not known, it may be that.
func (r *reader) unresolved(t *diag.Table, key string, i int, name string) {
	const expected = "the id of a line above this one"
	switch k := slices.Index(r.later, name); {
	case k == 0:
		t.ReportItem(key, i, fmt.Sprintf("%s rests on itself", name), expected, "")
	case k > 0:
		t.ReportItem(key, i, fmt.Sprintf("%s comes further down", name), expected, "moving "+name+" up")
	case slices.Contains(reserved, name) && r.sideless, r.nameless && !slices.Contains(reserved, name):
	case slices.Contains(reserved, name):
		t.ReportItem(key, i, fmt.Sprintf("no line %s on this side", name), expected, r.sheet.First())
	default:
		near, _ := diag.Nearest(name, r.named)
		t.ReportItem(key, i, fmt.Sprintf("no line %q", name), expected, near)
	}
}
