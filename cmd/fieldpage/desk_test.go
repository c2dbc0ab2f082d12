package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/checklists"
	"lotgauge/pricedata"
	"lotgauge/valuation"
)

// demonstration is the built-in data folder as the page carries it.
func demonstration(t testing.TB) memory {
	t.Helper()
	folder := memory{}
	take := func(to string, read func(string) ([]byte, error), name string) {
		text, err := read(name)
		if err != nil {
			t.Fatal(err)
		}
		folder[to+name] = string(text)
	}
	families, err := checklists.Files.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range families {
		take("families/", checklists.Files.ReadFile, f.Name())
	}
	for _, name := range []string{"settings.toml", "prices.csv", "rates.csv"} {
		take("", pricedata.Files.ReadFile, name)
	}
	sheets, err := pricedata.Files.ReadDir("sheets")
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range sheets {
		take("", pricedata.Files.ReadFile, "sheets/"+s.Name())
	}
	return folder
}

const lastRate = "2026-11-20"

// opened is a desk with the demonstration folder.
func opened(t testing.TB) *desk {
	t.Helper()
	d := &desk{}
	ask[bool](t, d, "open", bundle{Demonstration: true, LastRate: lastRate, Files: demonstration(t)})
	return d
}

// reply is what the page gets.
type reply[T any] struct {
	OK    T      `json:"ok"`
	Error *fault `json:"error"`
}

// call calls the desk as the page does.
func call[T any](t testing.TB, d *desk, operation string, argument any) reply[T] {
	t.Helper()
	text, ok := argument.(string)
	if !ok {
		b, err := json.Marshal(argument)
		if err != nil {
			t.Fatal(err)
		}
		text = string(b)
	}
	var r reply[T]
	if err := json.Unmarshal([]byte(d.call(operation, text)), &r); err != nil {
		t.Fatal(err)
	}
	return r
}

// ask is the answer of a call that must succeed.
func ask[T any](t testing.TB, d *desk, operation string, argument any) T {
	t.Helper()
	r := call[T](t, d, operation, argument)
	if r.Error != nil {
		t.Fatalf("%s: %s %q", operation, r.Error.Message, r.Error.Lines)
	}
	return r.OK
}

const largest = "pellworth-ce4"

func listings(t testing.TB) map[string]string {
	t.Helper()
	files, err := filepath.Glob("../../testdata/listings/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no listings: %v", err)
	}
	out := map[string]string{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		out[filepath.Base(file)] = string(text)
	}
	return out
}

// TestSameBytes: of every demonstration listing the page says, byte for byte,
// what the engine says, also after it went through the page's own form.
func TestSameBytes(t *testing.T) {
	d := opened(t)
	for name, text := range listings(t) {
		t.Run(name, func(t *testing.T) {
			want := engineJSON(t, text)
			f := ask[find](t, d, "read", text)
			if got := ask[string](t, d, "json", f); got != want {
				t.Errorf("the page differs: %s", cmp.Diff(want, got))
			}
			if got := engineJSON(t, ask[string](t, d, "toml", f)); got != want {
				t.Errorf("the listing file differs: %s", cmp.Diff(want, got))
			}
		})
	}
}

