package checklist

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation/diag"
)

// three is a family of three variants and three histories, whose last point is
// open for more.
const three = `format = 1
id = "f"
title = "F"
grade = [{ id = "good", score = 80, factor = 1 }]
history = [{ id = "cabinet" }, { id = "layout" }, { id = "tampered" }]
feature = [{ id = "roof", options = ["early", "late"] }, { id = "lamps", options = ["brass", "black"] }]
variant = [
  { id = "1", fit = { roof = "early", lamps = "brass" } },
  { id = "2", fit = { roof = "late", lamps = "brass" } },
  { id = "3", fit = { roof = "late", lamps = "black" } },
]
part = [{ id = "lamp-brass" }, { id = "lamp-black" }, { id = "late-black" }, { id = "screw" }]
[[symptom]]
id = "dark"
leak = 0.1
[[point]]
id = "box"
state = [{ id = "there" }, { id = "torn", cure = "none" }, { id = "missing", cure = "none" }]
[[point]]
id = "p"
`

// lastPoint is the point that the text completes.
func lastPoint(t *testing.T, text string) Point {
	t.Helper()
	return lastOf(t, three+text).Points[1]
}

func lastOf(t *testing.T, text string) *Family {
	t.Helper()
	doc := diag.ReadDocument("f.toml", strings.NewReader(text))
	f := Read(doc, nil)
	if err := doc.Diagnostics().Err(); err != nil {
		t.Fatalf("%s\n%v", text, err)
	}
	return f
}

func TestOdds(t *testing.T) {
	for _, row := range []struct {
		keys string
		want []float64
	}{
		{``, []float64{1, 1, 1}},
		{`, odds = 0`, []float64{0, 0, 0}},
		{`, odds = 2.5`, []float64{2.5, 2.5, 2.5}},
		{`, odds = { cabinet = 3, layout = 4, tampered = 5 }`, []float64{3, 4, 5}},
		{`, odds = { tampered = 5, cabinet = 0 }`, []float64{0, 1, 5}},
		{`, odds = { layout = 0.5 }`, []float64{1, 0.5, 1}},
		{`, odds = {}`, []float64{1, 1, 1}},
		{`, odds.layout = 7`, []float64{1, 7, 1}},
	} {
		p := lastPoint(t, `state = [{ id = "sound" }, { id = "worn"`+row.keys+` }]`)
		if diff := cmp.Diff(row.want, p.States[1].Odds); diff != "" {
			t.Errorf("%q (-want +got):\n%s", row.keys, diff)
		}
	}
}

func TestOnly(t *testing.T) {
	for _, row := range []struct {
		keys string
		want string // of the variants 1, 2 and 3
	}{
		{``, "123"},
		{`only = {}`, "123"},
		{`only = { roof = ["early"] }`, "1"},
		{`only = { roof = ["late"] }`, "23"},
		{`only = { roof = ["early", "late"] }`, "123"},
		{`only = { lamps = ["black"] }`, "3"},
		{`only = { roof = ["late"], lamps = ["brass"] }`, "2"},
		{`only = { lamps = ["brass"], roof = ["late", "early"] }`, "12"},
		{"only.roof = [\"late\"]\nonly.lamps = [\"black\"]", "3"},
	} {
		p := lastPoint(t, row.keys+"\nstate = [{ id = \"sound\" }, { id = \"worn\" }]")
		got := ""
		for v, applies := range p.Applies {
			if applies {
				got += []string{"1", "2", "3"}[v]
			}
		}
		if got != row.want {
			t.Errorf("%q applies to %s, want %s", row.keys, got, row.want)
		}
	}
}

func TestSupplies(t *testing.T) {
	const brass, black, late, screw = 0, 1, 2, 3
	for _, row := range []struct {
		only, needs string
		want        []Supply
	}{
		{``, `[]`, nil},
		{``, `["screw"]`, []Supply{{"screw", 1, []int{screw, screw, screw}}}},
		{``, `["lamp-{lamps}"]`, []Supply{{"lamp-{lamps}", 1, []int{brass, brass, black}}}},
		{``, `[{ part = "lamp-{lamps}", qty = 2 }]`, []Supply{{"lamp-{lamps}", 2, []int{brass, brass, black}}}},
		{``, `[{ part = "screw", qty = 4 }, "lamp-brass"]`, []Supply{{"screw", 4, []int{screw, screw, screw}}, {"lamp-brass", 1, []int{brass, brass, brass}}}},
		{`lamps = ["black"]`, `["{roof}-{lamps}"]`, []Supply{{"{roof}-{lamps}", 1, []int{-1, -1, late}}}},
		{`lamps = ["brass"]`, `["lamp-{lamps}"]`, []Supply{{"lamp-{lamps}", 1, []int{brass, brass, -1}}}},
	} {
		for _, key := range []string{"needs", "yields"} {
			p := lastPoint(t, `only = { `+row.only+" }\nstate = [{ id = \"sound\" }, { id = \"worn\", "+key+" = "+row.needs+" }]")
			got, other := p.States[1].Needs, p.States[1].Yields
			if key == "yields" {
				got, other = other, got
			}
			if diff := cmp.Diff(row.want, got); diff != "" || other != nil {
				t.Errorf("%s = %s (-want +got):\n%s", key, row.needs, diff)
			}
		}
	}
}

