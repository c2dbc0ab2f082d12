package valuation

import (
	"bytes"
	"os"
	"testing"
)

// TestColumnsOnLoan: what an appraisal leaves behind in its columns does not show
// in the next one, whose cases are fewer or more.
func TestColumnsOnLoan(t *testing.T) {
	listing := referenceListing(t, "b")
	text := func(l *Library, draws int) string {
		var out bytes.Buffer
		x, diags := ReadListing("x.toml", bytes.NewReader([]byte(listing)))
		if diags.HasErrors() {
			t.Fatal(diags.Err())
		}
		a, diags := l.Appraise(x, Options{Draws: draws})
		if a == nil {
			t.Fatal(diags.Err())
		}
		if err := a.WriteJSON(&out); err != nil {
			t.Fatal(err)
		}
		return out.String()
	}
	folder := os.DirFS(referenceFolder)
	used := Open(folder, "", false)
	for _, draws := range []int{3000, 500, 4000, 500} {
		if text(used, draws) != text(Open(folder, "", false), draws) {
			t.Errorf("%d draws: not what a new library says", draws)
		}
		if n := len(used.columns.lent); n > 0 {
			t.Errorf("%d columns are still lent", n)
		}
		for _, c := range used.columns.free { // as if more had been left behind
			for k := range c[:cap(c)] {
				c[:cap(c)][k] = 1e9
			}
		}
	}
}
