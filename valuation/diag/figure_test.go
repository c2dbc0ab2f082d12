package diag

import (
	"errors"
	"regexp"
	"testing"
)

func TestPointed(t *testing.T) {
	for number, want := range map[string]string{
		"75,50": "75.50", "75": "75", "75.50": "75.50", "1.234,50": "1234.50", "1,234.50": "1234.50",
		"1.234.567,5": "1234567.5", "0,125": "0.125", "12,5": "12.5", "1.500,000": "1500.000",
		"1,234": "", "1,2,3": "", "12.34,5": "", ",5": "", "5,": "", "1,234,567": "",
	} {
		if got, ok := pointed(number); got != want || ok != (want != "") {
			t.Errorf("%s is %q, %v, want %q", number, got, ok, want)
		}
	}
}

func TestIsoDate(t *testing.T) {
	for text, want := range map[string]string{
		"10.11.2026": "2026-11-10", "1.2.2026": "2026-02-01", "01.02.2026": "2026-02-01",
		"10/11/2026": "2026-11-10 or 2026-10-11, whichever day is meant",
		"11/11/2026": "2026-11-11", "31/12/2026": "2026-12-31", "12/31/2026": "2026-12-31",
		"12.31.2026": "2026-12-31", "2026/3/4": "2026-03-04", "2026-3-4": "2026-03-04", "10-11-2026": "2026-11-10",
		"31.02.2026": "", "10.11.26": "", "2026-03": "", "": "", "0.0.2026": "", "29.2.2024": "2024-02-29", "29.2.2026": "",
	} {
		if got := isoDate(text); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}

// TestReparsed: only what the parser accepts is tried. One wants money, the
// other a share.
func TestReparsed(t *testing.T) {
	money := regexp.MustCompile(`^\d+(\.\d\d?)? [A-Z]{3}$`).MatchString
	share := regexp.MustCompile(`^\d+(\.\d+)?%$`).MatchString
	for _, test := range []struct {
		text, money, share string
	}{
		{"75,50 EUR", `"75.50 EUR"`, ""},
		{"EUR 75", `"75 EUR"`, ""},
		{"EUR75,5", `"75.5 EUR"`, ""},
		{"75EUR", `"75 EUR"`, ""},
		{"75 eur", `"75 EUR"`, ""},
		{" 75  EUR ", `"75 EUR"`, ""},
		{"€ 75", `"75 EUR"`, ""},
		{"75.00€", `"75.00 EUR"`, ""},
		{"£9", `"9 GBP"`, ""},
		{"$9", "", ""},
		{"12,5 %", "", `"12.5%"`},
		{"1,234 EUR", "", ""},
		{"1.234,50 EUR", `"1234.50 EUR"`, ""},
		{"-75,50 EUR", "", ""},
		{"75 EUR or so", "", ""},
		{"EUR 75 EUR", "", ""},
		{"", "", ""},
	} {
		if got := reparsed(test.text, money); got != test.money {
			t.Errorf("%q as money: %s, want %s", test.text, got, test.money)
		}
		if got := reparsed(test.text, share); got != test.share {
			t.Errorf("%q as a share: %s, want %s", test.text, got, test.share)
		}
	}
}

// TestParseTries: the getter says what to try, and says nothing more of it.
func TestParseTries(t *testing.T) {
	root := read(t, "ask = \"75,50 EUR\"\nlow = \"a lot\"\n")
	for _, key := range []string{"ask", "low"} {
		_, ok := Parse(root, key, "money", func(s string) (string, error) {
			if s != "75.50 EUR" {
				return "", errors.New("no money")
			}
			return s, nil
		})
		if ok || !root.Has(key) {
			t.Errorf("%s: accepted %v, there %v", key, ok, root.Has(key))
		}
	}
	root.Report("ask", "follows", "", "")
	want := "f.toml:1:7: ask: no money: expected money; try \"75.50 EUR\"\nf.toml:2:7: low: no money: expected money"
	if got := said(root.doc); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
