package table

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"time"

	"lotgauge/valuation"
)

// priceRow is a row of the tests: sold on a day for a sum.
func priceRow(date, sum string) valuation.PriceRow {
	day, err := time.Parse(time.DateOnly, date)
	if err != nil {
		panic(err) // a slip in a test
	}
	return valuation.PriceRow{Line: 7, Day: day, Date: date, Kind: "sold", Price: money(sum), Postage: money("0.00"), Currency: "EUR", Qty: 1,
		Rate: 1, RateDate: date, Home: money(sum), Paid: 1, Factor: 1, Sound: money(sum), Weight: 0.5}
}

// modelPrice is a report with a row of every kind.
func modelPrice() *valuation.PriceReport {
	rows := []valuation.PriceRow{
		priceRow("2022-05-01", "180.00"), priceRow("2023-06-01", "205.00"), priceRow("2024-01-20", "195.00"),
		priceRow("2024-01-21", "196.00"), priceRow("2025-02-01", "2050.00"), priceRow("2026-01-31", "210.00"), priceRow("2026-03-14", "230.00"),
	}
	rows[1].Kind, rows[1].Paid, rows[1].Sound = "asked", 0.85, money("174.25")
	rows[2].Currency, rows[2].Rate, rows[2].RateDate, rows[2].Home = "GBP", 1.165, "2024-01-19", money("227.18")
	rows[2].Grade, rows[2].Lacking, rows[2].Factor, rows[2].Sound = "good", "box:missing inner-tray:missing", 0.48, money("473.29")
	rows[3].Qty, rows[3].Postage, rows[3].Source, rows[3].Note = 3, money("12.50"), "swap meet", "three in one box"
	rows[4].SetAside, rows[4].Score = valuation.AsideForPrice, 9.12
	rows[5].SetAside, rows[5].Score = valuation.AsideForPostage, 4.5
	return &valuation.PriceReport{
		Format: 1, Item: "pellworth-ce4/6043", Title: "Pellworth CE4, 6043: red, late roof", Date: "2026-03-14", Currency: "EUR",
		Model: true, Grade: "excellent", Guide: cash("205.00"), SetAside: 2, Later: 1, Rows: rows,
		Sell:  &valuation.PriceRange{Mean: money("204.10"), P10: money("150.00"), P50: money("201.00"), P90: money("262.00")},
		Buy:   &valuation.PriceRange{Mean: money("212.10"), P10: money("155.00"), P50: money("209.00"), P90: money("270.00")},
		Trend: valuation.PriceTrend{Rate: 0.051, Low: 0.012, High: 0.09, Confidence: 0.91, Rows: 9},
		Find:  valuation.PriceFind{Sightings: 7, Days: 1413, Within: 180, Chance: 0.59},
	}
}

// priceReports are reports of all kinds.
func priceReports() map[string]func() *valuation.PriceReport {
	part := func() *valuation.PriceReport {
		r := modelPrice()
		r.Model, r.Grade, r.Item, r.Title, r.Guide, r.SetAside, r.Later = false, "", "tyre", "Traction tyre", nil, 0, 0
		r.Rows = []valuation.PriceRow{priceRow("2026-03-01", "0.95")}
		r.Sell = &valuation.PriceRange{Mean: money("0.97"), P10: money("0.60"), P50: money("0.95"), P90: money("1.40")}
		r.Buy = r.Sell
		r.Trend = valuation.PriceTrend{Rows: 1, Lacking: 7}
		r.Find = valuation.PriceFind{Sightings: 1, Days: 365, Within: 180, Chance: 0.45, Scarce: true}
		return r
	}
	return map[string]func() *valuation.PriceReport{
		"price-model": modelPrice,
		"price-part":  part,
		"price-guide": func() *valuation.PriceReport {
			r := part()
			r.Rows, r.Guide, r.Demonstration = nil, cash("1.00"), true
			r.Trend, r.Find.Sightings = valuation.PriceTrend{Lacking: 8}, 0
			return r
		},
		"price-none": func() *valuation.PriceReport {
			r := part()
			r.Rows, r.Sell, r.Buy = nil, nil, nil
			return r
		},
		"price-hostile": func() *valuation.PriceReport {
			r := modelPrice()
			evil := "\x1b[2J\u202e" + strings.Repeat("unbroken", 30) + "赤い電気機関車\n=1+1"
			r.Item, r.Title, r.Grade = evil, evil, evil
			for i := range r.Rows {
				x := &r.Rows[i]
				x.Grade, x.Lacking, x.Source, x.Note, x.Kind = evil, evil, evil, evil, "asked"
				x.Price, x.Home, x.Sound = money("123456789012345.99"), money("123456789012345.99"), money("123456789012345.99")
			}
			return r
		},
		"price-many": func() *valuation.PriceReport {
			r := modelPrice()
			r.Rows = nil
			for i := range 60 {
				r.Rows = append(r.Rows, priceRow(time.Date(2021, 1, 1+i*20, 0, 0, 0, 0, time.UTC).Format(time.DateOnly), fmt.Sprintf("%d.00", 150+i*i%70)))
			}
			return r
		},
	}
}

