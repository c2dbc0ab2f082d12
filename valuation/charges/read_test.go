package charges_test

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// complete has every key a sheet may have.
const complete = `format = 1
id = "northquay"
title = "Northquay Rooms, bidding online"
side = "buy"
currency = "GBP"
rounding = "half-even"
convert = { margin = "1.5%" }
increment = [ { from = "0", step = "1" }, { from = "50", step = "5" } ]
valid = [2026-07-01, 2028-06-30]

[[charge]]
id = "premium"
title = "Buyer's premium"
on = ["hammer"]
tiers = [ { up_to = "500", rate = "25%" }, { rate = "20%" } ]
tiering = "whole"
min = "2"
max = "900"
[[charge]]
id = "value"
on = ["hammer", "premium"]
rate = "1/6"
allowance = "40"
waived_up_to = "5"
memo = true
rounding = "down"
round_to = "0.05"
when = { on = ["hammer"], above = "150", up_to = "630" }
[[charge]]
id = "post"
title = "Postage"
amount = "9.50"
`

func TestReadComplete(t *testing.T) {
	pointer := func(text string) *decimal.Decimal { d := dec(text); return &d }
	whole := func(text string) money.Ratio { return money.WholeRatio(dec(text)) }
	want := &charges.Sheet{
		ID: "northquay", Title: "Northquay Rooms, bidding online", Side: charges.Buy,
		Currency: "GBP", Rounding: money.HalfEven, Margin: whole("0.015"),
		Increment: []charges.Rung{{From: dec("0"), Step: dec("1")}, {From: dec("50"), Step: dec("5")}},
		Charges: []charges.Charge{
			{
				ID: "premium", Title: "Buyer's premium", On: []int{0}, Whole: true,
				Tiers: []charges.Tier{{UpTo: dec("500"), Bounded: true, Rate: whole("0.25")}, {Rate: whole("0.2")}},
				Min:   pointer("2"), Max: pointer("900"),
				Rounding: money.HalfEven, RoundTo: dec("0.01"),
			},
			{
				ID: "value", Title: "value", On: []int{0, 1},
				Tiers:     []charges.Tier{{Rate: money.NewRatio(dec("1"), dec("6"))}},
				Allowance: pointer("40"), WaivedUpTo: pointer("5"), Memo: true,
				Rounding: money.Down, RoundTo: dec("0.05"),
				When: &charges.When{On: []int{0}, Above: pointer("150"), UpTo: pointer("630")},
			},
			{ID: "post", Title: "Postage", Amount: pointer("9.5"), Rounding: money.HalfEven, RoundTo: dec("0.01")},
		},
		ValidFrom: time.Date(2026, 7, 1, 0, 0, 0, 0, time.UTC),
		ValidTo:   time.Date(2028, 6, 30, 0, 0, 0, 0, time.UTC),
	}
	doc := diag.ReadDocument("sheet.toml", strings.NewReader(complete))
	got := charges.Read(doc)
	if list := doc.Diagnostics(); len(list) > 0 {
		t.Fatal(list)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error("read differs (-want +got)\n" + diff)
	}
}

// What a sheet need not say.
func TestReadDefaults(t *testing.T) {
	s := read(t, "sell", "JPY", "", `id = "fee"; on = ["price"]; rate = "5%"`)
	want := &charges.Sheet{
		ID: "example", Title: "example", Side: charges.Sell, Currency: "JPY",
		Charges: []charges.Charge{{
			ID: "fee", Title: "fee", On: []int{0}, Tiers: []charges.Tier{{Rate: money.WholeRatio(dec("0.05"))}}, RoundTo: dec("1"),
		}},
	}
	if diff := cmp.Diff(want, s); diff != "" {
		t.Error("read differs (-want +got)\n" + diff)
	}
	if s := read(t, "buy", "EUR", ""); len(s.Charges) > 0 || !apply(s, "10")["total"].Equal(dec("10")) {
		t.Error("a sheet without charges is not the price alone")
	}
}

