package valuation_test

import (
	"math"
	"testing"
	"testing/fstest"
	"time"

	"lotgauge/valuation"
)

// aDay is a day for listings without one.
var aDay = time.Date(2026, 5, 9, 0, 0, 0, 0, time.UTC)

// bench is a folder with one family, whose text is given from the first point
// on. A sound one brings 100 EUR and nothing is charged, so that worths can be
// reckoned by hand; a minute costs 10 cents.
func bench(t testing.TB, points string) *valuation.Library {
	t.Helper()
	const sell = "format = 1\nid = \"free\"\ntitle = \"Nothing charged\"\nside = \"sell\"\ncurrency = \"EUR\"\n"
	const buy = "format = 1\nid = \"cash\"\ntitle = \"Cash\"\nside = \"buy\"\ncurrency = \"EUR\"\n"
	folder := fstest.MapFS{}
	for name, text := range map[string]string{
		"settings.toml": "format = 1\ncurrency = \"EUR\"\nstall_rate = \"6 EUR\"\nspread = 0.001\n" +
			"draws = 20000\nbuy = \"cash\"\nsell = \"free\"\nsell_parts = \"free\"\n",
		"prices.csv":       "date,item,kind,grade,lacking,price,currency,postage,qty,source,note\n",
		"sheets/cash.toml": buy,
		"sheets/free.toml": sell,
		"families/f.toml": `format = 1
id = "f"
title = "An invented one"
grade = [{ id = "any", score = 50, factor = 1 }]
` + points,
	} {
		folder[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return valuation.Open(folder, "", false)
}

// only is a family without features.
const only = `
variant = [{ id = "v", guide = "100 EUR" }]
`

// twoFaults is a family of two points, each faulty as often as not; a fault
// costs 30 EUR to put right, and nobody buys it as it is.
const twoFaults = only + `
[[point]]
id = "left"
minutes = 1
state = [{ id = "sound" }, { id = "faulty", factor = 0.1, spend = "30 EUR" }]
[[point]]
id = "right"
title = "The right one"
minutes = 2
state = [{ id = "sound" }, { id = "faulty", factor = 0.1, spend = "30 EUR" }]
`

// inspect starts an inspection of a find of the bench's family at an ask.
func inspect(t testing.TB, l *valuation.Library, ask string, o valuation.InspectOptions) *valuation.Inspection {
	t.Helper()
	x, diags := l.NewFind("f", ask, "", aDay)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	return inspectListing(t, l, x, o)
}

func inspectListing(t testing.TB, l *valuation.Library, x *valuation.Listing, o valuation.InspectOptions) *valuation.Inspection {
	t.Helper()
	n, diags := l.Inspect(x, o)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	return n
}

// answer answers the check of a key.
func answer(t testing.TB, n *valuation.Inspection, key, with string) {
	t.Helper()
	c, ok := n.Check(key)
	if !ok {
		t.Fatalf("no check %s", key)
	}
	if diags := n.Answer(c, with); diags.HasErrors() {
		t.Fatalf("%s %s: %v", key, with, diags)
	}
}

// next is the key of the next check, and why there is none.
func next(n *valuation.Inspection) (string, valuation.Outlook) {
	c, ok := n.Next()
	if !ok {
		return "", n.Outlook()
	}
	return c.Key(), n.Outlook()
}

func amount(t testing.TB, m *valuation.Money) float64 {
	t.Helper()
	if m == nil {
		t.Fatal("no figure")
	}
	f, _ := m.Float64()
	return f
}

// near tells whether two amounts agree to the cent.
func near(a, b float64) bool { return math.Abs(a-b) <= 0.0100001 }
