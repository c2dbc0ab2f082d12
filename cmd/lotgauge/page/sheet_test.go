package page

import (
	"bytes"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/shopspring/decimal"

	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

func dec(text string) valuation.Money {
	return valuation.Money{Decimal: decimal.RequireFromString(text)}
}

func both(text string) valuation.Figure { return valuation.Figure{Worth: dec(text), Bid: dec(text)} }

// sheet is an invented sheet of two checks.
func sheet() Sheet {
	state := func(id, title, change, deduction, stop string) valuation.ReckonedState {
		return valuation.ReckonedState{CheckAnswer: valuation.CheckAnswer{ID: id, Title: title, Stop: stop}, Change: both(change), Deduction: both(deduction)}
	}
	r := &valuation.Reckoner{
		Family: "tarnside-x1", Title: "Tarnside X1 railcar", Currency: "EUR", Sheet: "hall", SheetTitle: "An invented hall", SheetCurrency: "GBP",
		Unseen: both("41.26"), Start: both("40.12"), Sound: both("60.04"), Dearest: "902", Floor: both("8"), Below: 0.02, Paying: 1,
		Errors: []valuation.ReckonError{
			{Checks: 1, Mean: dec("3.14"), P90: dec("7"), StopOnPaper: dec("40.04"), StopInFull: dec("40.55")},
			{Checks: 2, Mean: dec("2.71"), P90: dec("6.5"), StopOnPaper: dec("39"), StopInFull: dec("40")},
		},
	}
	wheels := valuation.ReckonedCheck{Unmade: both("6.25"), Pays: true, States: []valuation.ReckonedState{
		state("sound", "sound", "6.25", "0", ""), state("worn", "worn", "-3.19", "9.44", ""), state("odd", "odd", "-4", "10.25", "No wheels, no deal"),
	}}
	wheels.Check = valuation.Check{Kind: valuation.CheckPoint, ID: "wheels", Title: "Wheels", Area: "running gear", How: "Hold the gauge between them", Minutes: 1.5, Mind: []string{checklist.MindOpening},
		Measure: &checklist.Measure{What: "back-to-back", Unit: "mm", Within: 0.1}}
	number := valuation.ReckonedCheck{Unmade: both("12.5"), States: []valuation.ReckonedState{
		state("901", "red", "-12.5", "25", ""), state("902", "blue", "12.5", "0", ""),
	}}
	number.Check = valuation.Check{Kind: valuation.CheckVariant, ID: "tarnside-x1", Title: "Which one", Minutes: 1}
	r.Checks = []valuation.ReckonedCheck{wheels, number}
	return Sheet{
		Reckoner: r, Date: time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC), Finds: 500, Draws: 20000, Seed: 1, Folder: "mydata", Cautions: []string{"Nothing is opened."},
		Family: &checklist.Family{
			ID: "tarnside-x1", Scale: "H0", File: "mydata/families/tarnside-x1.toml",
			Features: []checklist.Feature{{ID: "livery", Title: "Livery", Tell: "Look at it", Options: []string{"dark-red", "blue"}}},
			Variants: []checklist.Variant{{ID: "901", Title: "red", From: 1960, To: 1964, Fit: []int{0}}, {ID: "902", Title: "blue", From: 1965, Fit: []int{1}}},
			Points: []checklist.Point{{ID: "wheels", See: []string{valuation.ByHand, valuation.ByTrack}, States: []checklist.State{
				{ID: "sound", Range: &checklist.Range{From: 14, To: 14.1}}, {ID: "worn"}, {ID: "odd", Range: &checklist.Range{From: 14.1, To: math.Inf(1)}},
			}}},
		},
	}
}

func sheetPage(t testing.TB, s Sheet) (string, *node) {
	t.Helper()
	var b bytes.Buffer
	if err := WriteSheet(&b, s); err != nil {
		t.Fatal(err)
	}
	root, err := parse(b.String())
	if err != nil {
		t.Fatalf("not well formed: %v", err)
	}
	return b.String(), root
}