// readErrors change complete in one place, or several for several errors, and
// say what is reported, all of it.
var readErrors = []struct {
	name     string
	from, to string
	want     string
}{
	{"no format", "format = 1\n", "", `format: missing: expected format = 1`},
	{"another format", "format = 1", "format = 2", `1:10: format: found the number 2: expected the number 1`},
	{"unknown key", `max = "900"`, `maximum = "900"`, `18:1: charge[1].maximum: unknown key: expected memo, rounding, round_to, amount, rate, allowance, waived_up_to, max or when`},
	{"no side", "side = \"buy\"\n", "", `side: missing: expected "buy" or "sell"`},
	{"wrong side", `side = "buy"`, `side = "bying"`, `4:8: side: found the text "bying": expected "buy" or "sell"`},
	{"no currency", "currency = \"GBP\"\n", "", `currency: missing: expected an ISO 4217 code such as "EUR"`},
	{"unknown currency", `"GBP"`, `"GPB"`, `5:12: currency: unknown currency "GPB": expected an ISO 4217 code such as "EUR"`},
	{"wrong rounding", `"half-even"`, `"half-up-down"`, `6:12: rounding: found the text "half-up-down": expected "half-up", "half-even" or "down"`},
	{"margin without percent", `"1.5%"`, `"1.5"`, `7:22: convert.margin: "1.5" has neither % nor /: expected a rate such as "25%" or "1/6"`},
	{"convert without margin", `{ margin = "1.5%" }`, `{}`, `7:11: convert.margin: missing: expected a rate such as "25%" or "1/6"`},
	{"first increment", `from = "0"`, `from = "1"`, `8:24: increment[1].from: the lowest bids have no step: expected from = "0" in the first increment`},
	{"falling increments", `from = "50"`, `from = "0"`, `8:52: increment[2].from: the increments do not ascend: expected more than 0`},
	{"no step", `step = "5"`, ``, `8:43: increment[2].step: missing: expected an amount without its currency, such as "9.50"`},
	{"step of nothing", `step = "5"`, `step = "0"`, `8:65: increment[2].step: it is 0: expected an amount above 0`},
	{"step too fine", `step = "5"`, `step = "0.005"`, `8:65: increment[2].step: 0.005 is finer than the smallest amount of GBP: expected a multiple of 0.01`},
	{"one date", "2026-07-01, 2028-06-30", "2026-07-01", `9:9: valid: it has 1 of two dates: expected the first and the last day, such as [2026-07-01, 2028-06-30]`},
	{"dates in disorder", "2026-07-01, 2028-06-30", "2028-07-01, 2028-06-30", `9:9: valid: the last day is before the first: expected the first and the last day, such as [2026-07-01, 2028-06-30]`},
	{"dates in quotes", "2026-07-01, 2028-06-30", `"2026-07-01", "2028-06-30"`, `9:10: valid[1]: found the text "2026-07-01": expected a date such as 2026-03-14; try 2026-07-01 without quotes
9:24: valid[2]: found the text "2028-06-30": expected a date such as 2026-03-14; try 2028-06-30 without quotes`},
	{"second date no date", "2028-06-30]", "2028]", `9:22: valid[2]: found the number 2028: expected a date such as 2026-03-14`},
	{"reserved id", `id = "post"`, `id = "price"`, `30:6: charge[3].id: price is the name of the first line: expected another id`},
	{"id twice", `id = "post"`, `id = "premium"`, `30:6: charge[3].id: the id premium is used twice: expected an id of its own for each charge`},
	{"no id", `id = "post"`, ``, `29:1: charge[3].id: missing: expected a quoted string of letters, digits, - and _`},
	{"near name", `["hammer", "premium"]`, `["hammer", "premum"]`, `21:17: charge[2].on[2]: no line "premum": expected the id of a line above this one; try premium`},
	{"far name", `["hammer", "premium"]`, `["hammer", "x"]`, `21:17: charge[2].on[2]: no line "x": expected the id of a line above this one`},
	{"rests on itself", `["hammer", "premium"]`, `["hammer", "value"]`, `21:17: charge[2].on[2]: value rests on itself: expected the id of a line above this one`},
	{"forward", `["hammer", "premium"]`, `["hammer", "post"]`, `21:17: charge[2].on[2]: post comes further down: expected the id of a line above this one; try moving post up`},
	{"the other side's first line", `["hammer", "premium"]`, `["price", "premium"]`, `21:7: charge[2].on[1]: no line price on this side: expected the id of a line above this one; try hammer`},
	{"a line twice", `["hammer", "premium"]`, `["hammer", "premium", "hammer"]`, `21:28: charge[2].on[3]: hammer is named twice: expected each line once`},
	{"no line", `["hammer", "premium"]`, `[]`, `21:6: charge[2].on: it names no line: expected at least one, such as ["hammer"]`},
	{"empty name", `["hammer", "premium"]`, `["hammer", ""]`, `21:17: charge[2].on[2]: empty: expected the id of a line above`},
	{"number as name", `["hammer", "premium"]`, `["hammer", 1]`, `21:17: charge[2].on[2]: found the number 1: expected a quoted string; try "1"`},
	{"no on", "on = [\"hammer\", \"premium\"]\n", "", `19:1: charge[2].on: missing: expected the lines it rests on, such as ["hammer"]`},
	{"on is a text", `["hammer", "premium"]`, `"hammer"`, `21:6: charge[2].on: found the text "hammer": expected a list of quoted strings`},
	{"unquoted amount", `"9.50"`, `9.50`, `32:10: charge[3].amount: found the number 9.5: expected a quoted string, an amount without its currency, such as "9.50"; try "9.5"`},
	{"amount with currency", `"9.50"`, `"9.50 GBP"`, `32:10: charge[3].amount: "9.50 GBP" is not a plain number: expected an amount without its currency, such as "9.50"`},
	{"negative amount", `"9.50"`, `"-9.50"`, `32:10: charge[3].amount: an amount cannot be negative: expected an amount without its currency, such as "9.50"`},
	{"huge amount", `"9.50"`, `"1e999999999"`, `32:10: charge[3].amount: "1e999999999" is not a plain number: expected an amount without its currency, such as "9.50"`},
	{"amount too fine", `"9.50"`, `"9.505"`, `32:10: charge[3].amount: 9.505 is finer than the smallest amount of GBP: expected a multiple of 0.01`},
	{"no figure", `amount = "9.50"`, ``, `29:1: charge[3]: a charge without a figure: expected amount, rate or tiers`},
	{"two figures", `rate = "1/6"`, "rate = \"1/6\"\namount = \"1\"", `22:8: charge[2].rate: rate beside amount: expected only one of amount, rate and tiers`},
	{"rate and tiers", `min = "2"`, `rate = "2%"`, `15:9: charge[1].tiers: tiers beside rate: expected only one of amount, rate and tiers`},
	{"amount with min", `amount = "9.50"`, "amount = \"9.50\"\nmin = \"1\"\non = [\"hammer\"]", `33:7: charge[3].min: min beside amount: expected a fixed amount alone, or a rate
34:6: charge[3].on: on beside amount: expected a fixed amount alone, or a rate`},
	{"rate without percent", `"1/6"`, `"0.25"`, `22:8: charge[2].rate: "0.25" has neither % nor /: expected a rate such as "25%" or "1/6"`},
	{"unquoted rate", `"1/6"`, `0.25`, `22:8: charge[2].rate: found the number 0.25: expected a quoted string, a rate such as "25%" or "1/6"`},
	{"division by zero", `"1/6"`, `"1/0"`, `22:8: charge[2].rate: a fraction cannot have 0 below the line: expected a rate such as "25%" or "1/6"`},
	{"last tier bounded", `{ rate = "20%" }`, `{ up_to = "600", rate = "20%" }`, `15:54: charge[1].tiers[2].up_to: nothing is said about what is above: expected a last tier without up_to`},
	{"tier without bound", `{ up_to = "500", rate = "25%" }`, `{ rate = "25%" }`, `15:11: charge[1].tiers[1].up_to: missing: expected a bound: only the last tier has none`},
	{"tiers fall", `{ rate = "20%" }`, `{ up_to = "500", rate = "20%" }, { rate = "10%" }`, `15:54: charge[1].tiers[2].up_to: the tiers do not ascend: expected more than 500`},
	{"tier without rate", `{ rate = "20%" }`, `{}`, `15:44: charge[1].tiers[2].rate: missing: expected a rate such as "25%" or "1/6"`},
	{"no tiers", `[ { up_to = "500", rate = "25%" }, { rate = "20%" } ]`, `[]`, `15:9: charge[1].tiers: no tier: expected at least one, such as { rate = "20%" }`},
	{"wrong tiering", `"whole"`, `"slices"`, `16:11: charge[1].tiering: found the text "slices": expected "slice" or "whole"; try "slice"`},
	{"min above max", `min = "2"`, `min = "901"`, `18:7: charge[1].max: max is below min: expected at least 901`},
	{"max too fine", `max = "900"`, `max = "0.001"`, `18:7: charge[1].max: 0.001 is finer than the smallest amount of GBP: expected a multiple of 0.01`},
	{"round to nothing", `round_to = "0.05"`, `round_to = "0"`, `27:12: charge[2].round_to: it is 0: expected an amount above 0`},
	{"when without on", `on = ["hammer"], above`, `above`, `28:8: charge[2].when.on: missing: expected the lines that are compared, such as ["hammer"]`},
	{"when without bound", `above = "150", up_to = "630"`, ``, `28:8: charge[2].when: a condition without a bound: expected above or up_to`},
	{"when never", `above = "150"`, `above = "630"`, `28:50: charge[2].when.up_to: the condition never holds: expected more than above, which is 630`},
	{"when on itself", `when = { on = ["hammer"]`, `when = { on = ["value"]`, `28:16: charge[2].when.on[1]: value rests on itself: expected the id of a line above this one`},
	{"unknown key in when", `above = "150"`, `over = "150"`, `28:27: charge[2].when.over: unknown key: expected above`},
	{"a sale", `side = "buy"`, `side = "sell"`, `7:11: convert: a selling sheet converts nothing: expected no convert: what is received is converted at the day's rate
8:13: increment: a sale has no bids: expected no increment on a selling sheet
14:7: charge[1].on[1]: no line hammer on this side: expected the id of a line above this one; try price
21:7: charge[2].on[1]: no line hammer on this side: expected the id of a line above this one; try price
28:16: charge[2].when.on[1]: no line hammer on this side: expected the id of a line above this one; try price`},
}

func TestReadErrors(t *testing.T) {
	for _, test := range readErrors {
		text := strings.Replace(complete, test.from, test.to, 1)
		if text == complete {
			t.Errorf("%s: nothing was changed", test.name)
		}
		doc := diag.ReadDocument("sheet.toml", strings.NewReader(text))
		charges.Read(doc)
		if got := messages(doc.Diagnostics()); got != test.want {
			t.Errorf("%s: got\n%s\nwant\n%s", test.name, got, test.want)
		}
	}
}

// messages are diagnostics one a line, without the name of the file.
func messages(list diag.List) string {
	var lines []string
	for _, d := range list {
		lines = append(lines, strings.TrimLeft(strings.TrimPrefix(d.Error(), "sheet.toml:"), " "))
	}
	return strings.Join(lines, "\n")
}
