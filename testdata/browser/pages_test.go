package browser

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"lotgauge/checklists"
	"lotgauge/cmd/lotgauge/page"
	"lotgauge/pricedata"
	"lotgauge/valuation"
)

// pages are the report pages to look at, by name: the golden ones of the page
// package, and those of the demonstration listings as they come out today.
func pages(t *testing.T) map[string]string {
	t.Helper()
	out := map[string]string{}
	golden, err := filepath.Glob("../../cmd/lotgauge/page/testdata/*.html")
	if err != nil || len(golden) == 0 {
		t.Fatalf("no golden pages: %v", err)
	}
	for _, file := range golden {
		full, err := filepath.Abs(file)
		if err != nil {
			t.Fatal(err)
		}
		out[stem(file)] = full
	}
	for _, file := range listings(t) {
		out[listing+stem(file)] = appraised(t, file)
	}
	return out
}

// listing begins the name of a page of a demonstration listing.
const listing = "listing "

func stem(file string) string {
	return strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
}

func listings(t *testing.T) []string {
	t.Helper()
	all, err := filepath.Glob("../listings/*.toml")
	if err != nil || len(all) == 0 {
		t.Fatalf("no listings: %v", err)
	}
	return all
}

// appraised writes the page of a listing and returns its path.
func appraised(t *testing.T, file string) string {
	t.Helper()
	in, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	offer, diags := valuation.ReadListing(filepath.Base(file), in)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	a, diags := valuation.Open(demonstration(t), "", true).Appraise(offer, valuation.Options{Draws: 2000})
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	out := filepath.Join(t.TempDir(), stem(file)+".html")
	w, err := os.Create(out)
	if err != nil {
		t.Fatal(err)
	}
	if err := page.Write(w, a); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out
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
