package checklist

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"lotgauge/valuation/diag"
)

var update = flag.Bool("update", false, "rewrite what the case files want")

// caseFiles are the archives of documents with the diagnostics they must give.
const caseFiles = "testdata/cases/*.txtar"

// TestCases reads and proves every document of the case files and compares the
// exact text of all diagnostics with what stands beside it.
func TestCases(t *testing.T) {
	for _, name := range glob(t, caseFiles) {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txtar"), func(t *testing.T) {
			a, err := txtar.ParseFile(name)
			if err != nil {
				t.Fatal(err)
			}
			changed := false
			for i := 0; i+1 < len(a.Files); i += 2 {
				in, want := a.Files[i], &a.Files[i+1]
				id, ok := strings.CutSuffix(in.Name, ".toml")
				if !ok || want.Name != id+".want" {
					t.Fatalf("%s: %s is not followed by its .want", name, in.Name)
				}
				got := report(string(in.Data))
				if *update {
					changed = changed || got != string(want.Data)
					want.Data = []byte(got)
				} else if diff := cmp.Diff(string(want.Data), got); diff != "" {
					t.Errorf("%s (-want +got):\n%s", id, diff)
				}
			}
			if len(a.Files) == 0 || len(a.Files)%2 != 0 {
				t.Errorf("%d files, want pairs", len(a.Files))
			}
			if changed {
				if err := os.WriteFile(name, txtar.Format(a), 0o644); err != nil {
					t.Fatal(err)
				}
			}
		})
	}
}

// report is all diagnostics of a family, one a line, without a file name.
func report(text string) string {
	doc := diag.ReadDocument("", strings.NewReader(text))
	Prove(Read(doc, nil), doc)
	var b strings.Builder
	for _, d := range doc.Diagnostics() {
		b.WriteString(d.Error() + "\n")
	}
	return b.String()
}

// glob is the files of a pattern, at least one.
func glob(t testing.TB, pattern string) []string {
	t.Helper()
	names, err := filepath.Glob(pattern)
	if err != nil || len(names) == 0 {
		t.Fatalf("no files %s: %v", pattern, err)
	}
	return names
}

// caseDocuments are the documents of all case files.
func caseDocuments(t testing.TB) []string {
	t.Helper()
	var docs []string
	for _, name := range glob(t, caseFiles) {
		a, err := txtar.ParseFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range a.Files {
			if strings.HasSuffix(f.Name, ".toml") {
				docs = append(docs, string(f.Data))
			}
		}
	}
	return docs
}