// pricePrintouts are the ways in which prices are printed.
func pricePrintouts() map[string]func(io.Writer, Options) error {
	all := map[string]func(io.Writer, Options) error{}
	for name, report := range priceReports() {
		all[name] = func(w io.Writer, o Options) error { return Price(w, report(), o) }
		all[name+" in full"] = func(w io.Writer, o Options) error {
			o.Full = true
			return Price(w, report(), o)
		}
	}
	on := time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)
	due := []valuation.DuePrice{
		{Item: "ce4-pantograph-black", Title: "Pantograph, black", Unpriced: true, Gain: money("0.00"), Listings: 2},
		{Item: "pellworth-ce4/6043", Title: "red, late roof", Gain: money("12.30"), Listings: 3, Rows: 7, Newest: on.AddDate(0, 0, -1)},
		{Item: "tyre", Title: "tyre", Gain: money("0.05"), Listings: 1, Rows: 1, Newest: on.AddDate(-2, 0, 0)},
		{Item: "brush-pair", Title: "Brushes", Gain: money("0.00"), Listings: 1, Rows: 1, Newest: on},
	}
	all["due"] = func(w io.Writer, o Options) error { return Due(w, due, "EUR", 3, on, true, o) }
	all["due-none"] = func(w io.Writer, o Options) error { return Due(w, due[3:], "EUR", 1, on, false, o) }
	all["due-many"] = func(w io.Writer, o Options) error {
		return Due(w, slices.Concat(slices.Repeat(due[:3], 9), due[3:]), "EUR", 30, on, false, o)
	}
	fit := &valuation.FamilyFit{Family: "pellworth-ce4", On: on, Base: "good", Rows: 40, SetAside: 2, Freedom: 31, Spread: 0.083, Factors: []valuation.FittedFactor{
		{Kind: "grade", ID: "fair", Title: "grade fair", Rows: 12, File: 0.45, Known: true, Fitted: 0.478, Low: 0.44, High: 0.52},
		{Kind: "grade", ID: "good", Title: "grade good", Rows: 20, File: 0.64, Known: true, Fitted: 0.64, Low: 0.64, High: 0.64},
		{Kind: "grade", ID: "excellent", Title: "grade excellent", Rows: 3, File: 1, Known: true, Fitted: 0.86, Low: 0.75, High: 0.98},
		{Kind: "lacking", ID: "box:missing", Title: "box: missing", Rows: 11, File: 0.8, Known: true, Fitted: 0.75, Low: 0.68, High: 0.82},
		{Kind: "lacking", ID: "paint:repainted", Title: "original paint or repaint: repainted", Rows: 1, File: 0.9, Alias: []string{"box: missing", "all rows"}},
		{Kind: "asked", ID: "asked", Title: "asked, to what is paid", Rows: 6, File: 0.85, Known: true, Fitted: 0.84, Low: 0.76, High: 0.93},
	}}
	all["fit"] = func(w io.Writer, o Options) error { return Fit(w, fit, true, o) }
	all["fit-nothing"] = func(w io.Writer, o Options) error {
		return Fit(w, &valuation.FamilyFit{Family: "t", On: on, Base: "fine", Rows: 1, Factors: []valuation.FittedFactor{{Kind: "grade", ID: "fine", Title: "grade fine", File: 1, Rows: 1}}}, false, o)
	}
	rows := []SeenRow{
		{Line: 4, Date: "2026-02-14", Item: "pellworth-ce4/6043", Kind: "sold", Grade: "good", Lacking: "box:missing", Price: "1034.50", Currency: "EUR", Postage: "6.90", Qty: 1, Source: "hall", Note: "\x1b[2J=1+1"},
		{Line: 1005, Date: "2026-02-15", Item: "tyre", Kind: "asked", Price: "500", Currency: "JPY", Qty: 20},
	}
	all["seen"] = func(w io.Writer, o Options) error { return SeenRows(w, rows, o) }
	all["paragraph"] = func(w io.Writer, o Options) error {
		return Paragraph(w, strings.Repeat("some words \x1b ", 30)+strings.Repeat("unbroken", 30), o)
	}
	return all
}

