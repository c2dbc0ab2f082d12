package pricedata

import (
	"testing"
	"time"

	"lotgauge/valuation/money"
	"lotgauge/valuation/prices"
)

const home = money.Currency("EUR")

func readTable(t *testing.T) *prices.Table {
	t.Helper()
	f, err := Files.Open("prices.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	table, diags := prices.ReadTable("prices.csv", f)
	for _, d := range diags {
		t.Error(d)
	}
	return table
}

func readRates(t *testing.T) *prices.Rates {
	t.Helper()
	f, err := Files.Open("rates.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rates, diags := prices.ReadRates("rates.csv", f)
	for _, d := range diags {
		t.Error(d)
	}
	return rates
}

// TestToday: the demonstration plays on the day of its newest prices, and has
// rates for it.
func TestToday(t *testing.T) {
	table, rates := readTable(t), readRates(t)
	today, err := time.Parse(time.DateOnly, Today)
	if err != nil {
		t.Fatal(err)
	}
	for _, currency := range []money.Currency{"USD", "GBP", "CHF"} {
		if _, _, err := rates.Rate(currency, home, today); err != nil {
			t.Error(err)
		}
	}
	var newest time.Time
	for _, item := range table.Items() {
		for _, row := range table.Rows(item) {
			if row.Day.After(newest) {
				newest = row.Day
			}
		}
	}
	if !newest.Equal(today) {
		t.Errorf("the newest prices are of %v", newest)
	}
}

func TestEveryRowConverts(t *testing.T) {
	table, rates := readTable(t), readRates(t)
	if table.Len() < 200 {
		t.Errorf("%d rows, want 200 at least", table.Len())
	}
	for _, item := range table.Items() {
		for _, row := range table.Rows(item) {
			if _, _, err := rates.Rate(row.Currency, home, row.Day); err != nil {
				t.Errorf("line %d: %v", row.Line, err)
			}
		}
	}
}

// The misprinted part that README.md names is set aside, and of the parts
// nothing else is.
func TestMisprintIsSetAside(t *testing.T) {
	table, rates := readTable(t), readRates(t)
	rules := prices.Rules{Home: home, HalfLifeDays: 730, AskedFactor: 0.85, AskedWeight: 0.5, Spread: 0.25, FindWithinDays: 180}
	want := map[string]int{"ce4-pickup-shoe": 1}
	for _, day := range []time.Time{date(2026, 2, 1), date(2026, 5, 1), date(2026, 11, 25)} {
		for _, id := range table.Items() {
			if len(table.Rows(id)[0].Grade) > 0 {
				continue // a model, which needs its family's grades
			}
			e, err := table.Estimate(prices.Item{ID: id}, rules, rates, day)
			if err != nil {
				t.Fatal(err)
			}
			if e.SetAside != want[id] {
				t.Errorf("%s on %s: %d of %d rows set aside, want %d", id, day.Format(time.DateOnly), e.SetAside, e.Observations, want[id])
			}
		}
	}
}

func date(year int, month time.Month, day int) time.Time {
	return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
}
