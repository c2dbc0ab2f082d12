package checklists

import (
	"bytes"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

// readAll reads every family, once for its parts and once with those of the
// others known. The second time it fails on any diagnostic, warnings included.
func readAll(t *testing.T) map[string]*checklist.Family {
	t.Helper()
	names, err := fs.Glob(Files, "*.toml")
	if err != nil || len(names) == 0 {
		t.Fatalf("families: %v, %v", names, err)
	}
	parts := map[string]checklist.Part{}
	known := func(id string) (checklist.Part, bool) { p, ok := parts[id]; return p, ok }
	for _, name := range names {
		own(parts, read(t, name, known, false))
	}
	families := map[string]*checklist.Family{}
	for _, name := range names {
		families[strings.TrimSuffix(name, ".toml")] = read(t, name, known, true)
	}
	return families
}

// own adds the parts that a family defines itself.
func own(parts map[string]checklist.Part, f *checklist.Family) {
	for _, p := range f.Parts {
		if !p.Foreign {
			parts[p.ID] = p
		}
	}
}

// read reads one family; with prove set it must be without a single fault.
func read(t *testing.T, name string, known func(string) (checklist.Part, bool), prove bool) *checklist.Family {
	t.Helper()
	data, err := Files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	doc := diag.ReadDocument(name, bytes.NewReader(data))
	f := checklist.Read(doc, known)
	if f == nil {
		t.Fatal(doc.Diagnostics())
	}
	if prove {
		checklist.Prove(f, doc)
		for _, d := range doc.Diagnostics() {
			t.Error(d)
		}
	}
	return f
}

func TestFamiliesAreSound(t *testing.T) {
	for stem, f := range readAll(t) {
		if f.ID != stem {
			t.Errorf("%s.toml has the id %s", stem, f.ID)
		}
	}
}

func TestQuestionsInThreeLanguages(t *testing.T) {
	for _, f := range readAll(t) {
		asked := map[string]checklist.Phrases{}
		for _, p := range f.Points {
			asked[p.ID] = p.Ask
		}
		for _, s := range f.Symptoms {
			asked[s.ID] = s.Ask
		}
		for id, ask := range asked {
			for _, language := range []string{"en", "de", "fr"} {
				if !strings.HasSuffix(ask[language], "?") {
					t.Errorf("%s: %s: no question in %s: %q", f.ID, id, language, ask[language])
				}
			}
		}
	}
}

// Parts that tell versions apart must differ in price where the trade says
// they do: the scarce one of a group at about three to four times the common
// one (common practice, no source).
func TestScarceVersionsCostMore(t *testing.T) {
	families := readAll(t)
	for _, x := range []struct{ family, common, scarce string }{
		{"pellworth-ce4", "ce4-pantograph-grey", "ce4-pantograph-black"},
		{"pellworth-ce4", "ce4-roof-conductors-early", "ce4-roof-conductors-late"},
		{"tarnside-r12", "r12-front-three-lamp", "r12-front-two-lamp"},
		{"quillmore-t8", "t8-smoke-unit-late", "t8-smoke-unit-early"},
		{"tarnside-s3", "s3-drawbar-hook", "s3-drawbar-contact"},
	} {
		f := families[x.family]
		common, scarce := f.Parts[f.PartIndex(x.common)], f.Parts[f.PartIndex(x.scarce)]
		ratio := scarce.Guide.Value.Div(common.Guide.Value).InexactFloat64()
		if common.Group != scarce.Group || ratio < 3 || ratio > 4.5 {
			t.Errorf("%s costs %.2f times %s of group %q", x.scarce, ratio, x.common, common.Group)
		}
	}
}

// TestMind: what no picture shows is either inside or needs no opening, and only
// the family can say which.
func TestMind(t *testing.T) {
	opened := 0
	for id, f := range readAll(t) {
		for i := range f.Points {
			p := &f.Points[i]
			if p.Mind == nil && !slices.Contains(p.See, "photo") {
				t.Errorf("%s: %s does not say what to mind", id, p.ID)
			}
			if slices.Contains(p.Mind, checklist.MindOpening) {
				opened++
			}
			if p.ID == "motor" || p.ID == "brushes" || p.ID == "commutator" {
				if !slices.Contains(p.Mind, checklist.MindOpening) {
					t.Errorf("%s: %s is looked at from outside", id, p.ID)
				}
			}
		}
	}
	if opened < 30 {
		t.Errorf("%d checks open something", opened)
	}
}
