package page

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
)

// seenRow is a row of the tests.
func seenRow(date, sum string) valuation.PriceRow {
	return valuation.PriceRow{Line: 7, Day: day(date), Date: date, Kind: "sold", Grade: "good", Lacking: "box:missing",
		Price: cash(sum), Postage: cash("6.90"), Currency: "GBP", Qty: 2, Source: "saleroom", Note: "a note",
		Rate: 1.165, RateDate: date, Home: cash(sum), Paid: 1, Factor: 0.512, Sound: cash(sum), Weight: 0.5}
}

// priced is a report with rows of every kind.
func priced() *valuation.PriceReport {
	rows := []valuation.PriceRow{seenRow("2023-05-01", "180.00"), seenRow("2024-06-01", "205.00"), seenRow("2025-02-01", "2050.00"), seenRow("2026-03-01", "210.00")}
	rows[1].Kind, rows[1].Paid = "asked", 0.85
	rows[2].SetAside, rows[2].Score = valuation.AsideForPrice, 9.12
	rows[3].SetAside, rows[3].Score = valuation.AsideForPostage, 4.5
	return &valuation.PriceReport{
		Format: 1, Item: "pellworth-ce4/6043", Title: "Pellworth CE4, 6043: red", Date: "2026-03-14", Currency: "EUR", Model: true, Grade: "excellent",
		Guide: cashPtr("205.00"), SetAside: 2, Rows: rows, Demonstration: true,
		Sell:  &valuation.PriceRange{Mean: cash("204.10"), P10: cash("150.00"), P50: cash("201.00"), P90: cash("262.00")},
		Buy:   &valuation.PriceRange{Mean: cash("212.10"), P10: cash("155.00"), P50: cash("209.00"), P90: cash("270.00")},
		Trend: valuation.PriceTrend{Rate: 0.051, Low: 0.012, High: 0.09, Confidence: 0.91, Rows: 9},
		Find:  valuation.PriceFind{Sightings: 7, Days: 1413, Within: 180, Chance: 0.59, Scarce: true},
	}
}

// priceFixtures are reports of all kinds.
func priceFixtures() map[string]*valuation.PriceReport {
	bare := &valuation.PriceReport{Format: 1, Item: "tyre", Date: "2026-03-14", Currency: "EUR", Trend: valuation.PriceTrend{Lacking: 8}}
	evil := priced()
	places := 0
	spoil(reflect.ValueOf(evil), markup+controls+rightTo+pictures+" ", &places)
	evil.Date = "2026-03-14" // which is no text
	return map[string]*valuation.PriceReport{"full": priced(), "bare": bare, "hostile": evil}
}

func priceWritten(t *testing.T, r *valuation.PriceReport) string {
	t.Helper()
	var b bytes.Buffer
	if err := WritePrice(&b, r); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestGoldenPrice(t *testing.T) {
	file := filepath.Join("testdata", "price.html")
	got := priceWritten(t, priced())
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-update rewrites it):\n%s", file, diff)
	}
}

// The page of a price keeps to itself as that of an appraisal does: nothing in
// it runs, loads or sends anything, whatever the table says.
func TestPriceKeepsToItself(t *testing.T) {
	allowed := map[string]bool{"#root": true, "#text": true}
	for _, e := range elements {
		allowed[e] = true
	}
	for name, r := range priceFixtures() {
		page := priceWritten(t, r)
		root, err := parse(page)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for _, n := range root.all(func(*node) bool { return true }) {
			if !allowed[n.name] {
				t.Errorf("%s: there is a <%s>", name, n.name)
			}
			for key, value := range n.attr {
				if strings.HasPrefix(key, "on") || key == "src" || key == "style" || key == "href" && !strings.HasPrefix(value, "#") && value != "data:," {
					t.Errorf("%s: <%s> has %s=%q", name, n.name, key, value)
				}
			}
		}
		for _, r := range page {
			if r != '\n' && (unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Bidi_Control, r)) {
				t.Fatalf("%s: the page has %U", name, r)
			}
		}
		ids := map[string]bool{}
		for _, n := range root.all(func(n *node) bool { return n.attr["id"] != "" }) {
			if ids[n.attr["id"]] {
				t.Errorf("%s: the id %q is there twice", name, n.attr["id"])
			}
			ids[n.attr["id"]] = true
		}
		for _, s := range root.named("section") {
			if !ids[s.attr["aria-labelledby"]] {
				t.Errorf("%s: a section is not named", name)
			}
		}
		if again := priceWritten(t, r); again != page {
			t.Errorf("%s: two pages of one report differ", name)
		}
	}
}

// What the table says is on the page letter by letter.
func TestPriceTextStaysText(t *testing.T) {
	const poison = `</p><b id="x" onclick='y'>&lt;{{.Title}}<!--`
	r := priced()
	places := 0
	spoil(reflect.ValueOf(r), poison+" ", &places)
	r.Date = "2026-03-14"
	root, err := parse(priceWritten(t, r))
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Count(root.named("body")[0].flat(), poison); got < 20 || places < 30 {
		t.Errorf("of %d texts %d are shown as they are", places, got)
	}
}

func TestPriceSays(t *testing.T) {
	root, err := parse(priceWritten(t, priced()))
	if err != nil {
		t.Fatal(err)
	}
	said := root.named("body")[0].words()
	for _, want := range []string{
		"One brings 204.10 EUR on average; 8 in 10 between 150.00 and 262.00.", "To buy, postage in: 212.10 EUR on average",
		"A guide price of 205.00 EUR counts as a sale of today.", "4 rows, 2 set aside as too far from the others.",
		"Trend: +5.1% a year, 9 in 10 between +1.2% and +9.0%.", "to find one within 180 days: 59%, scarce.",
		"set aside: score 9.1, over 3.5", "set aside for buying, with its postage: score 4.5, over 3.5", "asked, taken as 85% of it",
		"divided by 0.512", "2 pieces", "1 GBP = 1.165 EUR on 2024-06-01", "Demonstration.", "brought to a sound one of grade excellent",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	root, err = parse(priceWritten(t, priceFixtures()["bare"]))
	if err != nil {
		t.Fatal(err)
	}
	if said := root.words(); !strings.Contains(said, "No price: there is no guide") || !strings.Contains(said, "8 rows more needed") || len(root.named("svg")) > 0 {
		t.Errorf("the bare page says %q", said)
	}
}

// A page of very many rows draws and lists the newest, and says so.
func TestPriceOfManyRows(t *testing.T) {
	r := priced()
	for range 2 * mostRows {
		r.Rows = append(r.Rows, seenRow("2026-03-02", "1.00"))
	}
	root, err := parse(priceWritten(t, r))
	if err != nil {
		t.Fatal(err)
	}
	rows, dots := len(root.named("tr"))-1, len(root.named("circle"))
	if rows != mostRows || dots != mostRows || !strings.Contains(root.words(), "1004 older rows are not shown") {
		t.Errorf("%d rows, %d dots", rows, dots)
	}
}

func TestPriceWriteErrors(t *testing.T) {
	if err := WritePrice(&bytes.Buffer{}, nil); err == nil {
		t.Error("a page of no report")
	}
}
