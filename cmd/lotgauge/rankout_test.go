package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

func TestGuarded(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"", ""}, {"plain", "plain"}, {"=1+1", "'=1+1"}, {"+1", "'+1"}, {"-1", "'-1"}, {"@SUM(A1)", "'@SUM(A1)"},
		{"\t=1", `'\t=1`}, {"\r=1", `'\r=1`}, {"\n=1", `'\n=1`}, {"a=1", "a=1"}, {"'=1", "'=1"}, {"\x1b[2J", `\x1b[2J`}, {"赤", "赤"},
	} {
		if got := guarded(test.text); got != test.want {
			t.Errorf("guarded(%q) = %q, want %q", test.text, got, test.want)
		}
	}
}

// Whatever a title holds, the CSV reads back as one row of as many cells as the
// head has, none of them a formula, and none that does anything to a terminal.
func FuzzRankingCSV(f *testing.F) {
	for _, s := range []string{"", "plain", "=1+2", "\t@x", "a,\"b\"\nc", "\xff", "\x1b[2J", "\u202egnp"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		lots := []table.Lot{{Listing: s, Title: s, Family: s, Question: &valuation.Question{Title: s}, Unpriced: []string{s}}}
		var b bytes.Buffer
		if err := writeRankingCSV(&b, lots, true); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil || len(rows) != 2 || len(rows[1]) != len(rankingHead) {
			t.Fatalf("%q: %v, %q", s, err, rows)
		}
		for _, cell := range rows[1] {
			if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) || diag.Clean(cell) != cell {
				t.Errorf("%q: cell %q", s, cell)
			}
		}
	})
}

// Numbers stay numbers, negative ones too, and what is not known is empty.
func TestRankingCSVNumbers(t *testing.T) {
	s := newScreenful()
	out := s.run(t, exitDone, "appraise", "--csv", "--data", base, lot)
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var one valuation.Appraisal
	decode(t, s.run(t, exitDone, "appraise", "--json", "--data", base, lot), &one)
	got := map[string]string{}
	for i, name := range rows[0] {
		got[name] = rows[1][i]
	}
	want := map[string]string{
		"rank": "1", "listing": lot, "title": one.Title, "verdict": "buy", "currency": "EUR", "margin_at": "ask",
		"worth": one.Worth.Mean.Text(), "ask": "35.00", "price": "35.00", "careful_bid": one.Purchase.CarefulBid.Text(),
		"break_even_bid": one.Purchase.BreakEvenBid.Text(), "unpriced": "", "demonstration": "false",
	}
	for name, value := range want {
		if got[name] != value {
			t.Errorf("%s: %q, want %q", name, got[name], value)
		}
	}
	margin := one.Worth.Mean.Sub(one.Purchase.Landed.Decimal).StringFixed(2)
	if got["margin"] != margin {
		t.Errorf("margin %s, want the worth less the landed ask, %s", got["margin"], margin)
	}
}

func decode(t *testing.T, text string, into any) {
	t.Helper()
	if err := json.Unmarshal([]byte(text), into); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
}

// The rows say what the appraisals say.
func TestRankingJSON(t *testing.T) {
	s := newScreenful()
	var rows []rankedJSON
	decode(t, s.run(t, exitDone, "appraise", "--json", "--draws", "100", "../../testdata/listings"), &rows)
	if len(rows) < 9 || !strings.HasPrefix(s.err.String(), "DEMONSTRATION") {
		t.Fatalf("%d rows, standard error %q", len(rows), &s.err)
	}
	for i, row := range rows {
		var one valuation.Appraisal
		decode(t, s.run(t, exitDone, "appraise", "--json", "--draws", "100", row.Listing), &one)
		if row.Rank != i+1 || !row.Demonstration || row.Title != one.Title || row.Verdict == "unpriced" {
			t.Errorf("row %d: %+v", i, row)
		}
		want := rankedPurchase{
			Currency: one.Purchase.Currency, Price: row.Purchase.Price, Ask: one.Purchase.Ask, LossChance: one.Purchase.LossChance,
			CarefulBid: one.Purchase.CarefulBid, BreakEvenBid: one.Purchase.BreakEvenBid,
		}
		if diff := cmp.Diff(want, row.Purchase); diff != "" {
			t.Errorf("%s (-appraisal +row):\n%s", row.Listing, diff)
		}
		if i > 0 && rows[i-1].Verdict != "walk-away" && row.Verdict != "walk-away" && row.Gain.GreaterThan(rows[i-1].Gain.Decimal) {
			t.Errorf("%s gains more than what stands above it", row.Listing)
		}
	}
}