func engineJSON(t *testing.T, text string) string {
	t.Helper()
	x, diags := valuation.ReadListing("x", strings.NewReader(text))
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	a, diags := valuation.Open(demonstration(t), "", true).Appraise(x, valuation.Options{})
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	var b bytes.Buffer
	if err := a.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestListingReadsBack: a find that goes out as a listing file comes in again
// as it was.
func TestListingReadsBack(t *testing.T) {
	d := opened(t)
	for name, text := range listings(t) {
		want := ask[find](t, d, "read", text)
		if diff := cmp.Diff(want, ask[find](t, d, "read", ask[string](t, d, "toml", want))); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

// TestReadings: what a reading was taken for is told, whoever read it, and one
// that is rather a slip is marked.
func TestReadings(t *testing.T) {
	d := opened(t)
	f := find{Title: "t", Family: largest, Buy: "stall-cash"}
	for _, row := range []struct {
		reading, by, taken string
		far                bool
	}{
		{"14.05 mm", "hand", "right, 14.0 to 14.1 mm", false},
		{"13.7 mm", "seller", "below 14.0 mm, most likely oxidised (", false},
		{"40 mm", "hand", "above 14.1 mm, most likely exchanged (100%)", true},
	} {
		f.Findings = []finding{{Point: "wheels", Reading: row.reading, By: row.by}}
		v := ask[figureView](t, d, "figure", question{Find: f, Draws: 200, Here: []string{row.by}})
		if len(v.Readings) != 1 || !strings.HasPrefix(v.Readings[0].Taken, row.taken) || v.Readings[0].Far != row.far ||
			v.Readings[0].Title != "Wheels" || v.Readings[0].Point != "wheels" || v.Readings[0].Reading != row.reading {
			t.Errorf("%s: %+v", row.reading, v.Readings)
		}
	}
}

// TestFigure: the figures shown are those of the appraisal.
func TestFigure(t *testing.T) {
	d := opened(t)
	f := ask[find](t, d, "read", listings(t)["rich.toml"])
	v := ask[figureView](t, d, "figure", question{Find: f, Draws: 2000})
	var a struct {
		Draws    int
		Purchase struct {
			Stop      string  `json:"break_even_bid"`
			Landed    string  `json:"break_even_landed"`
			Careful   string  `json:"careful_bid"`
			AskLanded string  `json:"landed"`
			Loss      float64 `json:"loss_chance"`
			Currency  string
		}
	}
	full := ask[figureView](t, d, "figure", question{Find: f})
	if err := json.Unmarshal([]byte(ask[string](t, d, "json", f)), &a); err != nil {
		t.Fatal(err)
	}
	if v.Draws != 2000 || full.Draws != a.Draws || a.Draws != 20000 {
		t.Errorf("draws are %d at once, %d in full and %d in the appraisal", v.Draws, full.Draws, a.Draws)
	}
	got := []string{full.Stop.Bid, full.Stop.Landed, full.Careful.Bid, full.Ask.Landed, full.BidCurrency}
	want := []string{a.Purchase.Stop, a.Purchase.Landed, a.Purchase.Careful, a.Purchase.AskLanded, a.Purchase.Currency}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if *full.Ask.Loss != a.Purchase.Loss {
		t.Errorf("loss %v, not %v", *full.Ask.Loss, a.Purchase.Loss)
	}
}

// TestFamilyView: every point, symptom, feature and variant is there to tap.
func TestFamilyView(t *testing.T) {
	d := opened(t)
	v := ask[familyView](t, d, "family", largest)
	f, diags := valuation.Open(demonstration(t), "", true).Family(largest)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	points, states := 0, 0
	for _, a := range v.Areas {
		for _, p := range a.Points {
			points++
			states += len(p.States)
			if p.ID == "wheels" && (p.Measure == nil || p.Measure.Right != "14.0 to 14.1 mm") {
				t.Errorf("wheels are measured by %+v", p.Measure)
			}
		}
	}
	wantStates := 0
	for _, p := range f.Points {
		wantStates += len(p.States)
	}
	got := []int{points, states, len(v.Symptoms), len(v.Features), len(v.Variants)}
	want := []int{len(f.Points), wantStates, len(f.Symptoms), len(f.Features), len(f.Variants)}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if v.Areas[0].Title != "roof" || v.Areas[0].Points[0].Feature != "pantograph" {
		t.Errorf("the first point is %+v of %q", v.Areas[0].Points[0], v.Areas[0].Title)
	}
}

// TestStart: a find is appraised as of today, or as of the newest rates where
// those are too old for today and needed.
func TestStart(t *testing.T) {
	d := opened(t)
	for _, c := range []struct{ today, want string }{
		{"2026-11-18", "2026-11-18"}, // before the newest rates
		{"2026-11-30", "2026-11-30"}, // ten days after them
		{"2026-12-01", lastRate},     // eleven
		{"2031-01-01", lastRate},
	} {
		if got := ask[string](t, d, "start", startRequest{largest, "northquay", c.today}); got != c.want {
			t.Errorf("on %s a find is of %s, not %s", c.today, got, c.want)
		}
	}
}

// TestClean: text is cleaned as it is for a terminal.
func TestClean(t *testing.T) {
	d := opened(t)
	for in, want := range map[string]string{
		"":                       "",
		"Größe \u2248 火":         "Größe \u2248 火",
		"a\u202eb\u2066c\u200fd": `a\u202eb\u2066c\u200fd`,
		"a\nb\x07":               `a\nb\x07`,
	} {
		if got := ask[string](t, d, "clean", in); got != want {
			t.Errorf("%q is shown as %q, not %q", in, got, want)
		}
	}
}

func TestYears(t *testing.T) {
	for _, c := range []struct {
		from, to int
		want     string
	}{{0, 0, ""}, {1962, 0, "from 1962"}, {0, 1970, "to 1970"}, {1966, 1966, "1966"}, {1962, 1968, "1962–1968"}} {
		if got := years(c.from, c.to); got != c.want {
			t.Errorf("years(%d, %d) = %q, not %q", c.from, c.to, got, c.want)
		}
	}
}
