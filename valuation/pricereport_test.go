package valuation_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
)

// keeper opens a small data folder with one family and the rows given.
func keeper(rows ...string) *valuation.Library {
	return valuation.Open(keeperFolder(rows...), "", false)
}

func keeperFolder(rows ...string) fstest.MapFS {
	files := map[string]string{
		"settings.toml": `format = 1
currency = "EUR"
half_life_days = 365
asked_factor = 0.8
asked_weight = 0.5
find_within_days = 180
`,
		"rates.csv": "Date,GBP,JPY\n2026-03-02,0.80,160\n2026-01-02,0.75,N/A\n",
		"families/tank.toml": `format = 1
id = "tank"
title = "Tank engine"
grade = [{ id = "fair", score = 40, factor = 0.5 }, { id = "fine", score = 90, factor = 1.0 }]
[[variant]]
id = "110"
title = "black"
guide = "80 GBP"
[[variant]]
id = "118"
title = "green"
[[point]]
id = "box"
title = "Box"
weight = 1
state = [{ id = "sound" }, { id = "missing", factor = 0.8 }, { id = "burnt", factor = 0.0 }]
[[point]]
id = "tyres"
title = "Tyres"
weight = 1
state = [{ id = "sound" }, { id = "gone", needs = ["tyre"] }]
[[part]]
id = "tyre"
title = "Traction tyre"
`,
		"prices.csv": "date,item,kind,grade,lacking,price,currency,postage,qty,source,note\n" + strings.Join(rows, "\n") + "\n",
	}
	folder := fstest.MapFS{}
	for name, text := range files {
		folder[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return folder
}

// withBroken is the folder with a family beside that cannot be used.
func withBroken(rows ...string) *valuation.Library {
	folder := keeperFolder(rows...)
	folder["families/broken.toml"] = &fstest.MapFile{Data: []byte("format = 1\nid = \"broken\"\n")}
	return valuation.Open(folder, "", false)
}

func on(text string) time.Time {
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		panic(err) // a slip in a test
	}
	return day
}

// TestPriceByHand works out by hand what is done to each row. The estimate
// itself is tested where it is made.
func TestPriceByHand(t *testing.T) {
	l := keeper(
		"2026-03-03,tank/110,sold,fair,box:missing,60,GBP,8,2,fair,pair", // at the rate of the day before
		"2025-03-03,tank/110,asked,fine,,110,EUR,,1,,",
		"2026-04-01,tank/110,sold,fine,,100,EUR,,1,,",
		"2026-03-03,tank/118,sold,fine,,100,EUR,,1,,",
	)
	r, diags := l.Price("tank/110", on("2026-03-03"))
	if len(diags) > 0 {
		t.Fatal(diags)
	}
	if r.Title != "Tank engine, 110: black" || !r.Model || r.Grade != "fine" || r.Later != 1 || r.SetAside != 0 || r.Guide.Text() != "100.00" {
		t.Errorf("%+v", r)
	}
	asked, sold := r.Rows[0], r.Rows[1] // the older first
	for _, c := range []struct{ what, got, want string }{
		{"line", fmt.Sprint(sold.Line, asked.Line), "2 3"},
		{"date", sold.Date + " " + asked.Date, "2026-03-03 2025-03-03"},
		{"kind", sold.Kind + " " + asked.Kind, "sold asked"},
		{"grade and lacking", sold.Grade + " " + sold.Lacking, "fair box:missing"},
		{"price", sold.Price.Text() + " " + sold.Currency, "60.00 GBP"},
		{"postage", sold.Postage.Text() + " " + asked.Postage.Text(), "8.00 0.00"},
		{"rate", fmt.Sprint(sold.Rate, " ", sold.RateDate, " ", asked.Rate), "1.25 2026-03-02 1"}, // 1/0.80
		{"one piece", sold.Home.Text(), "37.50"},                                                  // 60/0.80/2
		{"factor", fmt.Sprintf("%.2f %.2f", sold.Factor, asked.Factor), "0.40 1.00"},              // 0.5·0.8
		{"paid of asked", fmt.Sprint(sold.Paid, asked.Paid), "1 0.8"},
		{"sound", sold.Sound.Text() + " " + asked.Sound.Text(), "93.75 88.00"}, // 37.5/0.4, 110·0.8
		{"weight", fmt.Sprintf("%.3f %.3f", sold.Weight, asked.Weight), "1.000 0.250"},
		{"texts", sold.Source + " " + sold.Note, "fair pair"},
		{"trend", fmt.Sprint(r.Trend.Rows, r.Trend.Lacking, r.Trend.Rate), "2 6 0"},
		{"sightings", fmt.Sprint(r.Find.Sightings, r.Find.Days, r.Find.Within), "2 365 180"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %s, want %s", c.what, c.got, c.want)
		}
	}
	if r.Sell == nil || !r.Sell.P10.LessThan(r.Sell.P50.Decimal) || !r.Buy.Mean.GreaterThan(r.Sell.Mean.Decimal) {
		t.Errorf("brings %v, costs %v", r.Sell, r.Buy)
	}
}

// TestPriceSetsAside: a row is set aside for its price or for its postage, with
// the score that it was set aside by, over 3.5.
func TestPriceSetsAside(t *testing.T) {
	var rows []string
	for i, price := range []string{"100", "104", "98", "101", "97", "103", "900", "99"} {
		postage := "5"
		if i == 7 {
			postage = "500"
		}
		rows = append(rows, fmt.Sprintf("2026-02-%02d,tank/110,sold,,,%s,EUR,%s,1,,", i+1, price, postage))
	}
	r, diags := keeper(rows...).Price("tank/110", on("2026-03-03"))
	if len(diags) > 0 {
		t.Fatal(diags)
	}
	if r.SetAside != 2 || r.Rows[6].SetAside != valuation.AsideForPrice || r.Rows[7].SetAside != valuation.AsideForPostage {
		t.Errorf("%d set aside: %+v", r.SetAside, r.Rows[6:])
	}
	for i, row := range r.Rows {
		if aside := row.Score > 3.5 || row.Score < -3.5; aside != (row.SetAside != "") {
			t.Errorf("row %d: score %v, set aside %q", i, row.Score, row.SetAside)
		}
	}
}

// TestPriceTrend: prices that double every year, told to a hundredth.
func TestPriceTrend(t *testing.T) {
	var rows []string
	for i := range 9 {
		day := on("2024-03-03").AddDate(0, 3*i, 0)
		years := day.Sub(on("2024-03-03")).Hours() / 24 / 365.25
		price := 10.0
		for y := years; y > 0; y -= 0.001 {
			price *= 1.00069338746 // 2^0.001, from memory
		}
		rows = append(rows, fmt.Sprintf("%s,tyre,sold,,,%.2f,EUR,,1,,", day.Format(time.DateOnly), price))
	}
	r, diags := keeper(rows...).Price("tyre", on("2026-03-03"))
	if len(diags) > 0 {
		t.Fatal(diags)
	}
	if tr := r.Trend; tr.Lacking != 0 || tr.Rate < 0.98 || tr.Rate > 1.02 || tr.Low > tr.Rate || tr.High < tr.Rate || tr.Confidence < 0.9 {
		t.Errorf("trend %+v", tr)
	}
}

// TestPriceOfLittle: a guide alone, nothing at all, rows of an item that no
// family knows.
func TestPriceOfLittle(t *testing.T) {
	l := keeper("2026-03-01,odd,sold,,,10,EUR,,1,,")
	r, diags := l.Price("tank/110", on("2026-03-03"))
	if len(diags) > 0 || r.Sell == nil || len(r.Rows) != 0 || r.Guide == nil {
		t.Errorf("a guide alone: %v, %+v", diags, r)
	}
	r, diags = l.Price("tank/118", on("2026-03-03"))
	if len(diags) > 0 || r.Sell != nil || r.Buy != nil || r.Guide != nil {
		t.Errorf("nothing at all: %v, %+v", diags, r)
	}
	r, diags = l.Price("odd", on("2026-03-03"))
	if diags.HasErrors() || len(diags) != 1 || r.Title != "" || len(r.Rows) != 1 || r.Sell == nil {
		t.Errorf("an unknown item: %v, %+v", diags, r)
	}
	r, diags = l.Price("odd", on("2026-02-01"))
	if diags.HasErrors() || r.Later != 1 || len(r.Rows) != 0 {
		t.Errorf("before its first row: %v, %+v", diags, r)
	}
}

func TestPriceRefuses(t *testing.T) {
	l := withBroken("2026-03-03,tyre,sold,,,10,JPY,,1,,", "2026-02-01,tyre,sold,,,10,JPY,,1,,", "2026-03-01,tank/118,sold,mint,,10,EUR,,1,,",
		"2026-03-01,broken/1,sold,,,10,EUR,,1,,")
	for item, want := range map[string]string{
		"tyer":       `no family knows the item "tyer": expected the id of a part, or family/variant; try tyre`,
		"tank/111":   `no family knows the item "tank/111": expected the id of a part, or family/variant; try tank/110`,
		"tanck/110":  `no family knows the item "tanck/110": expected the id of a part, or family/variant; try tank/110`,
		"":           `no family knows the item "": expected the id of a part, or family/variant`,
		"broken/1":   "families/broken.toml: ",
		"../tank/1":  `no family knows the item "../tank/1"`,
		"tyre":       "prices.csv:3: no rate of JPY for 2026-02-01",
		"tank/118":   `prices.csv:4: grade: family tank has no grade "mint"`,
		"tank/110/1": `no family knows the item "tank/110/1"`,
	} {
		r, diags := l.Price(item, on("2026-03-03"))
		if r != nil || !diags.HasErrors() || !strings.HasPrefix(diags.Err().Error(), want) {
			t.Errorf("%q: %v, want %s", item, diags.Err(), want)
		}
	}
	if r, diags := keeper("2026-03-32,tyre,sold,,,10,EUR,,1,,").Price("tyre", on("2026-03-03")); r != nil || !diags.HasErrors() {
		t.Errorf("a table that cannot be read: %+v, %v", r, diags)
	}
}

// TestPriceJSON: what is published reads back, and the same report gives the
// same bytes.
func TestPriceJSON(t *testing.T) {
	l := openDemo(t)
	item := "pellworth-ce4/6043"
	r, diags := l.Price(item, on("2026-03-14"))
	if len(diags) > 0 || !r.Demonstration {
		t.Fatal(diags)
	}
	var first, again bytes.Buffer
	if err := r.WriteJSON(&first); err != nil {
		t.Fatal(err)
	}
	r, _ = openDemo(t).Price(item, on("2026-03-14"))
	if err := r.WriteJSON(&again); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(first.String(), again.String()); diff != "" {
		t.Error(diff)
	}
	var back struct {
		Format int
		Item   string
		Sell   struct{ Mean, P10, P90 string }
		Rows   []struct {
			Date, Kind, Price, Home, Sound string
			Weight                         float64
		}
	}
	if err := json.Unmarshal(first.Bytes(), &back); err != nil {
		t.Fatal(err)
	}
	if back.Format != 1 || back.Item != item || back.Sell.Mean != r.Sell.Mean.Text() || len(back.Rows) != len(r.Rows) {
		t.Errorf("%+v", back)
	}
	compareGolden(t, "../testdata/golden/price-6043.json", first.String())
}

// TestPriceAgreesWithAppraisal: the report and an appraisal of the same day give
// one price for each part that both know.
func TestPriceAgreesWithAppraisal(t *testing.T) {
	l := openDemo(t)
	a := appraise(t, l, "../testdata/listings/rich.toml", valuation.Options{})
	n := 0
	for _, p := range a.Parts {
		r, diags := l.Price(p.ID, a.Reading.On)
		if diags.HasErrors() {
			t.Fatal(diags)
		}
		n++
		if diff := cmp.Diff(p.Price, r.Buy); diff != "" {
			t.Errorf("%s: %s", p.ID, diff)
		}
		if p.Observations != len(r.Rows) || p.SetAside != r.SetAside || p.FindChance != r.Find.Chance {
			t.Errorf("%s: %d rows, %d set aside, found %v; the appraisal has %d, %d, %v", p.ID,
				len(r.Rows), r.SetAside, r.Find.Chance, p.Observations, p.SetAside, p.FindChance)
		}
	}
	if n < 3 {
		t.Errorf("only %d parts", n)
	}
}

// BenchmarkPrice reports on one item of the built-in table, everything read
// anew.
func BenchmarkPrice(b *testing.B) {
	folder := demoFolder(b)
	for b.Loop() {
		if _, diags := valuation.Open(folder, "", true).Price("tyre", on("2026-03-14")); diags.HasErrors() {
			b.Fatal(diags)
		}
	}
}
