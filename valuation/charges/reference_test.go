package charges_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/shopspring/decimal"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// The published examples: testdata/reference/money.toml says for each where it
// comes from and what was read. An example is worked out by a charge sheet read
// from text, or by package money. Each figure of its expected and derived ones
// has to be looked at, or the test of the example fails.

// elsewhere are the examples that are not about sheets, rounding or minor
// units, with the reason.
var elsewhere = map[string]string{
	"go-text-currency":   "describes the tables of another package, which depart from ISO 4217",
	"cldr45-differences": "describes CLDR, which departs from ISO 4217",
}

// elsewhereBy are such examples by the start of their id.
var elsewhereBy = map[string]string{
	"ecb-": "reference rates: package prices",
	"fx-":  "conversion at the rate of a day: package prices",
}

// A reference is one published example.
type reference struct {
	ID, Currency, Rounding, Cap string
	Inputs                      map[string]any
	Expected, Derived, Printed  map[string]string
	Line                        []referenceLine
	Tier                        []referenceTier

	looked map[string]bool // figures that were compared
}

type referenceLine struct {
	ID, Amount, Rate, Expect string
	On                       []string
}

type referenceTier struct {
	UpTo string `toml:"up_to"`
	Rate string
}

func TestReferences(t *testing.T) {
	var file struct{ Case []*reference }
	if _, err := toml.DecodeFile("../../testdata/reference/money.toml", &file); err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, c := range file.Case {
		known[c.ID] = true
		t.Run(c.ID, func(t *testing.T) { c.run(t) })
	}
	stale := slices.Collect(maps.Keys(elsewhere))
	for id := range worked {
		stale = append(stale, id)
	}
	for _, id := range stale {
		if !known[id] {
			t.Errorf("%s: no such example", id)
		}
	}
}

// run works an example out by its own function, or by its lines or tiers.
func (c *reference) run(t *testing.T) {
	_, skip := elsewhere[c.ID]
	for start := range elsewhereBy {
		skip = skip || strings.HasPrefix(c.ID, start)
	}
	work, special := worked[c.ID]
	switch {
	case skip && special:
		t.Fatal("both worked out and said to be elsewhere")
	case skip:
		return
	case special:
	case len(c.Line) > 0:
		work = chain
	case len(c.Tier) > 0:
		work = sliced
	default:
		t.Fatal("neither worked out nor said to be elsewhere")
	}
	c.looked = map[string]bool{}
	work(t, c)
	for _, key := range slices.Sorted(maps.Keys(c.figures())) {
		if !c.looked[key] {
			t.Errorf("nobody looked at %s", key)
		}
	}
}

// figures are the expected and the derived ones.
func (c *reference) figures() map[string]string {
	all := maps.Clone(c.Expected)
	maps.Copy(all, c.Derived)
	return all
}

// want compares a figure with what was worked out.
func (c *reference) want(t *testing.T, key string, got decimal.Decimal) {
	t.Helper()
	want, ok := c.figures()[key]
	if !ok {
		t.Fatalf("no figure %s", key)
	}
	c.looked[key] = true
	if !got.Equal(dec(want)) {
		t.Errorf("%s: got %s, want %s", key, got, want)
	}
}

// in is an input as text; percent an input that is a rate, as a sheet has it.
func (c *reference) in(key string) string { return fmt.Sprint(c.Inputs[key]) }

func (c *reference) percent(key string) string { return percent(c.in(key)) }

func (c *reference) list(key string) []string {
	var out []string
	for _, v := range c.Inputs[key].([]any) {
		out = append(out, fmt.Sprint(v))
	}
	return out
}

// percent turns "0.21" into "21%".
func percent(rate string) string { return dec(rate).Shift(2).String() + "%" }

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// A sheet for tests is a head and charges, each a line of "key = value" pairs
// with ; between.
func read(t *testing.T, side, currency, head string, list ...string) *charges.Sheet {
	t.Helper()
	text := fmt.Sprintf("format = 1\nid = \"example\"\nside = %q\ncurrency = %q\n%s\n", side, currency, head)
	for _, charge := range list {
		text += "[[charge]]\n" + strings.ReplaceAll(charge, "; ", "\n") + "\n"
	}
	doc := diag.ReadDocument("example.toml", strings.NewReader(text))
	s := charges.Read(doc)
	if list := doc.Diagnostics(); len(list) > 0 {
		t.Fatalf("%v\n%s", list, text)
	}
	return s
}

