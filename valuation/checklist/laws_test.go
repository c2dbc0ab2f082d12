package checklist

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"lotgauge/valuation/diag"
)

// familyFiles are the families that have to be without fault.
var familyFiles = []string{
	"../../checklists/*.toml",
	"../../testdata/reference/appraise/families/*.toml",
}

// TestFamilies reads and proves every family of the project.
func TestFamilies(t *testing.T) {
	for _, name := range families(t) {
		t.Run(filepath.Base(name), func(t *testing.T) {
			text := read(t, name)
			doc := diag.ReadDocument(filepath.Base(name), strings.NewReader(text))
			f := Read(doc, folder(t, filepath.Dir(name)))
			Prove(f, doc)
			for _, d := range doc.Diagnostics() {
				t.Error(d.Error())
			}
			checkSound(t, f)
		})
	}
}

// TestDamage takes every line out of a family, and swaps each with the next:
// whatever comes of it is either a sound family or has errors that point inside
// the file.
func TestDamage(t *testing.T) {
	lines := strings.SplitAfter(read(t, "testdata/every-key.toml"), "\n")
	refused := 0
	for i := range lines {
		refused += checkText(t, strings.Join(lines[:i], "")+strings.Join(lines[i+1:], ""))
		if i > 0 {
			lines[i-1], lines[i] = lines[i], lines[i-1]
			refused += checkText(t, strings.Join(lines, ""))
			lines[i-1], lines[i] = lines[i], lines[i-1]
		}
	}
	if refused < len(lines)/2 {
		t.Errorf("only %d of %d changes were refused", refused, 2*len(lines))
	}
}

// FuzzRead: no document makes reading panic; diagnostics point inside it; and
// what has no errors is a sound family.
func FuzzRead(f *testing.F) {
	for _, name := range families(f) {
		f.Add(read(f, name))
	}
	f.Add(read(f, "testdata/every-key.toml"))
	for _, text := range caseDocuments(f) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) { checkText(t, text) })
}

// checkText states the laws that hold for any document. It returns 1 for one
// that is refused.
func checkText(t *testing.T, text string) int {
	t.Helper()
	doc := diag.ReadDocument("f.toml", strings.NewReader(text))
	fam := Read(doc, drawer(t))
	refused := doc.Diagnostics().HasErrors()
	Prove(fam, doc)
	lines := strings.Split(text, "\n")
	for _, d := range doc.Diagnostics() {
		if d.Pos.File != "f.toml" || d.Pos.Line > len(lines) || d.Pos.Line > 0 && d.Pos.Column > len(lines[d.Pos.Line-1])+1 {
			t.Errorf("%v points outside the file", d)
		}
		if d.Summary == "" || strings.ContainsAny(d.Error(), "\n\r\x1b") {
			t.Errorf("unfit to print: %q", d.Error())
		}
	}
	if refused {
		return 1
	}
	checkSound(t, fam)
	return 0
}

// checkSound states what holds for every family read without errors.
func checkSound(t *testing.T, f *Family) {
	t.Helper()
	must := func(ok bool, format string, args ...any) {
		if !ok {
			t.Helper()
			t.Errorf(format, args...)
		}
	}
	must(f.ID != "" && f.Title != "", "no id or title")
	must(len(f.Grades) > 0 && len(f.Histories) > 0 && len(f.Variants) > 0 && len(f.Points) > 0, "an empty list")
	for i, g := range f.Grades {
		must(g.Factor > 0 && (i == 0 || g.Score > f.Grades[i-1].Score), "grade %s: %v", g.ID, g)
	}
	for _, v := range f.Variants {
		must(len(v.Fit) == len(f.Features) && v.From <= v.To, "variant %s: %v", v.ID, v)
		for i, o := range v.Fit {
			must(o >= 0 && o < len(f.Features[i].Options), "variant %s: option %d of %s", v.ID, o, f.Features[i].ID)
		}
	}
	for _, p := range f.Points {
		must(len(p.Applies) == len(f.Variants) && len(p.See) > 0, "point %s: %v", p.ID, p)
		must(p.Feature >= -1 && p.Feature < len(f.Features), "point %s: feature %d", p.ID, p.Feature)
		must(len(p.States) >= 2 && len(p.States) <= MaxEach, "point %s: %d states", p.ID, len(p.States))
		must(measured(p) == nil, "point %s: %v", p.ID, measured(p))
		for h := range f.Histories {
			sum := 0.0
			for _, s := range p.States {
				sum += s.Odds[h]
			}
			must(sum > 0, "point %s: odds %v in history %d", p.ID, sum, h)
		}
		for _, s := range p.States {
			must(s.Score >= 0 && s.Score <= 1 && s.Factor >= 0 && len(s.Odds) == len(f.Histories), "state %s: %v", s.ID, s)
			for _, x := range append(s.Needs, s.Yields...) {
				must(suppliesOf(f, p, x) == nil, "point %s, state %s: %v", p.ID, s.ID, suppliesOf(f, p, x))
			}
		}
	}
	for _, s := range f.Symptoms {
		for _, c := range s.Causes {
			must(c.Strength >= 0 && c.Strength <= 1 && c.State >= 0 && c.State < len(f.Points[c.Point].States), "symptom %s: %v", s.ID, c)
		}
	}
	for _, r := range f.Rules {
		must(r.Level >= Note && r.Level <= Stop && r.Say != "", "rule %s: %v", r.ID, r)
		r.When.Walk(func(c Condition) { must(kinds(c) == 1, "rule %s: %d kinds in %v", r.ID, kinds(c), c) })
	}
}

// suppliesOf says what is wrong with a supply. It fills the template a second
// time, by plain replacement.
func suppliesOf(f *Family, p Point, s Supply) error {
	if s.Qty < 1 || len(s.Part) != len(f.Variants) {
		return fmt.Errorf("%v", s)
	}
	for v, part := range s.Part {
		if !p.Applies[v] {
			if part != -1 {
				return fmt.Errorf("part %d for variant %d, which has no such point", part, v)
			}
			continue
		}
		id := s.Template
		for i, x := range f.Features {
			id = strings.ReplaceAll(id, "{"+x.ID+"}", x.Options[f.Variants[v].Fit[i]])
		}
		if part < 0 || f.Parts[part].ID != id {
			return fmt.Errorf("part %d for variant %d, want %s", part, v, id)
		}
	}
	return nil
}

// kinds counts the kinds a condition is of.
func kinds(c Condition) int {
	n := 0
	for _, is := range []bool{len(c.All) > 0, len(c.Any) > 0, c.Not != nil, c.Figure != "", c.Point >= 0, c.Symptom >= 0} {
		if is {
			n++
		}
	}
	return n
}

// families are the files that familyFiles match.
func families(t testing.TB) []string {
	t.Helper()
	var names []string
	for _, pattern := range familyFiles {
		names = append(names, glob(t, pattern)...)
	}
	return names
}

// folder is the parts of all families of a folder.
func folder(t testing.TB, dir string) func(string) (Part, bool) {
	t.Helper()
	parts := map[string]Part{}
	for _, name := range glob(t, filepath.Join(dir, "*.toml")) {
		f := Read(diag.ReadDocument(filepath.Base(name), strings.NewReader(read(t, name))), nil)
		for _, p := range f.Parts {
			parts[p.ID] = p
		}
	}
	return func(id string) (Part, bool) {
		p, ok := parts[id]
		return p, ok
	}
}

func read(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
