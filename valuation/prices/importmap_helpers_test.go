package prices

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation/diag"
)

// least is a map that has what every map must have; the columns come last, so
// that more of them can be added.
const least = `format = 1
[defaults]
kind = "sold"
currency = "EUR"
[columns]
date = "date"
item = "item"
price = "price"
`

// readMap reads a map that has no faults.
func readMap(t testing.TB, text string) *Map {
	t.Helper()
	doc := diag.ReadDocument("MAP.toml", strings.NewReader(text))
	m := ReadMap(doc)
	if faults := doc.Diagnostics(); len(faults) > 0 {
		t.Fatalf("faults in the map: %v\n%s", faults, text)
	}
	return m
}

// imported reads a file that has no faults as a whole.
func imported(t testing.TB, m *Map, text string, known *Table) *Imported {
	t.Helper()
	out, faults := m.Import("export.csv", strings.NewReader(text), known)
	if len(faults) > 0 {
		t.Fatalf("faults in the file: %v", faults)
	}
	return out
}

// shown is a row in short: its line and its cells without empty ones.
func shown(r Row) string {
	var cells []string
	for _, cell := range FormatRow(columnNames[:], r) {
		if cell != "" {
			cells = append(cells, cell)
		}
	}
	return fmt.Sprintf("%d: %s", r.Line, strings.Join(cells, " "))
}

// wantImport compares what came of an import, a row on each line: new rows, then
// rows seen, then failures.
func wantImport(t *testing.T, got *Imported, want ...string) {
	t.Helper()
	var lines []string
	for _, r := range got.Rows {
		lines = append(lines, shown(r))
	}
	for _, r := range got.Seen {
		lines = append(lines, "seen "+shown(r))
	}
	for _, f := range got.Failed {
		lines = append(lines, fmt.Sprintf("failed %d: %s", f.Line, f.Reason))
	}
	if diff := cmp.Diff(want, lines); diff != "" {
		t.Errorf("the import differs (-want +got):\n%s", diff)
	}
}
