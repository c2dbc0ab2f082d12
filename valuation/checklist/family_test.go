package checklist

import (
	"math"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// everyKey is what testdata/every-key.toml says, written down by hand.
func everyKey(t testing.TB) *Family {
	return &Family{
		ID: "tarnside-r2", Title: "Tarnside R2 railcar", Scale: "H0", File: "every-key.toml", BreakMinutes: 12.5,
		Grades:    []Grade{{"poor", 20, 0.3}, {"good", 70, 1}},
		Histories: []History{{"cabinet", "stood in a cabinet", 3}, {"layout", "layout", 1}},
		Features:  []Feature{{"lamps", "Lamps", "Colour of the rim", []string{"brass", "black"}}},
		Variants: []Variant{
			{ID: "410", Title: "cream", From: 1961, To: 1966, Made: 2.5, Guide: price(t, "80.50 EUR"), Fit: []int{0}},
			{ID: "415", Title: "415", Made: 1, Fit: []int{1}},
		},
		Points: []Point{{
			ID: "lamp-front", Title: "Front lamp", Area: "body", How: "Look at the rim",
			Ask: Phrases{"en": "Could you show the front?"}, Weight: 3.5, See: []string{"photo", "hand"}, Minutes: 0.5,
			Mind:    []string{"opening", "power", "solvent"},
			Applies: []bool{true, true}, Feature: 0, NeededToRun: true,
			Measure: &Measure{What: "voltage at the lamp", Unit: "V", Within: 0.5, Source: "invented"},
			States: []State{
				{ID: "sound", Title: "sound", Score: 1, Factor: 1, Original: true, Complete: true, Odds: []float64{1, 1},
					Yields: []Supply{{"lamp-{lamps}", 1, []int{0, 1}}}, Range: &Range{10, 16.5}},
				{ID: "swapped", Title: "not the lamp it left the factory with", Score: 0.5, Factor: 0.9, Complete: true,
					Odds:  []float64{1, 4}, // a history not named has weight 1
					Needs: []Supply{{"lamp-{lamps}", 2, []int{0, 1}}, {"screw", 1, []int{2, 2}}},
					Spend: price(t, "0.30 EUR"), Minutes: 10, Range: &Range{12.5, math.Inf(1)}},
				{ID: "missing", Title: "missing", Score: 0, Factor: 1, Original: true,
					Odds: []float64{2, 2}, // a bare number counts for all
					Stop: "the socket is gone with it", Incurable: true, Range: &Range{math.Inf(-1), 10}},
			},
		}, {
			ID: "rim", Title: "rim", Ask: Phrases{"en": "Is the rim black?", "de": "Ist der Rand schwarz?"},
			Weight: 1, See: []string{"hand"}, Applies: []bool{false, true}, Feature: -1,
			States: []State{
				{ID: "sound", Title: "sound", Score: 1, Factor: 1, Original: true, Complete: true, Odds: []float64{1, 1}},
				{ID: "bare", Title: "bare", Score: 1, Factor: 1, Original: true, Complete: true, Odds: []float64{0, 0.5},
					Needs: []Supply{{"lamp-{lamps}", 1, []int{-1, 1}}}},
			},
		}},
		Symptoms: []Symptom{
			{ID: "dark", Title: "Lamp stays dark", Ask: Phrases{"en": "Does it light up?"}, Leak: 0.02,
				See: []string{"track", "seller"}, Minutes: 2, Causes: []Cause{{0, 2, 1}, {1, 1, 0.25}}},
			{ID: "hums", Title: "hums", Leak: 0.5, See: []string{"track"}},
		},
		Parts: []Part{
			{ID: "lamp-brass", Title: "Lamp, brass", Group: "lamp", Guide: price(t, "9 EUR"), Sells: new(0.25), File: "every-key.toml"},
			{ID: "lamp-black", Title: "lamp-black", File: "every-key.toml"},
			{ID: "screw", Title: "M2 screw", Guide: price(t, "0.10 GBP"), File: "common.toml", Foreign: true},
		},
		Rules: []Rule{{ID: "dear", Level: Stop, Say: "Repairs are {repair-share}.", When: Condition{Point: -1, Symptom: -1, All: []Condition{
			{Point: -1, Symptom: -1, Figure: "repair-share", Above: new(0.3), Below: new(1.5)},
			{Point: -1, Symptom: -1, Not: &Condition{Point: 1, States: []int{1}, Symptom: -1, Chance: 0.5}},
			{Point: -1, Symptom: -1, Any: []Condition{{Point: -1, Symptom: 0, Chance: 0.25}}},
		}}}},
	}
}

func TestReadEveryKey(t *testing.T) {
	got, list := load(t, "testdata/every-key.toml", "every-key.toml", drawer(t))
	if len(list) > 0 {
		t.Errorf("diagnostics: %v", list)
	}
	if diff := cmp.Diff(everyKey(t), got); diff != "" {
		t.Errorf("family (-want +got):\n%s", diff)
	}
}

// TestHistoryLeftOut: without a history list there is one, and odds are one
// weight a state.
func TestHistoryLeftOut(t *testing.T) {
	doc := diag.ReadDocument("f.toml", strings.NewReader(least+`
[[point]]
id = "q"
state = [{ id = "sound", odds = 3 }, { id = "worn", odds = { any = 0.5 }, minutes = 1 }]
`))
	f := Read(doc, nil)
	if err := doc.Diagnostics().Err(); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]History{{"any", "any", 1}}, f.Histories); diff != "" {
		t.Errorf("histories (-want +got):\n%s", diff)
	}
	odds := [][]float64{f.Points[1].States[0].Odds, f.Points[1].States[1].Odds}
	if diff := cmp.Diff([][]float64{{3}, {0.5}}, odds); diff != "" {
		t.Errorf("odds (-want +got):\n%s", diff)
	}
}