// Every state has a box and its two figures, every check what it takes off where
// it is not made.
func TestSheetFigures(t *testing.T) {
	_, root := sheetPage(t, sheet())
	text := plainly(root.named("body")[0].words())
	for _, want := range []string{
		"Nothing looked at: begin at 40.1 GBP", "All sound, number 902: stop at 60.0 GBP", "A lower sum counts as 8 GBP",
		"begin at the stop with all sound, which is that of number 902, and take off", "about 1 model in 50 is worth less still",
		"1. Wheels", "running gear, 1.5 min", "Hold the gauge between them.", "To measure: back-to-back, to 0.1 mm.",
		"sound, 14 to 14.1 mm +6.3 0 ", "worn −3.2 −9.4", "odd, from 14.1 mm ends the deal: No wheels, no deal −4 −10.3", "not looked at 0 −6.3",
		"1. Wheels running gear, 1.5 min add off ", "gauge between them. Only with the seller's leave.",
		"From here on no check pays for its minutes once those above are made", "2. Which one",
		"With no check made: the stop is 40.1 GBP on paper, 41.3 GBP in full.", "901: red −12.5 −25", "902: blue +12.5 0", "not looked at 0 −12.5",
		"With the first check made: off by 3.1 GBP on average, in 9 of 10 cases by no more than 7 GBP; the mean stop was 40.0 GBP on paper, 40.6 GBP in full.",
		"With all 2 checks made", "Livery: dark red / blue. Look at it", "901 red 1960–1964 dark red", "902 blue 1965 blue",
		"Any catalogue number, H0", "14 March 2026", "the folder mydata as of 14 March 2026", "An invented hall, in GBP; the home currency is EUR", "20 000 draws, seed 1", "500 simulated finds",
		"Nothing is opened.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	boxes := root.all(func(n *node) bool { return n.has("box") })
	if len(boxes) != 5+2 {
		t.Errorf("%d boxes", len(boxes))
	}
}

// The line stands once, within the first check that does not pay, so that it is
// never parted from it; from there on checks take little space.
func TestSheetLine(t *testing.T) {
	for _, row := range []struct {
		paying int
		tight  []bool
	}{{0, []bool{true, true}}, {1, []bool{false, true}}, {2, []bool{false, false}}} {
		s := sheet()
		s.Reckoner.Paying = row.paying
		_, root := sheetPage(t, s)
		for i, check := range root.all(func(n *node) bool { return n.has("check") }) {
			lines := check.all(func(n *node) bool { return n.has("beyond") })
			if check.has("tight") != row.tight[i] || (len(lines) == 1) != (i == row.paying) {
				t.Errorf("%d pay: check %d is tight: %v, and has %d lines", row.paying, i+1, check.has("tight"), len(lines))
			}
		}
	}
}

// What is to be minded of a check stands at it, and the whole of it is read before
// anything else.
func TestSheetMind(t *testing.T) {
	const leave = "Only with the seller's leave."
	s := sheet()
	_, root := sheetPage(t, s)
	if n := strings.Count(root.words(), leave); n != 1 {
		t.Errorf("said %d times", n)
	}
	var sections []string
	for _, h := range root.named("h2") {
		sections = append(sections, strings.TrimSpace(h.words()))
	}
	if sections[0] != "At the stall" {
		t.Errorf("%q", sections)
	}
	s.Reckoner.Checks[0].Mind = []string{checklist.MindPower, checklist.MindSolvent}
	if _, root := sheetPage(t, s); !strings.Contains(root.words(), "Only on your own supply. No solvent or oil without") {
		t.Error("nothing of power and solvents")
	}
	s.Reckoner.Checks[0].Mind = nil
	if _, root := sheetPage(t, s); strings.Contains(root.words(), leave) {
		t.Error("said where there is nothing to mind")
	}
}

// Of one catalogue number the others are not shown.
func TestSheetOfOneNumber(t *testing.T) {
	s := sheet()
	s.Reckoner.Variant, s.Demonstration, s.Small = "902", true, true
	page, root := sheetPage(t, s)
	text := root.named("body")[0].words()
	if !strings.Contains(text, "Catalogue number 902") || strings.Contains(text, "1960") || !strings.Contains(text, "Demonstration.") ||
		!strings.Contains(text, "the demonstration, mydata,") || !strings.Contains(plainly(text), "All sound: stop at") {
		t.Error(text)
	}
	if !strings.Contains(page, "size: A5") || strings.Contains(page, "size: A4") {
		t.Error("not on A5")
	}
}

// A sheet keeps to itself as a report does, whatever its texts say: every string
// of it is put before by markup and controls.
func TestSheetKeepsToItself(t *testing.T) {
	s := sheet()
	poison(reflect.ValueOf(&s).Elem())
	for name, s := range map[string]Sheet{"sound": sheet(), "hostile": s} {
		page, root := sheetPage(t, s)
		allowed := map[string]bool{"#root": true, "#text": true, "ol": true}
		for _, e := range elements {
			allowed[e] = true
		}
		for _, n := range root.all(func(*node) bool { return true }) {
			if !allowed[n.name] {
				t.Errorf("%s: there is a <%s>", name, n.name)
			}
			for key, value := range n.attr {
				if strings.HasPrefix(key, "on") || key == "src" || key == "style" || key == "href" && value != "data:," {
					t.Errorf("%s: <%s> has %s=%q", name, n.name, key, value)
				}
			}
		}
		if strings.Contains(page, "http:") || strings.Contains(page, "https:") || strings.Contains(page, "url(") {
			t.Errorf("%s: the page names an address", name)
		}
		for line := range strings.SplitSeq(page, "\n") {
			if diag.Clean(line) != line || strings.ContainsFunc(line, unicode.IsControl) {
				t.Errorf("%s: %.200q", name, line)
			}
		}
	}
}

// poison puts a hostile text before every string of a value.
func poison(v reflect.Value) {
	if _, isMoney := v.Interface().(valuation.Money); isMoney {
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			poison(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); f.CanSet() {
				poison(f)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			poison(v.Index(i))
		}
	case reflect.String:
		v.SetString(markup + controls + rightTo + pictures + v.String())
	}
}

// The same sheet gives the same bytes, and what fails writes nothing.
func TestSheetSameBytes(t *testing.T) {
	first, _ := sheetPage(t, sheet())
	if again, _ := sheetPage(t, sheet()); again != first {
		t.Error("two sheets of the same differ")
	}
	var b bytes.Buffer
	if err := WriteSheet(&b, Sheet{}); err == nil || b.Len() > 0 {
		t.Errorf("a sheet of nothing: %v, %q", err, &b)
	}
}

func TestSheetPolicy(t *testing.T) {
	_, root := sheetPage(t, sheet())
	for _, meta := range root.named("meta") {
		if meta.attr["http-equiv"] == "Content-Security-Policy" && strings.HasPrefix(meta.attr["content"], "default-src 'none'") {
			return
		}
	}
	t.Error("the sheet has no policy")
}

func TestSigned(t *testing.T) {
	for _, row := range []struct{ in, want string }{{"0", "0"}, {"0.04", "0.0"}, {"-0.04", "0.0"}, {"1.25", "+1.3"}, {"-1.25", "−1.3"}, {"1200", "+1200"}} {
		if got := plainly(signed(dec(row.in))); got != row.want {
			t.Errorf("%s: %q, want %q", row.in, got, row.want)
		}
	}
}
