package charges_test

import (
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// One charge "fee" on the hammer price, and what it is at some prices. The
// figures are small enough to check by hand.
func TestCharge(t *testing.T) {
	const on = `on = ["hammer"]; `
	tests := []struct {
		name, charge string
		fees         string // price:fee …
	}{
		{"rate", on + `rate = "25%"`, "100:25 0.02:0.01 0.01:0"},
		{"fraction", on + `rate = "1/6"`, "500:83.33 100:16.67"},
		{"rate of nothing", on + `rate = "0%"`, "100:0"},
		{"amount", `amount = "9.50"`, "0.01:9.50 100:9.50"},
		{"amount rounded", `amount = "9.50"; round_to = "1"`, "100:10"},

		{"slices", on + `tiers = [{ up_to = "50", rate = "20%" }, { up_to = "100", rate = "10%" }, { rate = "5%" }]`,
			"10:2 50:10 50.01:10 50.10:10.01 100:15 200:20"},
		{"whole", on + `tiering = "whole"; tiers = [{ up_to = "50", rate = "20%" }, { up_to = "100", rate = "10%" }, { rate = "50%" }]`,
			"10:2 50:10 50.01:5 100:10 100.01:50.01"}, // 5.001, then 50.005
		{"slices above a free one", on + `tiers = [{ up_to = "125", rate = "0%" }, { rate = "2%" }]`, "125:0 126:0.02"},

		{"min", on + `rate = "10%"; min = "2"`, "1:2 20:2 20.10:2.01"},
		{"max", on + `rate = "10%"; max = "2"`, "1:0.10 20:2 2000:2"},
		{"min and max alike", on + `rate = "10%"; min = "2"; max = "2"`, "1:2 2000:2"},
		{"min of nothing", on + `rate = "10%"; allowance = "40"; min = "2"`, "30:2 50:2 70:3"},
		{"min after rounding", on + `rate = "10%"; min = "2.5"; round_to = "1"`, "24:2.5 26:3"},

		{"allowance", on + `rate = "10%"; allowance = "40"`, "30:0 40:0 41:0.10 140:10"},
		{"allowance before tiers", on + `allowance = "40"; tiers = [{ up_to = "10", rate = "10%" }, { rate = "20%" }]`, "50:1 60:3"},
		{"waiver", on + `rate = "10%"; waived_up_to = "5"`, "49.90:0 50:0 50.04:0 50.05:5.01"}, // 5.004 is 5, 5.005 is 5.01
		{"waiver of a min", on + `rate = "10%"; min = "3"; waived_up_to = "3"`, "10:0 30:0 31:3.10"},

		{"above", on + `rate = "10%"; when = { on = ["hammer"], above = "150" }`, "150:0 150.01:15"},
		{"up to", on + `rate = "10%"; when = { on = ["hammer"], up_to = "150" }`, "150:15 150.01:0"},
		{"between", on + `rate = "10%"; when = { on = ["hammer"], above = "100", up_to = "150" }`, "100:0 101:10.10 150:15 151:0"},
		{"no min where when fails", on + `rate = "10%"; min = "5"; when = { on = ["hammer"], above = "100" }`, "100:0 101:10.10"},
		{"amount when", `amount = "12"; when = { on = ["hammer"], above = "15" }`, "15:0 16:12"},

		{"half-up", on + `rate = "50%"`, "0.01:0.01 0.03:0.02 0.05:0.03"},
		{"half-even", on + `rate = "50%"; rounding = "half-even"`, "0.01:0 0.03:0.02 0.05:0.02"},
		{"down", on + `rate = "50%"; rounding = "down"`, "0.01:0 0.03:0.01 0.05:0.02"},
		{"step of five", on + `rate = "10%"; round_to = "0.05"`, "1.20:0.10 1.25:0.15 1.75:0.20"},
		{"step of a hundred down", on + `rate = "10%"; round_to = "100"; rounding = "down"`, "999:0 1000:100 1999:100"},
		{"finer than the minor unit", on + `rate = "1/3"; round_to = "0.0001"`, "1:0.3333"},
	}
	for _, test := range tests {
		s := read(t, "buy", "GBP", "", `id = "fee"; `+test.charge)
		for pair := range strings.FieldsSeq(test.fees) {
			price, fee, _ := strings.Cut(pair, ":")
			if got := apply(s, price); !got["fee"].Equal(dec(fee)) || !got["total"].Equal(dec(price).Add(dec(fee))) {
				t.Errorf("%s: %s on %s, total %s, want %s", test.name, got["fee"], price, got["total"], fee)
			}
		}
	}
}

func TestBill(t *testing.T) {
	s := read(t, "buy", "GBP", "",
		`id = "premium"; title = "Buyer's premium"; on = ["hammer"]; rate = "25%"`,
		`id = "value"; on = ["hammer", "premium"]; rate = "100%"; memo = true`,
		`id = "duty"; on = ["value"]; rate = "0%"`,
	)
	want := charges.Bill{
		Lines: []charges.Line{
			{ID: "hammer", Title: "Hammer price", Amount: dec("100")},
			{ID: "premium", Title: "Buyer's premium", Amount: dec("25")},
			{ID: "value", Title: "value", Amount: dec("125"), Memo: true},
			{ID: "duty", Title: "duty", Amount: dec("0")},
		},
		Total: dec("125"),
	}
	if diff := cmp.Diff(want, s.Apply(dec("100"))); diff != "" {
		t.Error("bill differs (-want +got)\n" + diff)
	}
}

func TestSale(t *testing.T) {
	s := read(t, "sell", "EUR", "", `id = "fee"; on = ["price"]; rate = "10%"; min = "1"`, `id = "post"; amount = "5.50"`)
	if s.First() != "price" {
		t.Errorf("the first line is %s", s.First())
	}
	b := s.Apply(dec("50"))
	if b.Lines[0].ID != "price" || b.Lines[0].Title != "Price" || !b.Total.Equal(dec("39.50")) {
		t.Errorf("got %v", b)
	}
	if got := s.Apply(dec("2")).Total; !got.Equal(dec("-4.50")) {
		t.Errorf("charges above the price leave %s", got)
	}
	if got := s.Landed(dec("2"), charges.Conversion{Rate: money.WholeRatio(dec("1.5")), Home: "GBP"}); !got.Equal(dec("-6.75")) {
		t.Errorf("a loss converted is %s", got)
	}
	if bid, ok := s.Highest(dec("1000"), home("EUR")); ok {
		t.Errorf("a sale has a highest bid of %s", bid)
	}
}

func TestLanded(t *testing.T) {
	fee := `id = "fee"; on = ["hammer"]; rate = "20%"`
	margin := `convert = { margin = "1.5%" }`
	tests := []struct {
		name, currency, head string
		rate, home           string
		bid, want            string
	}{
		{"same currency", "EUR", "", "2", "EUR", "100", "120"},
		{"no margin at home", "EUR", margin, "2", "EUR", "100", "120"},
		{"a rate", "GBP", "", "1.17", "EUR", "100", "140.40"},
		{"rate and margin", "GBP", margin, "1.17", "EUR", "100", "142.51"}, // 142.506
		{"rounded by the sheet", "GBP", margin + "\nrounding = \"down\"", "1.17", "EUR", "100", "142.50"},
		{"half-even", "GBP", `rounding = "half-even"`, "1.0104166666", "JPY", "1.25", "2"}, // 1.5156
		{"to whole yen", "GBP", "", "190.125", "JPY", "100", "22815"},
		{"to thousandths", "GBP", "", "0.412345", "KWD", "100", "49.481"}, // 49.4814
	}
	for _, test := range tests {
		s := read(t, "buy", test.currency, test.head, fee)
		c := charges.Conversion{Rate: money.WholeRatio(dec(test.rate)), Home: money.Currency(test.home)}
		if got := s.Landed(dec(test.bid), c); !got.Equal(dec(test.want)) {
			t.Errorf("%s: got %s, want %s", test.name, got, test.want)
		}
	}
}

func TestValidOn(t *testing.T) {
	day := func(text string) time.Time { d, _ := time.Parse(time.DateOnly, text); return d }
	closed := read(t, "buy", "EUR", `valid = [2026-07-01, 2028-06-30]`)
	open := read(t, "buy", "EUR", "")
	for text, want := range map[string]bool{
		"2026-06-30": false, "2026-07-01": true, "2027-01-01": true, "2028-06-30": true, "2028-07-01": false,
	} {
		if got := closed.ValidOn(day(text)); got != want {
			t.Errorf("%s: valid %v", text, got)
		}
		if !open.ValidOn(day(text)) {
			t.Errorf("%s: a sheet without dates is not valid", text)
		}
	}
	// The hour and the zone do not matter: it is the day that was written.
	late := time.Date(2028, 6, 30, 23, 30, 0, 0, time.FixedZone("west", -8*3600))
	if !closed.ValidOn(late) {
		t.Error("the last day ends before its last hour")
	}
}

func TestOnLadder(t *testing.T) {
	plain := read(t, "buy", "GBP", "")
	// Steps of 2 below 50, then from 50; the step of 30 is longer than 10.
	steps := read(t, "buy", "GBP", `increment = [ { from = "0", step = "2" }, { from = "50", step = "30" }, { from = "60", step = "5" } ]`)
	// The first bid would be 10, but a new stretch starts at 5.
	skipped := read(t, "buy", "GBP", `increment = [ { from = "0", step = "10" }, { from = "5", step = "7.5" } ]`)
	tests := []struct {
		s    *charges.Sheet
		bids string
		want bool
	}{
		{plain, "0.01 0.02 12.34 1000000", true},
		{plain, "0 -1 -0.01 0.005 12.345", false},
		{steps, "2 4 48 50 60 65 70 1000", true},
		{steps, "0 -2 1 3 2.5 49 51 52 58 80.01 61", false},
		{skipped, "5 12.5 20", true},
		{skipped, "0 10 4 7.5", false},
	}
	for _, test := range tests {
		for bid := range strings.FieldsSeq(test.bids) {
			if got := test.s.OnLadder(dec(bid)); got != test.want {
				t.Errorf("%v: %s on the ladder: %v", test.s.Increment, bid, got)
			}
		}
	}
}

// The highest bid where the ladder is what decides.
func TestHighestOnLadder(t *testing.T) {
	plain := read(t, "buy", "GBP", "")
	steps := read(t, "buy", "GBP", `increment = [ { from = "0", step = "2" }, { from = "50", step = "30" }, { from = "60", step = "5" } ]`)
	skipped := read(t, "buy", "GBP", `increment = [ { from = "0", step = "10" }, { from = "5", step = "7.5" } ]`)
	tests := []struct {
		s            *charges.Sheet
		budget, want string
	}{
		{plain, "-1", "none"}, {plain, "-0.001", "none"}, {plain, "0", "none"}, {plain, "0.009", "none"},
		{plain, "0.01", "0.01"}, {plain, "12.349", "12.34"}, {plain, "1000000", "1000000"},
		{plain, "123456789012345678901234567890.12", "46116860184273879.04"}, // the 2⁶²nd cent
		{steps, "1.99", "none"}, {steps, "2", "2"}, {steps, "49.99", "48"}, {steps, "50", "50"},
		{steps, "59.99", "50"}, {steps, "60", "60"}, {steps, "64.99", "60"}, {steps, "1003", "1000"},
		{skipped, "4.99", "none"}, {skipped, "12.49", "5"}, {skipped, "12.5", "12.5"},
	}
	for _, test := range tests {
		bid, ok := test.s.Highest(dec(test.budget), home("GBP"))
		got := "none"
		if ok {
			got = bid.String()
		}
		if got != test.want {
			t.Errorf("%v within %s: got %s, want %s", test.s.Increment, test.budget, got, test.want)
		}
	}
}

func TestHighestWithoutRate(t *testing.T) {
	s := read(t, "buy", "GBP", "")
	for _, rate := range []money.Ratio{{}, money.WholeRatio(dec("-1"))} {
		if bid, ok := s.Highest(dec("100"), charges.Conversion{Rate: rate, Home: "EUR"}); ok {
			t.Errorf("at a rate of %s a bid of %s", rate, bid)
		}
	}
}

// A sheet may be used by many goroutines at once: run with -race.
func TestSheetIsShared(t *testing.T) {
	s := read(t, "buy", "GBP", "", `id = "premium"; on = ["hammer"]; tiering = "whole"; tiers = [{ up_to = "500", rate = "25%" }, { rate = "20%" }]`)
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			for range 50 {
				if bid, ok := s.Highest(dec("610"), home("GBP")); !ok || !bid.Equal(dec("508.33")) {
					t.Errorf("got %s %v", bid, ok)
				}
				s.Apply(dec("100"))
			}
		})
	}
	group.Wait()
}