// A bill for tests gives its lines by id.
type bill map[string]decimal.Decimal

func apply(s *charges.Sheet, first string) bill {
	b := s.Apply(dec(first))
	out := bill{"total": b.Total}
	for _, line := range b.Lines {
		out[line.ID] = line.Amount
	}
	return out
}

// home is a conversion within one currency.
func home(c money.Currency) charges.Conversion { return charges.Conversion{Home: c} }

// highest is the inverse within one currency.
func highest(t *testing.T, s *charges.Sheet, budget string) decimal.Decimal {
	t.Helper()
	bid, ok := s.Highest(dec(budget), home(s.Currency))
	if !ok {
		t.Fatalf("no bid within %s", budget)
	}
	return bid
}

// chain is an example given as a chain of charges: its first line is the
// hammer price.
func chain(t *testing.T, c *reference) {
	first := c.Line[0]
	named := func(on []string) string {
		on = slices.Clone(on)
		for i := range on {
			if on[i] == first.ID {
				on[i] = "hammer"
			}
		}
		return `"` + strings.Join(on, `", "`) + `"`
	}
	var list []string
	for _, l := range c.Line[1:] {
		charge := fmt.Sprintf("id = %q; ", l.ID)
		if l.Amount != "" {
			charge += fmt.Sprintf("amount = %q", l.Amount)
		} else {
			charge += fmt.Sprintf("on = [%s]; rate = %q", named(l.On), percent(l.Rate))
		}
		list = append(list, charge)
	}
	b := apply(read(t, "buy", c.Currency, fmt.Sprintf("rounding = %q", c.Rounding), list...), first.Amount)
	charged, base := decimal.Decimal{}, decimal.Decimal{}
	for _, l := range c.Line[1:] {
		if l.Expect != "" && !b[l.ID].Equal(dec(l.Expect)) {
			t.Errorf("line %s: got %s, want %s", l.ID, b[l.ID], l.Expect)
		}
		if l.Rate != "" {
			charged = charged.Add(b[l.ID])
			base = decimal.Decimal{}
		}
		for _, on := range l.On {
			base = base.Add(b[strings.ReplaceAll(named([]string{on}), `"`, "")])
		}
	}
	for key := range c.figures() {
		switch key {
		case "charges", "total_due", "duty_and_gst":
			c.want(t, key, charged)
		case "vat_base", "gst_base":
			c.want(t, key, base)
		default:
			c.want(t, key, b[key])
		}
	}
}

// sliced is an example of tiers: each slice and their total, which is capped.
func sliced(t *testing.T, c *reference) {
	var tiers []string
	for _, tier := range c.Tier {
		upTo := ""
		if tier.UpTo != "" {
			upTo = fmt.Sprintf("up_to = %q, ", tier.UpTo)
		}
		tiers = append(tiers, fmt.Sprintf("{ %srate = %q }", upTo, percent(tier.Rate)))
	}
	charge := fmt.Sprintf(`id = "fee"; on = ["hammer"]; tiers = [ %s ]`, strings.Join(tiers, ", "))
	if c.Cap != "" {
		charge += fmt.Sprintf("; max = %q", c.Cap)
	}
	s := read(t, "buy", c.Currency, fmt.Sprintf("rounding = %q", c.Rounding), charge)
	price := c.in("price")
	c.want(t, "total", apply(s, price)["fee"])
	before := decimal.Decimal{}
	for i, tier := range c.Tier {
		key, upTo := fmt.Sprintf("slice_%d", i+1), tier.UpTo
		if _, ok := c.Expected[key]; !ok {
			break
		}
		if dec(upTo).GreaterThan(dec(price)) {
			upTo = price
		}
		fee := apply(s, upTo)["fee"]
		c.want(t, key, fee.Sub(before))
		before = fee
	}
	if c.Cap != "" && !apply(s, "900000000")["fee"].Equal(dec(c.Cap)) {
		t.Errorf("a very high price is not capped at %s", c.Cap)
	}
}
