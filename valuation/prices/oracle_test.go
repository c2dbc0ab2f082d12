package prices

import (
	"bytes"
	"encoding/csv"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// This file holds the readers against plain ones, which keep decimals and times
// and copy everything: slower, and too short to be wrong.

// plainTable reads a table that has no faults, in the usual order of columns.
func plainTable(t *testing.T, text []byte) map[string][]Row {
	t.Helper()
	records, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string][]Row{}
	for i, r := range records[1:] {
		day, err := time.Parse(time.DateOnly, r[0])
		if err != nil {
			t.Fatal(err)
		}
		qty, err := strconv.Atoi(r[8])
		if err != nil {
			t.Fatal(err)
		}
		rows[r[1]] = append(rows[r[1]], Row{Line: i + 2, Day: day, Item: r[1], Asked: r[2] == "asked", Grade: r[3], Lacking: r[4],
			Price: decimal.RequireFromString(r[5]), Currency: money.Currency(r[6]), Postage: decimal.RequireFromString(r[7]),
			Qty: qty, Source: r[9], Note: r[10]})
	}
	return rows
}

// A table of 20,000 rows, more than the room first made for it, is what the
// plain reader reads, item by item and in order.
func TestReadTableAgreesWithPlain(t *testing.T) {
	text := makeTable(20_000)
	table, want := readTable(t, string(text)), plainTable(t, text)
	items, n := table.Items(), 0
	if len(items) != len(want) || !slices.IsSorted(items) {
		t.Errorf("%d items, want %d", len(items), len(want))
	}
	for _, item := range items {
		rows := table.Rows(item)
		n += len(rows)
		if diff := cmp.Diff(want[item], rows); diff != "" {
			t.Fatalf("rows of %s differ (-want +got):\n%s", item, diff)
		}
	}
	if n != 20_000 || table.Len() != n {
		t.Errorf("%d rows of %d", n, table.Len())
	}
}

// Reading takes one allocation a row, the record of encoding/csv, and little
// more: nothing is kept in strings or decimals.
func TestReadTableAllocations(t *testing.T) {
	const rows = 5000
	text := makeTable(rows)
	got := testing.AllocsPerRun(3, func() { ReadTable("prices.csv", bytes.NewReader(text)) })
	// Each of some 400 items costs its text and its place in a map as well.
	if got > rows+2*400+200 {
		t.Errorf("%v allocations for %d rows", got, rows)
	}
}

// plainRate is the rate of a currency in a record of the bank's file, by days
// walked back one by one.
func plainRate(records [][]string, currency string, on time.Time) (rate string, of time.Time) {
	column := slices.Index(records[0], currency)
	for age := range MaxRateAge + 1 {
		of = on.AddDate(0, 0, -age)
		for _, r := range records[1:] {
			if r[0] == of.Format(time.DateOnly) && r[column] != "N/A" {
				return r[column], of
			}
		}
	}
	return "", time.Time{}
}

// On every day around those of the published sample, every currency has the
// rate that the plain search finds, or none where that finds none.
func TestRateAgreesWithPlain(t *testing.T) {
	text := reference(t, "ecb-sample.csv")
	records, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rates := readRates(t, text)
	found := 0
	for _, r := range records[1:] {
		for _, shift := range []int{-1, 0, 1, 4, 10, 11} {
			day := on(r[0]).AddDate(0, 0, shift)
			for _, code := range records[0][1 : len(records[0])-1] {
				want, wantDay := plainRate(records, code, day)
				got, of, err := rates.Rate("EUR", money.Currency(code), day)
				switch {
				case (want == "") != (err != nil):
					t.Fatalf("%s on %v: %v, want %q", code, day, err, want)
				case err == nil && (got.Cmp(decimal.RequireFromString(want)) != 0 || !of.Equal(wantDay)):
					t.Fatalf("%s on %v: %v of %v, want %s of %v", code, day, got, of, want, wantDay)
				case err == nil:
					found++
				}
			}
		}
	}
	if found < 10_000 {
		t.Errorf("only %d rates were compared", found)
	}
}

// plainReading is what Use.observe makes of a price for all pieces of a row: by
// fractions, as far as there are any.
func plainReading(t *testing.T, row Row, paid decimal.Decimal, rules Rules, rates *Rates) Reading {
	t.Helper()
	rate, _, err := rates.Rate(row.Currency, rules.Home, row.Day)
	if err != nil {
		t.Fatal(err)
	}
	of, _ := rate.Rat().Float64()
	home, _ := paid.Rat().Float64()
	home *= of / float64(row.Qty)
	scale := 1.0
	if row.Asked {
		scale = rules.AskedFactor
	}
	return Reading{Home: home, Log: round(math.Log(home*scale), logPlaces)}
}

// Every row of a table, in any home currency, is read to the bit as its decimals
// say, and weighs what its age says.
func TestObserveAgreesWithPlain(t *testing.T) {
	table := readTable(t, string(makeTable(5000)))
	rates := readRates(t, string(makeRates()))
	rules := Rules{HalfLifeDays: 730, AskedFactor: 0.85, AskedWeight: 0.5, Spread: 0.25}
	until := on("2024-06-30")
	for _, home := range []money.Currency{"EUR", "GBP", "CHF"} {
		rules.Home = home
		uses := 0
		for _, item := range table.Items() {
			got, err := table.observe(Item{ID: item}, rules, rates, dayOf(until))
			if err != nil {
				t.Fatal(err)
			}
			rows := slices.DeleteFunc(table.Rows(item), func(r Row) bool { return r.Day.After(until) })
			if len(got) != len(rows) {
				t.Fatalf("%s: %d uses of %d rows", item, len(got), len(rows))
			}
			for i, row := range rows {
				want := Use{Row: row, Weight: math.Exp2(-until.Sub(row.Day).Hours() / 24 / rules.HalfLifeDays),
					Reading: plainReading(t, row, row.Price, rules, rates),
					Buying:  plainReading(t, row, row.Price.Add(row.Postage), rules, rates)}
				if row.Asked {
					want.Weight *= rules.AskedWeight
				}
				if diff := cmp.Diff(want, got[i]); diff != "" {
					t.Fatalf("%s, line %d, in %s (-want +got):\n%s", item, row.Line, home, diff)
				}
			}
			uses += len(got)
		}
		if uses < 4000 {
			t.Errorf("only %d rows were read", uses)
		}
	}
}
