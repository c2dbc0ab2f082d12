package page

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"lotgauge/checklists"
	"lotgauge/pricedata"
	"lotgauge/valuation"
)

// TestDemonstration writes the pages of the listings that come with the source,
// appraised as they come out today.
func TestDemonstration(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/listings/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no listings: %v", err)
	}
	library := valuation.Open(demonstration(t), "", true)
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			a := appraised(t, library, file)
			root, err := parse(written(t, a))
			if err != nil {
				t.Fatal(err)
			}
			for _, id := range []string{"worth", "column", "routes", "points", "parts", "prices", "remarks"} {
				if len(root.all(func(n *node) bool { return n.attr["id"] == id })) != 1 {
					t.Errorf("the page has no %s", id)
				}
			}
			for _, svg := range root.named("svg") {
				for _, mark := range svg.named("rect", "line", "circle", "use", "text") {
					checkMark(t, svg.attr["class"], mark)
				}
			}
		})
	}
}

func appraised(t *testing.T, library *valuation.Library, file string) *valuation.Appraisal {
	t.Helper()
	in, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	listing, diags := valuation.ReadListing(filepath.Base(file), in)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	a, diags := library.Appraise(listing, valuation.Options{Draws: 1000})
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	return a
}

// demonstration is the built-in data folder.
func demonstration(t *testing.T) fs.FS {
	t.Helper()
	folder := fstest.MapFS{}
	for prefix, cupboard := range map[string]fs.FS{"families/": checklists.Files, "": pricedata.Files} {
		err := fs.WalkDir(cupboard, ".", func(p string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			text, err := fs.ReadFile(cupboard, p)
			folder[prefix+p] = &fstest.MapFile{Data: text}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return folder
}
