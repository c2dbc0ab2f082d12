package prices

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation/diag"
)

// usual are rules as in the settings of the reference appraisals.
var usual = Rules{Home: "EUR", HalfLifeDays: 730, AskedFactor: 0.85, AskedWeight: 0.5, Spread: 0.25, FindWithinDays: 180}

// estimate is an estimate that must not fail.
func estimate(t *testing.T, table *Table, item Item, rules Rules, day string) Estimate {
	t.Helper()
	e, err := table.Estimate(item, rules, nil, on(day))
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// factorQuillmore is the factor of a row by the grades and states of the
// reference family: testdata/reference/appraise/families.
func factorQuillmore(r Row) (float64, error) {
	factor, ok := map[string]float64{"fair": 0.5, "good": 0.8, "excellent": 1}[r.Grade]
	if !ok {
		return 0, fmt.Errorf("unknown grade %q", r.Grade)
	}
	states := map[string]float64{"lamps:missing": 0.9, "lamps:wrong-type": 0.94, "paint:repainted": 0.7}
	for _, lacking := range strings.Fields(r.Lacking) {
		f, ok := states[lacking]
		if !ok {
			return 0, fmt.Errorf("unknown state %q", lacking)
		}
		factor *= f
	}
	return factor, nil
}

// guidesQuillmore are the guides of the reference family.
var guidesQuillmore = map[string]float64{"quillmore-t3/310": 70, "quillmore-t3/318": 130, "quillmore-t3/325": 95,
	"tyre": 0.80, "shoe": 6, "reverser-relay": 22, "lamp-brass": 3, "lamp-black": 11, "smoke-unit": 14}

// itemQuillmore is a part or variant of the reference family.
func itemQuillmore(id string) Item {
	item := Item{ID: id}
	item.Guide, item.HasGuide = guidesQuillmore[id]
	if strings.Contains(id, "/") {
		item.Factor = factorQuillmore
	}
	return item
}

// testdata/reference/appraise: prices by a program of their own, written in
// Python with SciPy 1.10.1 from the description of the method alone. Its t
// quantiles are good to nine digits.
func TestEstimateReference(t *testing.T) {
	table := readTable(t, reference(t, "appraise/prices.csv"))
	rates := readRates(t, reference(t, "appraise/rates.csv"))
	compared := 0
	for _, name := range []string{"a", "b", "c", "d"} {
		var ref struct {
			Prices map[string]struct{ Mean, P50 float64 }
		}
		referenceJSON(t, "appraise/expected/"+name+".json", &ref)
		for key, want := range ref.Prices {
			id, side, _ := strings.Cut(key, "|")
			e, err := table.Estimate(itemQuillmore(id), usual, rates, on("2026-03-14"))
			if err != nil || !e.Priced {
				t.Fatalf("%s: %v", key, err)
			}
			quote := map[string]Quote{"sell": e.Sell, "buy": e.Buy}[side]
			near(t, key+" mean", quote.Mean/want.Mean, 1, 1e-7)
			near(t, key+" median", quote.Quantile(0.5)/want.P50, 1, 1e-7)
			compared++
		}
	}
	if compared != 41 {
		t.Errorf("%d prices were compared", compared)
	}
}

// The reference table has one slip of the pen: it is set aside, on both sides,
// and is shown.
func TestEstimateSetsAside(t *testing.T) {
	table := readTable(t, reference(t, "appraise/prices.csv"))
	e := estimate(t, table, itemQuillmore("shoe"), usual, "2026-03-14")
	if e.Observations != 6 || e.SetAside != 1 || len(e.Uses) != 6 {
		t.Fatalf("%d observations, %d set aside, %d uses", e.Observations, e.SetAside, len(e.Uses))
	}
	for _, u := range e.Uses {
		odd := u.Row.Note == "typing error"
		if u.SetAside != odd || u.Buying.SetAside != odd || odd != (u.Score > maxZ) {
			t.Errorf("line %d: set aside %v and %v, score %v", u.Row.Line, u.SetAside, u.Buying.SetAside, u.Score)
		}
	}
	// Before the sixth row the slip is one of five, before the fifth of four.
	if e := estimate(t, table, itemQuillmore("shoe"), usual, "2025-07-15"); e.SetAside != 1 || e.Observations != 5 {
		t.Errorf("of five: %d set aside", e.SetAside)
	}
	four := readTable(t, header+strings.Repeat("2026-01-01,shoe,sold,,,5,EUR,,,,\n", 3)+"2026-01-01,shoe,sold,,,500,EUR,,,,\n")
	if e := estimate(t, four, Item{ID: "shoe"}, usual, "2026-01-01"); e.SetAside != 0 || e.Uses[3].Score != 0 {
		t.Errorf("of four: %d set aside", e.SetAside)
	}
}

// A slip in the postage sets a row aside for buying, not for selling; a low
// price with a high postage, that costs what the others do, for selling alone.
func TestEstimateSetsAsideBySide(t *testing.T) {
	table := readTable(t, header+`2026-01-01,shoe,sold,,,5.00,EUR,1.50,,,
2026-01-01,shoe,sold,,,5.20,EUR,1.60,,,
2026-01-01,shoe,sold,,,5.40,EUR,1.50,,,
2026-01-01,shoe,sold,,,5.60,EUR,1.60,,,
2026-01-01,shoe,sold,,,5.30,EUR,150,,,
2026-01-01,shoe,sold,,,0.80,EUR,6.00,,,
`)
	e := estimate(t, table, Item{ID: "shoe"}, usual, "2026-01-01")
	var got []string
	for _, u := range e.Uses {
		got = append(got, fmt.Sprint(u.SetAside, u.Buying.SetAside))
	}
	if diff := cmp.Diff([]string{"false false", "false false", "false false", "false false", "false true", "true false"}, got); diff != "" {
		t.Errorf("set aside for selling and buying (-want +got):\n%s", diff)
	}
	if e.SetAside != 2 || e.Sell.Quantile(0.5) > 5.4 || e.Buy.Quantile(0.5) > 7.1 {
		t.Errorf("%d set aside; sells at %v, costs %v", e.SetAside, e.Sell.Quantile(0.5), e.Buy.Quantile(0.5))
	}
}

// One row and no guide: what each rule does to it, by hand. The median is then
// the observation itself.
func TestEstimateOneRow(t *testing.T) {
	rates := readRates(t, "Date,GBP,CHF\n2026-01-01,0.8,\n2026-02-01,0.5,0.95\n")
	for name, c := range map[string]struct {
		row               string
		factor            float64
		sell, buy, weight float64
	}{
		"plain":           {"2026-01-01,x,sold,,,20,EUR,,,,", 1, 20, 20, 1},
		"postage":         {"2026-01-01,x,sold,,,20,EUR,4,,,", 1, 20, 24, 1},
		"pieces":          {"2026-01-01,x,sold,,,20,EUR,4,8,,", 1, 2.5, 3, 1},
		"asked":           {"2026-01-01,x,asked,,,20,EUR,4,,,", 1, 17, 20.4, 0.5},
		"factor":          {"2026-01-01,x,sold,good,,20,EUR,4,,,", 0.8, 25, 30, 1},
		"currency":        {"2026-01-01,x,sold,,,20,GBP,4,,,", 1, 25, 30, 1},
		"rate of its day": {"2026-02-01,x,sold,,,20,GBP,4,,,", 1, 40, 48, 1},
		"old":             {"2024-01-02,x,sold,,,20,EUR,,,,", 1, 20, 20, 0.5},
		"all":             {"2026-01-03,x,asked,good,,20,GBP,4,8,,", 0.8, 3.3203125, 3.984375, 0.5},
	} {
		table := readTable(t, header+c.row+"\n")
		item := Item{ID: "x", Factor: func(Row) (float64, error) { return c.factor, nil }}
		e, err := table.Estimate(item, usual, rates, table.rows[0].day.time())
		if name == "old" {
			e, err = table.Estimate(item, usual, rates, on("2026-01-01"))
		}
		if err != nil || !e.Priced || e.Observations != 1 {
			t.Fatalf("%s: %+v, %v", name, e, err)
		}
		near(t, name+": sell", e.Sell.Quantile(0.5), c.sell, 1e-7)
		near(t, name+": buy", e.Buy.Quantile(0.5), c.buy, 1e-7)
		near(t, name+": weight", e.Uses[0].Weight, c.weight, 1e-15)
		near(t, name+": log", e.Uses[0].Log, math.Log(c.sell), 1e-11)
		near(t, name+": buying log", e.Uses[0].Buying.Log, math.Log(c.buy), 1e-11)
	}
}

// A guide alone: the belief of the rules, symmetric about it in logarithms.
func TestEstimateGuideAlone(t *testing.T) {
	e := estimate(t, &Table{}, Item{ID: "x", Guide: 80, HasGuide: true}, usual, "2026-01-01")
	if !e.Priced || e.Observations != 0 || e.Sell != e.Buy {
		t.Fatalf("%+v", e)
	}
	for i, v := range e.Sell.Values {
		near(t, "mirror", v*e.Sell.Values[Values-1-i], 6400, 1e-7)
	}
	// Ten degrees of freedom, scale² 2·β/α = 2·0.25/5.
	near(t, "top", e.Sell.Values[Values-1], 80*math.Exp(math.Sqrt(0.1)*studentQuantile(10, 40.5/41)), 1e-8)
	near(t, "p10", e.Sell.Quantile(0.1), e.Sell.Values[4], 0)
}

// Rows after the day are as if not there.
func TestEstimateLaterRows(t *testing.T) {
	rows := "2025-01-01,x,sold,,,20,EUR,,,,\n2025-06-01,x,asked,,,30,EUR,,,,\n"
	early := readTable(t, header+rows)
	late := readTable(t, header+"2025-06-02,x,sold,,,900,KWD,,,,\n"+rows+"2027-06-01,x,sold,,,900,EUR,,,,\n")
	want := estimate(t, early, Item{ID: "x"}, usual, "2025-06-01")
	got := estimate(t, late, Item{ID: "x"}, usual, "2025-06-01")
	if diff := cmp.Diff([]any{want.Sell, want.Buy, want.Observations}, []any{got.Sell, got.Buy, got.Observations}); diff != "" {
		t.Errorf("later rows change it (-want +got):\n%s", diff)
	}
}

// Neither guide nor row, or rows without any weight: unpriced, no error.
func TestUnpriced(t *testing.T) {
	table := readTable(t, header+"2026-01-01,x,asked,,,20,EUR,,,,\n1900-01-01,y,sold,,,20,EUR,,,,\n")
	noAsked := usual
	noAsked.AskedWeight = 0
	for name, e := range map[string]Estimate{
		"unknown":      estimate(t, table, Item{ID: "z"}, usual, "2026-01-01"),
		"not yet":      estimate(t, table, Item{ID: "x"}, usual, "2025-12-31"),
		"only asked":   estimate(t, table, Item{ID: "x"}, noAsked, "2026-01-01"),
		"an age ago":   estimate(t, table, Item{ID: "y"}, usual, "2026-01-01"),
		"an aeon ago":  estimate(t, table, Item{ID: "y"}, Rules{Home: "EUR", HalfLifeDays: 1, AskedFactor: 1, Spread: 1}, "2026-01-01"),
		"empty table":  estimate(t, &Table{}, Item{ID: "x"}, usual, "2026-01-01"),
		"no id at all": estimate(t, table, Item{}, usual, "2026-01-01"),
	} {
		if e.Priced || e.Sell != (Quote{}) || e.Buy != (Quote{}) {
			t.Errorf("%s: priced at %v", name, e.Sell.Mean)
		}
	}
}

// Faults in the rows of an item are reported with their lines, all of them; the
// rows of other items do not matter.
func TestEstimateFaults(t *testing.T) {
	table := readTable(t, header+`2026-01-01,x,sold,good,,20,GBP,,,,
2026-01-02,x,sold,mint,,20,EUR,,,,
2026-01-03,x,sold,good,,20,EUR,,,,
2026-01-04,x,sold,good,box:gone,20,EUR,,,,
2026-01-05,other,sold,,,20,KWD,,,,
2026-01-06,x,sold,worthless,,20,EUR,,,,
`)
	rates := readRates(t, "Date,GBP\n2025-12-12,0.8\n")
	item := Item{ID: "x", Factor: func(r Row) (float64, error) {
		if r.Grade == "worthless" {
			return 0, nil
		}
		return factorQuillmore(r)
	}}
	_, err := table.Estimate(item, usual, rates, on("2026-03-14"))
	var list diag.List
	if !errors.As(err, &list) {
		t.Fatalf("the error is %v", err)
	}
	wantFaults(t, list,
		"prices.csv:2: no rate of GBP for 2026-01-01 or the 10 days before: the last one is of 2025-12-12: try to bring rates.csv up to date",
		`prices.csv:3: unknown grade "mint"`,
		`prices.csv:5: unknown state "box:gone"`,
		"prices.csv:7: the price of one in this state says nothing of a sound one: its factor is 0")
}

// Rules that no settings may hold are refused, not computed with.
func TestEstimateRefusesRules(t *testing.T) {
	item := Item{ID: "x", Guide: 5, HasGuide: true}
	for name, change := range map[string]func(*Rules, *Item){
		"home":         func(r *Rules, _ *Item) { r.Home = "" },
		"half-life":    func(r *Rules, _ *Item) { r.HalfLifeDays = 0 },
		"asked factor": func(r *Rules, _ *Item) { r.AskedFactor = math.NaN() },
		"asked weight": func(r *Rules, _ *Item) { r.AskedWeight = -0.1 },
		"spread":       func(r *Rules, _ *Item) { r.Spread = math.Inf(1) },
		"guide":        func(_ *Rules, i *Item) { i.Guide = 0 },
	} {
		rules, item := usual, item
		change(&rules, &item)
		if _, err := (&Table{}).Estimate(item, rules, nil, on("2026-01-01")); err == nil {
			t.Errorf("%s is not refused", name)
		}
	}
}

// Values ascend, their average is the mean, it lies between them, and an
// estimate is the same every time and in every order of the rows.
func TestEstimateLaws(t *testing.T) {
	text := string(makeTable(2000))
	lines := strings.SplitAfter(strings.TrimPrefix(text, header), "\n")
	var backwards strings.Builder
	for i := len(lines) - 1; i >= 0; i-- {
		backwards.WriteString(lines[i])
	}
	table, turned := readTable(t, text), readTable(t, header+backwards.String())
	rules := usual
	rates := readRates(t, steadyRates())
	priced := 0
	for _, id := range table.Items() {
		e, err := table.Estimate(Item{ID: id}, rules, rates, on("2025-01-01"))
		again, err2 := turned.Estimate(Item{ID: id}, rules, rates, on("2025-01-01"))
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		if e.Priced != again.Priced {
			t.Errorf("%s: priced %v, backwards %v", id, e.Priced, again.Priced)
		}
		if !e.Priced { // its rows are too old to say anything
			continue
		}
		priced++
		near(t, id+": backwards", again.Buy.Mean, e.Buy.Mean, 1e-9)
		sum := 0.0
		for i, v := range e.Buy.Values {
			sum += v
			if i > 0 && !(v > e.Buy.Values[i-1]) {
				t.Fatalf("%s: value %d of %v", id, i, e.Buy.Values)
			}
		}
		near(t, id+": mean", e.Buy.Mean, sum/Values, 0)
	}
	if priced < len(table.Items())/2 {
		t.Errorf("only %d of %d items priced", priced, len(table.Items()))
	}
}

// One row and no guide is a price while it weighs a tenth of a fresh one or
// more: three half-lives and a bit, 2425 days of 730 each.
func TestOldRowsAloneAreNoPrice(t *testing.T) {
	table := readTable(t, header+"2020-01-01,x,sold,,,10.00,EUR,,1,,\n")
	for _, c := range []struct {
		day    string
		priced bool
	}{{"2020-01-02", true}, {"2026-08-20", true}, {"2026-08-25", false}, {"2060-01-01", false}} {
		e, err := table.Estimate(Item{ID: "x"}, usual, nil, on(c.day))
		if err != nil || e.Priced != c.priced {
			t.Errorf("%s: priced %v, %v", c.day, e.Priced, err)
		}
	}
}

// steadyRates are rates for every week of the made-up tables, always the same.
func steadyRates() string {
	var b strings.Builder
	b.WriteString("Date,USD,GBP,CHF,\n")
	for d := civil(2015, 1, 1); d < civil(2025, 1, 7); d += 7 {
		fmt.Fprintf(&b, "%s,1.1,0.85,0.95,\n", d)
	}
	return b.String()
}
