package valuation_test

import (
	"strings"
	"testing"

	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// said is a list as lines.
func said(list diag.List) []string {
	var out []string
	for _, d := range list {
		out = append(out, d.Error())
	}
	return out
}

// TestCheckPrices has a table for each thing that is looked for: what must be
// said of it, and how gravely.
func TestCheckPrices(t *testing.T) {
	const (
		sound  = "2026-03-01,tyre,sold,,,1.00,EUR,,1,fair,"
		priced = "2026-03-01,tank/118,sold,fine,,100,EUR,,1,,"
	)
	for _, test := range []struct {
		name, row string
		severity  diag.Severity
		want      string
	}{
		{"the same twice", "2026-03-01,tyre,sold,,,1.0,EUR,0,,fair,another note", diag.Warning, "prices.csv:4: says the same as line 2: is one sale there twice?"},
		{"another day", "2026-03-02,tyre,sold,,,1.00,EUR,,1,fair,", 0, ""},
		{"another source", "2026-03-01,tyre,sold,,,1.00,EUR,,1,hall,", 0, ""},
		{"another kind", "2026-03-01,tyre,asked,,,1.00,EUR,,1,fair,", 0, ""},
		{"to come", "2026-03-16,tyre,sold,,,1.00,EUR,,1,fair,", diag.Warning, "prices.csv:4: the day 2026-03-16 has not come yet"},
		{"today", "2026-03-15,tyre,sold,,,1.00,EUR,,1,fair,", 0, ""},
		{"a formula as note", "2026-03-02,tyre,sold,,,1.00,EUR,,1,fair,-1%", diag.Warning, `prices.csv:4: a spreadsheet would take "-1%" for a formula`},
		{"a formula as source", "2026-03-02,tyre,sold,,,1.00,EUR,,1,@fair,", diag.Warning, `prices.csv:4: a spreadsheet would take "@fair" for a formula`},
		{"an unknown item", "2026-03-02,tyer,sold,,,1.00,EUR,,1,,", diag.Warning, `prices.csv:4: no family knows the item "tyer"`},
		{"an unknown grade", "2026-03-02,tank/110,sold,mint,,1.00,EUR,,1,,", diag.Error, `prices.csv:4: grade: family tank has no grade "mint"`},
		{"no rate", "2026-02-02,tyre,sold,,,1.00,JPY,,1,,", diag.Error, "prices.csv:4: no rate of JPY for 2026-02-02"},
		{"unreadable", "2026-02-30,tyre,sold,,,1.00,EUR,,1,,", diag.Error, `prices.csv:4:1: date: "2026-02-30" is not a day`},
	} {
		done, diags := keeper(sound, priced, test.row).CheckPrices(on("2026-03-15"))
		var found diag.List
		for _, d := range diags {
			if d.Pos.File == "prices.csv" {
				found.Add(d)
			}
		}
		switch {
		case test.want == "" && len(found) > 0:
			t.Errorf("%s: %v", test.name, said(found))
		case test.want != "" && (len(found) != 1 || found[0].Severity != test.severity || !strings.HasPrefix(strings.Replace(found[0].Error(), "warning: ", "", 1), test.want)):
			t.Errorf("%s: %v, want %s", test.name, said(found), test.want)
		}
		if test.name != "unreadable" && done.Rows != 3 || done.Families != 1 {
			t.Errorf("%s: %+v", test.name, done)
		}
	}
}

// TestCheckPricesOddRows: rows that estimates set aside are named, with the way
// to see why.
func TestCheckPricesOddRows(t *testing.T) {
	rows := []string{
		"2026-02-01,tank/110,sold,fine,,100,EUR,,1,,", "2026-02-02,tank/110,sold,fair,,51,EUR,,1,,",
		"2026-02-03,tank/110,sold,fine,,98,EUR,,1,,", "2026-02-04,tank/110,sold,fine,box:missing,80,EUR,,1,,",
		"2026-02-05,tank/110,sold,fine,,1010,EUR,,1,,", "2026-02-06,tank/110,sold,fine,,103,EUR,,1,,",
		"2026-02-07,tank/110,sold,fine,,99,EUR,900,1,,", "2026-02-07,tank/118,sold,fine,,99,EUR,,1,,",
	}
	_, diags := keeper(rows...).CheckPrices(on("2026-03-15"))
	var odd []string
	for _, d := range diags {
		if d.Severity == diag.Warning && strings.Contains(d.Summary, "set aside") {
			odd = append(odd, d.Error())
		}
	}
	if len(odd) != 2 ||
		!strings.Contains(odd[0], "prices.csv:6: warning: the price does not fit the others of tank/110 and is set aside") &&
			!strings.Contains(odd[0], "prices.csv:6: the price does not fit") ||
		!strings.Contains(odd[1], "the price with postage does not fit the others of tank/110 and is set aside for buying") ||
		!strings.Contains(odd[0], "try lotgauge prices show tank/110") {
		t.Errorf("odd rows: %q", odd)
	}
}

// TestCheckPricesSaysWhatIsMissing: prices that no row and no guide gives, and
// families that could not be looked at.
func TestCheckPricesSaysWhatIsMissing(t *testing.T) {
	_, diags := withBroken().CheckPrices(on("2026-03-15"))
	text := strings.Join(said(diags), "\n")
	for _, want := range []string{
		`families/tank.toml: part "tyre" has neither a price nor a guide`,
		`families/tank.toml: variant "118" has neither a price nor a guide`,
		"families/broken.toml: ", "its items are not checked",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not said in\n%s", want, text)
		}
	}
	for _, file := range []string{"settings.toml", "prices.csv"} {
		folder := demoFolder(t)
		delete(folder, file)
		done, diags := valuation.Open(folder, "", true).CheckPrices(on("2026-03-15"))
		if !diags.HasErrors() || done.Rows != 0 {
			t.Errorf("without %s: %+v, %v", file, done, diags)
		}
	}
}

// TestCheckPricesOfTheDemonstration: no errors; the odd rows that it shows are
// the only thing to be said.
func TestCheckPricesOfTheDemonstration(t *testing.T) {
	done, diags := openDemo(t).CheckPrices(on("2026-12-31"))
	for _, d := range diags {
		if d.Severity != diag.Warning || !strings.Contains(d.Summary, "set aside") {
			t.Error(d)
		}
	}
	if len(diags) == 0 || done.Rows < 1000 {
		t.Errorf("%+v, %d warnings", done, len(diags))
	}
}

// TestAgainst: the rows speak against a factor whose interval leaves out the one
// in the file, and only where they tell it at all.
func TestAgainst(t *testing.T) {
	for _, test := range []struct {
		x    valuation.FittedFactor
		want bool
	}{
		{valuation.FittedFactor{Known: true, File: 0.5, Low: 0.4, High: 0.6}, false},
		{valuation.FittedFactor{Known: true, File: 0.4, Low: 0.4, High: 0.6}, false},
		{valuation.FittedFactor{Known: true, File: 0.39, Low: 0.4, High: 0.6}, true},
		{valuation.FittedFactor{Known: true, File: 0.61, Low: 0.4, High: 0.6}, true},
		{valuation.FittedFactor{File: 0.61}, false},
	} {
		if got := test.x.Against(); got != test.want {
			t.Errorf("%+v: %v", test.x, got)
		}
	}
}