func TestAsk(t *testing.T) {
	for _, row := range []struct {
		keys string
		want Phrases
	}{
		{``, nil},
		{`ask = "Is it there?"`, Phrases{"en": "Is it there?"}},
		{`ask = { en = "Is it there?", de = "Ist es da?", fr = "Y est-il ?" }`, Phrases{"en": "Is it there?", "de": "Ist es da?", "fr": "Y est-il ?"}},
		{`ask = { nl = "Is het er?" }`, Phrases{"nl": "Is het er?"}},
	} {
		p := lastPoint(t, row.keys+"\nstate = [{ id = \"sound\" }, { id = \"worn\" }]")
		if diff := cmp.Diff(row.want, p.Ask); diff != "" {
			t.Errorf("%s (-want +got):\n%s", row.keys, diff)
		}
	}
}

func TestConditions(t *testing.T) {
	figure := func(name string, above, below *float64) Condition {
		return Condition{Figure: name, Above: above, Below: below, Point: -1, Symptom: -1}
	}
	coverage := figure("coverage", new(0.5), nil)
	for _, row := range []struct {
		when string
		want Condition
	}{
		{`{ figure = "coverage", above = "50%" }`, coverage},
		{`{ figure = "condition", below = "1/8" }`, figure("condition", nil, new(0.125))},
		{`{ figure = "repair-share", above = "25%", below = "150%" }`, figure("repair-share", new(0.25), new(1.5))},
		{`{ point = "box", state = ["missing", "torn"], chance = "25%" }`, Condition{Point: 0, States: []int{2, 1}, Symptom: -1, Chance: 0.25}},
		{`{ symptom = "dark", chance = "100%" }`, Condition{Point: -1, Symptom: 0, Chance: 1}},
		{`{ not = { figure = "coverage", above = "50%" } }`, Condition{Not: &coverage, Point: -1, Symptom: -1}},
		{`{ all = [{ figure = "coverage", above = "50%" }] }`, Condition{All: []Condition{coverage}, Point: -1, Symptom: -1}},
		{`{ any = [{ figure = "coverage", above = "50%" }, { figure = "coverage", above = "1/2" }] }`,
			Condition{Any: []Condition{coverage, coverage}, Point: -1, Symptom: -1}},
	} {
		text := strings.Replace(three, "[[symptom]]", "[[rule]]\nid = \"r\"\nlevel = \"note\"\nsay = \"Look.\"\nwhen = "+row.when+"\n[[symptom]]", 1)
		f := lastOf(t, text+`state = [{ id = "sound" }, { id = "worn" }]`)
		if diff := cmp.Diff(row.want, f.Rules[0].When); diff != "" {
			t.Errorf("%s (-want +got):\n%s", row.when, diff)
		}
	}
}

// TestProveAfterErrors: a family that was not read is not proved.
func TestProveAfterErrors(t *testing.T) {
	doc := diag.ReadDocument("f.toml", strings.NewReader(least+"[[part]]\nid = \"unused\"\nguide = 3\n"))
	f := Read(doc, nil)
	before := doc.Diagnostics()
	Prove(f, doc)
	if diff := cmp.Diff(before, doc.Diagnostics()); diff != "" || !before.HasErrors() {
		t.Errorf("proved all the same (-before +after):\n%s", diff)
	}
}

// TestBroken: of a document that cannot be read, the family is empty and there
// is the one diagnostic.
func TestBroken(t *testing.T) {
	for _, text := range []string{"", "[a", "\x00", "a = 1\na = 2", "\xff", strings.Repeat("#", diag.MaxDocument+1)} {
		doc := diag.ReadDocument("f.toml", strings.NewReader(text))
		f := Read(doc, nil)
		Prove(f, doc)
		if diff := cmp.Diff(&Family{File: "f.toml"}, f); diff != "" {
			t.Errorf("%.20q (-want +got):\n%s", text, diff)
		}
		if n := len(doc.Diagnostics()); n != 1 {
			t.Errorf("%.20q: %d diagnostics: %v", text, n, doc.Diagnostics())
		}
	}
}

// TestSpans compares what is said of spans with trying values on and between
// their bounds.
func TestSpans(t *testing.T) {
	in := func(s span, x float64) bool {
		return (x > s.low || x == s.low && !s.lowOpen) && (x < s.high || x == s.high && !s.highOpen)
	}
	var all []span
	for low := range 4 {
		for high := range 4 {
			for open := range 4 {
				all = append(all, span{float64(low), float64(high), open&1 > 0, open&2 > 0})
			}
		}
	}
	for _, s := range all {
		for _, u := range all {
			both, some := s.and(u), false
			for i := range 17 {
				x := float64(i)/4 - 0.5
				if in(both, x) != (in(s, x) && in(u, x)) {
					t.Fatalf("%v and %v is %v, wrong at %g", s, u, both, x)
				}
				some = some || in(both, x)
			}
			if both.empty() == some {
				t.Fatalf("%v: empty is %v", both, both.empty())
			}
		}
	}
}