func TestGoldenPrices(t *testing.T) {
	all := pricePrintouts()
	for _, name := range []string{"price-model", "price-part", "price-guide", "price-none", "price-hostile", "price-many", "due", "due-none", "fit", "seen"} {
		golden(t, name, all[name])
	}
}

// Every line of every printout fits, at any width.
func TestEveryPriceLine(t *testing.T) {
	for name, print := range pricePrintouts() {
		for columns := MinWidth; columns <= 140; columns += 3 {
			for _, colour := range []bool{false, true} {
				o := Options{Width: columns, Colour: colour}
				var b bytes.Buffer
				if err := print(&b, o); err != nil {
					t.Fatal(err)
				}
				for line := range strings.SplitSeq(b.String(), "\n") {
					checkLine(t, o, line)
				}
				if t.Failed() {
					t.Fatalf("%s, %s", name, o.name())
				}
			}
		}
	}
}

// A plot has a mark for every row, or a number for several; the time runs from
// left to right and the price from below to above.
func TestPlotHasEveryRow(t *testing.T) {
	for name, report := range priceReports() {
		r := report()
		if len(r.Rows) == 0 {
			continue
		}
		p := newPrinter(Options{Width: 100})
		p.plot(r)
		marks := 0
		for line := range strings.SplitSeq(p.out.String(), "\n") {
			_, plot, ok := strings.Cut(line, "|")
			if !ok || strings.Contains(line, "the estimate") {
				continue
			}
			for _, m := range strings.TrimRight(plot, "|= ") {
				switch {
				case m == soldMark, m == askedMark, m == asideMark:
					marks++
				case m >= '2' && m <= '9':
					marks += int(m - '0')
				}
			}
		}
		if name != "price-hostile" && marks != len(r.Rows) {
			t.Errorf("%s: %d marks for %d rows:\n%s", name, marks, len(r.Rows), p.out.String())
		}
	}
}

func TestCanvasCounts(t *testing.T) {
	c := newCanvas(1, 1)
	for _, want := range "o23456789##" {
		c.mark(0, 0, soldMark)
		if c[0][0] != want {
			t.Fatalf("the mark is %c, want %c", c[0][0], want)
		}
	}
}

func TestPriceScale(t *testing.T) {
	s := priceScale{100, 200}
	for price, want := range map[float64]int{100: plotHeight - 1, 200: 0, 150: plotHeight / 2, 5: plotHeight - 1, 1e18: 0} {
		if got := s.row(price); got != want {
			t.Errorf("%v is in row %d, want %d", price, got, want)
		}
	}
	for _, s := range []priceScale{{0, 0.01}, {0.9, 1.2}, {149, 262}, {1, 1e15}, {1e15, 1e15 + 1}, {19.99, 20.01}} {
		ticks := s.ticks()
		if len(ticks) < 1 || len(ticks) > 5 {
			t.Errorf("%v has the ticks %v", s, ticks)
		}
		for row := range ticks {
			if row < 0 || row >= plotHeight {
				t.Errorf("%v has a tick in row %d", s, row)
			}
		}
	}
}

func TestAge(t *testing.T) {
	on := time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)
	for days, want := range map[int]string{0: "0 days", 1: "1 day", 2: "2 days", 59: "59 days", 60: "2 months", 365: "12 months", -3: "0 days"} {
		if got := age(on.AddDate(0, 0, -days), on); got != want {
			t.Errorf("%d days ago: %s, want %s", days, got, want)
		}
	}
	if got := age(time.Time{}, on); got != "-" {
		t.Errorf("never: %s", got)
	}
}