// sawtooth is a sheet on which a base falls as often as it may: each pair of
// memo lines doubles the number of teeth. The last line is the one paid, and
// says that no bid is worth it.
func sawtooth(pairs int) string {
	text := "format = 1\nid = \"saw\"\nside = \"buy\"\ncurrency = \"GBP\"\n"
	on := `["hammer"]`
	for i := range pairs {
		text += fmt.Sprintf(`
[[charge]]
id = "low-%[1]d"
on = %[2]s
rate = "200%%"
memo = true
when = { on = %[2]s, up_to = "50000" }
[[charge]]
id = "high-%[1]d"
on = %[2]s
rate = "200%%"
allowance = "50000"
memo = true
when = { on = %[2]s, above = "50000" }
`, i, on)
		on = fmt.Sprintf(`["low-%d", "high-%d"]`, i, i)
	}
	return text + fmt.Sprintf("[[charge]]\nid = \"last\"\non = %s\nrate = \"100%%\"\nmin = \"200000\"\n", on)
}

func TestReadLimits(t *testing.T) {
	many := func(n int, entry string) string { return strings.TrimSuffix(strings.Repeat(entry+", ", n), ", ") }
	head := "format = 1\nid = \"example\"\nside = \"buy\"\ncurrency = \"GBP\"\n"
	fee := "[[charge]]\nid = \"fee\"\non = [\"hammer\"]\n"
	tests := []struct{ text, want string }{
		{head + strings.Repeat("[[charge]]\n", 101), "5:1: charge: 101 entries: expected at most 100"},
		{head + "increment = [" + many(101, `{ from = "0", step = "1" }`) + "]", "5:13: increment: 101 entries: expected at most 100"},
		{head + fee + "tiers = [" + many(101, `{ rate = "1%" }`) + "]", "8:9: charge[1].tiers: 101 entries: expected at most 100"},
		{sawtooth(12), ""},
		{sawtooth(13), "6:1: charge: the charges can fall in too many combinations as the bid rises: " +
			"expected fewer tiers that fall and up_to bounds: at most 4096 combinations"},
	}
	for _, test := range tests {
		doc := diag.ReadDocument("sheet.toml", strings.NewReader(test.text))
		charges.Read(doc)
		if got := messages(doc.Diagnostics()); !strings.Contains("\n"+got, "\n"+test.want) || test.want == "" && got != "" {
			t.Errorf("%.200s\ngot %s\nwant %s", test.text, got, test.want)
		}
	}
}

func TestReadBroken(t *testing.T) {
	for _, text := range []string{"", "x = = 1", "\x00", "[charge]\n", "charge = 1", "charge = [1, 2]"} {
		doc := diag.ReadDocument("sheet.toml", strings.NewReader(text))
		if s := charges.Read(doc); s == nil || !doc.Diagnostics().HasErrors() {
			t.Errorf("%q: sheet %v, diagnostics %v", text, s, doc.Diagnostics())
		}
	}
}

// As many falls as there may be, and all of them have to be looked at.
func BenchmarkHighestSawtooth(b *testing.B) {
	doc := diag.ReadDocument("sheet.toml", strings.NewReader(sawtooth(12)))
	s := charges.Read(doc)
	for b.Loop() {
		if _, ok := s.Highest(decimal.New(100_000, 0), home("GBP")); ok {
			b.Fatal("a bid fits")
		}
	}
}
