package valuation

import (
	"bytes"
	"os"
	"testing"
)

// TestColumnsOnLoan: what an appraisal leaves behind in its columns does not show
// in the next one, whose cases are fewer or more, nor what the next one puts there
// in those before.
func TestColumnsOnLoan(t *testing.T) {
	listing := referenceListing(t, "b")
	appraise := func(l *Library, draws int) *Appraisal {
		x, diags := ReadListing("x.toml", bytes.NewReader([]byte(listing)))
		if diags.HasErrors() {
			t.Fatal(diags.Err())
		}
		a, diags := l.Appraise(x, Options{Draws: draws})
		if a == nil {
			t.Fatal(diags.Err())
		}
		return a
	}
	text := func(a *Appraisal) string {
		var out bytes.Buffer
		if err := a.WriteJSON(&out); err != nil {
			t.Fatal(err)
		}
		return out.String()
	}
	folder := os.DirFS(referenceFolder)
	used := Open(folder, "", false)
	many := []int{3000, 500, 4000, 500}
	var all []*Appraisal
	for _, draws := range many {
		all = append(all, appraise(used, draws))
		if n := len(used.columns.lent); n > 0 {
			t.Errorf("%d columns are still lent", n)
		}
		for _, c := range used.columns.free { // as if more had been left behind
			for k := range c[:cap(c)] {
				c[:cap(c)][k] = 1e9
			}
		}
	}
	for i, draws := range many {
		if text(all[i]) != text(appraise(Open(folder, "", false), draws)) {
			t.Errorf("%d draws: not what a new library says", draws)
		}
	}
}
