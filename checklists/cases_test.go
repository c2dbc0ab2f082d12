package checklists_test

import (
	"io/fs"
	"path"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/BurntSushi/toml"

	"lotgauge/checklists"
	"lotgauge/pricedata"
	"lotgauge/valuation"
	"lotgauge/valuation/money"
)

// caseFile is cases/ID.toml: findings, and what must come out of them.
type caseFile struct {
	Format int
	Case   []example
}

type example struct {
	Title   string
	Variant string
	Ask     string // at the stall, in cash
	Keep    string
	Finding []finding
	Expect  []expectation
}

type finding struct {
	Point, State, Feature, Option, Symptom, Variant, By string
	Present                                             bool
	Trust                                               *float64
}

// expectation is the chance of one thing, or a rule or verdict.
type expectation struct {
	Point, State, Variant, History, Symptom, Route string
	Rule, Verdict, Question                        string
	Fires                                          *bool
	Above, Below                                   string
}

var verdicts = map[string]valuation.Verdict{
	"buy": valuation.Buy, "marginal": valuation.Marginal, "too-dear": valuation.TooDear, "walk-away": valuation.WalkAway,
}

// TestCases: every built-in family has cases, and all that they expect holds.
func TestCases(t *testing.T) {
	families, err := fs.Glob(checklists.Files, "*.toml")
	if err != nil || len(families) == 0 {
		t.Fatalf("families: %v, %v", families, err)
	}
	l := open(t)
	for _, name := range families {
		t.Run(strings.TrimSuffix(name, ".toml"), func(t *testing.T) {
			var file caseFile
			md, err := toml.DecodeFile(path.Join("cases", name), &file)
			if err != nil {
				t.Fatal(err)
			}
			if unknown := md.Undecoded(); len(unknown) > 0 || file.Format != 1 {
				t.Fatalf("format %d, unknown keys %v", file.Format, unknown)
			}
			if len(file.Case) < 5 {
				t.Errorf("only %d cases", len(file.Case))
			}
			for _, c := range file.Case {
				t.Run(c.Title, func(t *testing.T) { c.run(t, l, strings.TrimSuffix(name, ".toml")) })
			}
		})
	}
}

func open(t *testing.T) *valuation.Library {
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
	return valuation.Open(folder, "", true)
}

func (c *example) run(t *testing.T, l *valuation.Library, family string) {
	x := &valuation.Listing{
		File: "case", Title: c.Title, Family: family, Variant: c.Variant,
		Date: time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC), Buy: "stall-cash", Fixed: c.Ask != "",
	}
	x.Ask, x.KeepWorth = amount(t, c.Ask), amount(t, c.Keep)
	for _, f := range c.Finding {
		x.Findings = append(x.Findings, valuation.Finding{
			Point: f.Point, State: f.State, Feature: f.Feature, Option: f.Option,
			Symptom: f.Symptom, Present: f.Present, Variant: f.Variant, By: f.By, Trust: f.Trust,
		})
	}
	a, diags := l.Appraise(x, valuation.Options{Draws: 4000})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	if len(c.Expect) == 0 {
		t.Error("nothing is expected")
	}
	for _, e := range c.Expect {
		e.hold(t, a)
	}
}

func amount(t *testing.T, text string) *money.Amount {
	t.Helper()
	if text == "" {
		return nil
	}
	a, err := money.ParseAmount(text)
	if err != nil {
		t.Fatal(err)
	}
	return &a
}

func (e *expectation) hold(t *testing.T, a *valuation.Appraisal) {
	switch {
	case e.Verdict != "":
		if want, ok := verdicts[e.Verdict]; !ok || a.Reading.Verdict != want {
			t.Errorf("verdict %d, want %s", a.Reading.Verdict, e.Verdict)
		}
	case e.Rule != "":
		if want := e.Fires == nil || *e.Fires; fired(a, e.Rule) != want {
			t.Errorf("rule %s: fires %v, want %v", e.Rule, !want, want)
		}
	case e.Question != "":
		if len(a.Questions) == 0 || a.Questions[0].ID != e.Question {
			t.Errorf("first question %v, want %s", a.Questions[0].ID, e.Question)
		}
	default:
		e.between(t, a)
	}
}

func fired(a *valuation.Appraisal, rule string) bool {
	for _, r := range a.Rules {
		if r.ID == rule {
			return true
		}
	}
	return false
}

func (e *expectation) between(t *testing.T, a *valuation.Appraisal) {
	chance, what := e.chance(t, a)
	if e.Above == "" && e.Below == "" {
		t.Errorf("%s: neither above nor below", what)
	}
	if e.Above != "" && chance <= bound(t, e.Above) {
		t.Errorf("%s: %.3f, want above %s", what, chance, e.Above)
	}
	if e.Below != "" && chance >= bound(t, e.Below) {
		t.Errorf("%s: %.3f, want below %s", what, chance, e.Below)
	}
}

func bound(t *testing.T, text string) float64 {
	t.Helper()
	r, err := money.ParseRate(text)
	if err != nil {
		t.Fatal(err)
	}
	return r.Float()
}

// chance finds what an expectation is about; what is not there at all fails.
func (e *expectation) chance(t *testing.T, a *valuation.Appraisal) (float64, string) {
	t.Helper()
	find := func(kind, id string, among []valuation.Chance) (float64, string) {
		for _, c := range among {
			if c.ID == id {
				return float64(c.Chance), kind + " " + id
			}
		}
		return 0, kind + " " + id
	}
	switch {
	case e.Variant != "":
		return find("variant", e.Variant, a.Variants)
	case e.History != "":
		return find("history", e.History, a.Histories)
	case e.Symptom != "":
		return find("symptom", e.Symptom, a.Symptoms)
	case e.Route != "":
		for _, r := range a.Routes {
			if r.ID == e.Route {
				return float64(*r.Chosen), "route " + r.ID
			}
		}
	case e.Point != "":
		for _, p := range a.Points {
			if p.ID == e.Point {
				return find("point "+e.Point, e.State, p.States)
			}
		}
	}
	t.Errorf("%+v is about nothing that there is", *e)
	return 0, ""
}
