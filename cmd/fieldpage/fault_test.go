package main

import (
	"strings"
	"testing"
)

// TestFaults: whatever the page asks for, it gets an answer.
func TestFaults(t *testing.T) {
	d := opened(t)
	good := find{Title: "t", Family: largest, Date: "2026-11-20"}
	with := func(change func(*find)) question {
		f := good
		change(&f)
		return question{Find: f, Draws: 200}
	}
	for _, c := range []struct {
		name, operation string
		argument        any
		want            string
	}{
		{"unknown operation", "dance", "", `knows no operation "dance"`},
		{"no JSON", "figure", "{", "cannot be read"},
		{"unknown family", "family", "nohab", "no family called"},
		{"find of no family", "figure", with(func(f *find) { f.Family = "nohab" }), "no family called"},
		{"no title", "toml", find{Family: largest}, "title: missing"},
		{"no such state", "figure", with(func(f *find) { f.Findings = []finding{{Point: "body", State: "melted", By: "hand"}} }), "melted"},
		{"wrong currency", "figure", with(func(f *find) { f.Ask = "12 USD" }), "USD"},
		{"no amount", "figure", with(func(f *find) { f.Ask = "much GBP" }), "ask: \"much\" is not a plain number"},
		{"no date", "figure", with(func(f *find) { f.Date = "soon" }), "date"},
		{"contradiction", "figure", with(func(f *find) {
			f.Findings = []finding{{Point: "body", State: "sound", By: "hand"}, {Point: "body", State: "cracked", By: "hand"}}
		}), "contradict"},
		{"listing with a mistake", "read", "format = 1\ntitle = \"t\"\nfamily = \"f\"\naks = \"1 EUR\"", "listing:4:1"},
		{"data of another kind", "open", "[]", "cannot be read"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := call[any](t, d, c.operation, c.argument)
			if r.Error == nil {
				t.Fatalf("answered %v", r.OK)
			}
			if all := r.Error.Message + strings.Join(r.Error.Lines, "\n"); !strings.Contains(all, c.want) || r.Error.Broken {
				t.Errorf("said %q, broken: %v", all, r.Error.Broken)
			}
		})
	}
}

// TestAllMistakesOfAFind: what the engine cannot read and what it does not know are
// said together, in a find and in a file that is read.
func TestAllMistakesOfAFind(t *testing.T) {
	d := opened(t)
	x := find{Title: "t", Family: largest, Date: "soon", Findings: []finding{{Point: "body", State: "melted", By: "hand"}}}
	file := "format = 1\ntitel = \"t\"\nfamily = \"" + largest + "\"\n[[finding]]\npoint = \"body\"\nstate = \"melted\"\nby = \"hand\""
	for operation, argument := range map[string]any{"figure": question{Find: x, Draws: 200}, "json": x, "read": file} {
		r := call[any](t, d, operation, argument)
		if r.Error == nil || len(r.Error.Lines) != 1 || !strings.Contains(r.Error.Lines[0], `no state "melted"`) {
			t.Errorf("%s: %+v", operation, r.Error)
		}
	}
}

// TestNoData: before the data nothing else works.
func TestNoData(t *testing.T) {
	if r := call[any](t, &desk{}, "family", largest); r.Error == nil || !strings.Contains(r.Error.Message, "no data") {
		t.Errorf("answered %+v", r)
	}
}

// TestPanic: a fault of the program is answered, and the next call works.
func TestPanic(t *testing.T) {
	operations["panic"] = func(*desk, string) (any, error) { panic("at the wrong moment") }
	defer delete(operations, "panic")
	d := opened(t)
	r := call[any](t, d, "panic", "")
	if r.Error == nil || !r.Error.Broken || !strings.Contains(r.Error.Message, "at the wrong moment") {
		t.Errorf("answered %+v", r)
	}
	ask[familyView](t, d, "family", largest)
}

func TestWithoutPlaces(t *testing.T) {
	for in, want := range map[string]string{
		"":                                   "",
		"a by hand (7:1); b by hand (12:1)":  "a by hand; b by hand",
		"body (front) is cracked (3)":        "body (front) is cracked",
		"an open ( and (x(1:2) and () stay)": "an open ( and (x(1:2) and () stay)",
	} {
		if got := withoutPlaces(in); got != want {
			t.Errorf("%q became %q, not %q", in, got, want)
		}
	}
}