// TestForeignParts: a part of another family is asked for once, entered once,
// and not found without the callback.
func TestForeignParts(t *testing.T) {
	const text = least + `
[[point]]
id = "q"
state = [
  { id = "sound", yields = ["screw", "shoe"] },
  { id = "worn", needs = [{ part = "screw", qty = 4 }, "nut"] },
]
[[part]]
id = "shoe"
`
	asked := map[string]int{}
	doc := diag.ReadDocument("f.toml", strings.NewReader(text))
	f := Read(doc, func(id string) (Part, bool) {
		asked[id]++
		return drawer(t)(id)
	})
	const want = `f.toml:14:56: point[2].state[2].needs[2]: unknown part "nut": expected the id of a [[part]]`
	if got := doc.Diagnostics().Error(); got != want {
		t.Errorf("diagnostics\n got %s\nwant %s", got, want)
	}
	if diff := cmp.Diff(map[string]int{"screw": 1, "nut": 1}, asked); diff != "" {
		t.Errorf("asked for (-want +got):\n%s", diff)
	}
	parts := []Part{{ID: "shoe", Title: "shoe", File: "f.toml"}, foreignScrew(t)}
	if diff := cmp.Diff(parts, f.Parts); diff != "" {
		t.Errorf("parts (-want +got):\n%s", diff)
	}
	if f.PartIndex("screw") != 1 || f.PartIndex("nut") != -1 {
		t.Errorf("part indices %d and %d, want 1 and -1", f.PartIndex("screw"), f.PartIndex("nut"))
	}

	doc = diag.ReadDocument("f.toml", strings.NewReader(text))
	Read(doc, nil)
	if n := len(doc.Diagnostics()); n != 3 {
		t.Errorf("%d diagnostics without the other family, want 3: %v", n, doc.Diagnostics())
	}
}

func TestIndices(t *testing.T) {
	f := everyKey(t)
	for _, row := range []struct {
		name      string
		got, want int
	}{
		{"point rim", f.PointIndex("rim"), 1},
		{"no point", f.PointIndex("Rim"), -1},
		{"variant 415", f.VariantIndex("415"), 1},
		{"no variant", f.VariantIndex("41"), -1},
		{"feature lamps", f.FeatureIndex("lamps"), 0},
		{"no feature", f.FeatureIndex(""), -1},
		{"symptom hums", f.SymptomIndex("hums"), 1},
		{"no symptom", f.SymptomIndex("rim"), -1},
		{"part lamp-black", f.PartIndex("lamp-black"), 1},
		{"no part", f.PartIndex("lamp"), -1},
		{"state missing", f.Points[0].StateIndex("missing"), 2},
		{"no state", f.Points[0].StateIndex("bare"), -1},
		{"option black", f.Features[0].OptionIndex("black"), 1},
		{"no option", f.Features[0].OptionIndex("grey"), -1},
	} {
		if row.got != row.want {
			t.Errorf("%s: index %d, want %d", row.name, row.got, row.want)
		}
	}
}

// least is the least that is a family.
const least = `format = 1
id = "f"
title = "F"
grade = [{ id = "good", score = 80, factor = 1 }]
variant = [{ id = "v" }]
[[point]]
id = "p"
state = [{ id = "sound" }, { id = "worn", minutes = 1 }]
`

// load reads a file under the name as, which tells the same on every platform.
func load(t testing.TB, file, as string, foreign func(string) (Part, bool)) (*Family, diag.List) {
	t.Helper()
	r, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	doc := diag.ReadDocument(as, r)
	f := Read(doc, foreign)
	return f, doc.Diagnostics()
}

// drawer is the parts of another family: there is a screw in it.
func drawer(t testing.TB) func(string) (Part, bool) {
	return func(id string) (Part, bool) {
		p := foreignScrew(t)
		p.Foreign = false
		return p, id == p.ID
	}
}

func foreignScrew(t testing.TB) Part {
	return Part{ID: "screw", Title: "M2 screw", Guide: price(t, "0.10 GBP"), File: "common.toml", Foreign: true}
}

func price(t testing.TB, text string) *money.Amount {
	t.Helper()
	a, err := money.ParseAmount(text)
	if err != nil {
		t.Fatal(err)
	}
	return &a
}
