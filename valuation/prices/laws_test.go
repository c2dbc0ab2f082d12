package prices

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"
)

// This file states what an estimate may not depend on, and what it must follow.

// sale is one row of a made-up table.
type sale struct {
	day            string
	asked          bool
	price, postage float64
	currency       string
	qty            int
}

// sales are seven sightings, one of them a slip.
var sales = []sale{
	{"2024-02-01", false, 21.5, 3, "EUR", 1},
	{"2024-09-17", true, 32, 3, "EUR", 1},
	{"2025-01-05", false, 24, 0, "EUR", 1},
	{"2025-03-30", false, 25.5, 4.5, "EUR", 1},
	{"2025-08-11", false, 250, 3, "EUR", 1},
	{"2025-12-24", true, 27, 3, "EUR", 1},
	{"2026-02-02", false, 22.8, 2.5, "EUR", 1},
}

// estimateSales is the estimate from sales, after a change to each.
func estimateSales(t *testing.T, item Item, rules Rules, rates *Rates, change func(*sale)) Estimate {
	t.Helper()
	var text strings.Builder
	text.WriteString(header)
	for _, s := range sales {
		change(&s)
		kind := "sold"
		if s.asked {
			kind = "asked"
		}
		fmt.Fprintf(&text, "%s,x,%s,,,%.4f,%s,%.4f,%d,,\n", s.day, kind, s.price, s.currency, s.postage, s.qty)
	}
	item.ID = "x"
	e, err := readTable(t, text.String()).Estimate(item, rules, rates, on("2026-03-14"))
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func unchanged(*sale) {}

// nearQuotes fails unless got is want times factor.
func nearQuotes(t *testing.T, what string, got, want Estimate, factor float64) {
	t.Helper()
	for i := range Values {
		near(t, fmt.Sprintf("%s: sell value %d", what, i), got.Sell.Values[i]/(factor*want.Sell.Values[i]), 1, 1e-8)
		near(t, fmt.Sprintf("%s: buy value %d", what, i), got.Buy.Values[i]/(factor*want.Buy.Values[i]), 1, 1e-8)
	}
	near(t, what+": sell mean", got.Sell.Mean, factor*want.Sell.Mean, 1e-8)
	if got.SetAside != want.SetAside || got.Observations != want.Observations {
		t.Errorf("%s: %d of %d set aside, want %d of %d", what, got.SetAside, got.Observations, want.SetAside, want.Observations)
	}
}

// Prices, postage and guide times ten give ten times the estimate.
func TestEstimateScales(t *testing.T) {
	for _, guided := range []bool{false, true} {
		want := estimateSales(t, Item{Guide: 23, HasGuide: guided}, usual, nil, unchanged)
		got := estimateSales(t, Item{Guide: 230, HasGuide: guided}, usual, nil, func(s *sale) {
			s.price, s.postage = 10*s.price, 10*s.postage
		})
		nearQuotes(t, "ten times the money", got, want, 10)
		if want.SetAside != 1 {
			t.Errorf("%d set aside", want.SetAside)
		}
	}
}

// Four pieces for four times the price are one piece for the price.
func TestEstimatePieces(t *testing.T) {
	got := estimateSales(t, Item{}, usual, nil, func(s *sale) {
		s.price, s.postage, s.qty = 4*s.price, 4*s.postage, 4
	})
	nearQuotes(t, "four pieces", got, estimateSales(t, Item{}, usual, nil, unchanged), 1)
}

// At a steady rate the currency of the rows does not matter, nor that of the
// home, save for the units.
func TestEstimateCurrencies(t *testing.T) {
	var steady strings.Builder
	steady.WriteString("Date,GBP,USD\n")
	for d := on("2024-01-01"); d.Before(on("2026-03-14")); d = d.AddDate(0, 0, 7) {
		steady.WriteString(d.Format(time.DateOnly) + ",0.8,1.6\n")
	}
	rates := readRates(t, steady.String())
	want := estimateSales(t, Item{Guide: 23, HasGuide: true}, usual, rates, unchanged)
	got := estimateSales(t, Item{Guide: 23, HasGuide: true}, usual, rates, func(s *sale) {
		s.price, s.postage, s.currency = 0.8*s.price, 0.8*s.postage, "GBP"
	})
	nearQuotes(t, "rows in pounds", got, want, 1)
	dollars := usual
	dollars.Home = "USD"
	got = estimateSales(t, Item{Guide: 23 * 1.6, HasGuide: true}, dollars, rates, unchanged)
	nearQuotes(t, "home in dollars", got, want, 1.6)
}

// What factor a row is divided by, the estimate is divided by.
func TestEstimateFactors(t *testing.T) {
	item := Item{Factor: func(Row) (float64, error) { return 0.8, nil }}
	nearQuotes(t, "factor", estimateSales(t, item, usual, nil, unchanged),
		estimateSales(t, Item{}, usual, nil, unchanged), 1/0.8)
}

// A price asked is a sale at the factor, as long as it weighs as much.
func TestEstimateAsked(t *testing.T) {
	rules := usual
	rules.AskedWeight = 1
	want := estimateSales(t, Item{}, rules, nil, unchanged)
	got := estimateSales(t, Item{}, rules, nil, func(s *sale) {
		if s.asked {
			s.price, s.postage, s.asked = 0.85*s.price, 0.85*s.postage, false
		}
	})
	nearQuotes(t, "asked", got, want, 1)
}

// Without postage buying is selling; with more of it buying is dearer.
func TestEstimatePostage(t *testing.T) {
	free := estimateSales(t, Item{}, usual, nil, func(s *sale) { s.postage = 0 })
	if free.Buy != free.Sell {
		t.Errorf("without postage it costs %v and sells at %v", free.Buy.Mean, free.Sell.Mean)
	}
	dear := estimateSales(t, Item{}, usual, nil, func(s *sale) { s.postage = 5 })
	if dear.Sell != free.Sell || !(dear.Buy.Quantile(0.5) > free.Buy.Quantile(0.5)+4) {
		t.Errorf("with postage it costs %v, without %v", dear.Buy.Quantile(0.5), free.Buy.Quantile(0.5))
	}
}

// More rows make an estimate narrower, a wider spread makes it wider, and a
// longer half-life trusts old rows more.
func TestEstimateWidth(t *testing.T) {
	width := func(e Estimate) float64 { return math.Log(e.Sell.Quantile(0.9) / e.Sell.Quantile(0.1)) }
	guided := Item{Guide: 23, HasGuide: true}
	none := estimate(t, &Table{}, guided, usual, "2026-03-14")
	some := estimateSales(t, guided, usual, nil, unchanged)
	if !(width(some) < width(none)) {
		t.Errorf("with rows %v, without %v", width(some), width(none))
	}
	wide, long := usual, usual
	wide.Spread, long.HalfLifeDays = 0.5, 7300
	if w := estimateSales(t, guided, wide, nil, unchanged); !(width(w) > width(some)) {
		t.Errorf("with more spread %v, with less %v", width(w), width(some))
	}
	if l := estimateSales(t, guided, long, nil, unchanged); !(width(l) < width(some)) || !(l.Uses[0].Weight > some.Uses[0].Weight) {
		t.Errorf("with a long half-life %v, with a short one %v", width(l), width(some))
	}
}
