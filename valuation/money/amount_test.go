package money_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

func TestParseAmount(t *testing.T) {
	tests := []struct {
		text, value string
		currency    money.Currency
	}{
		{"45 EUR", "45", "EUR"},
		{"12.50 GBP", "12.5", "GBP"},
		{"0 JPY", "0", "JPY"},
		{"0.001 KWD", "0.001", "KWD"},
		{"12.505 EUR", "12.505", "EUR"}, // more decimals than the minor unit
		{"007 CHF", "7", "CHF"},
		{"45  EUR", "45", "EUR"},
		{"999999999999999.99999999 EUR", "999999999999999.99999999", "EUR"},
		{"13111 ROL", "13111", "ROL"}, // withdrawn, in old price tables
	}
	for _, test := range tests {
		got, err := money.ParseAmount(test.text)
		want := money.Amount{Value: dec(test.value), Currency: test.currency}
		if err != nil || !cmp.Equal(got, want) {
			t.Errorf("%q: got %v, %v, want %v", test.text, got, err, want)
		}
	}
}

// parseErrors are refused texts with the exact message.
var parseErrors = []struct {
	parse func(string) error
	text  string
	want  string
}{
	{amount, "", `"" is not a number and a currency code with a space between`},
	{amount, "45", `"45" is not a number and a currency code with a space between`},
	{amount, "45EUR", `"45EUR" is not a number and a currency code with a space between`},
	{amount, "EUR 45", `"EUR" is not a plain number`},
	{amount, " 45 EUR", `"" is not a plain number`},
	{amount, "45 EUR ", `unknown currency "EUR "`},
	{amount, "-45 EUR", "a price cannot be negative"},
	{amount, "- EUR", "a price cannot be negative"},
	{amount, "45 eur", "currency codes are written in capitals: EUR, not eur"},
	{amount, "45 euro", `unknown currency "euro"`},
	{amount, "45 XAU", `unknown currency "XAU"`}, // gold has no minor unit
	{amount, "45 DEM", `unknown currency "DEM"`},
	{amount, "45 \x1b[31m", `unknown currency "\x1b[31m"`},
	{amount, "45,50 EUR", `"45,50" has a comma: decimals follow a point, and digits are not grouped`},
	{amount, "1e3 EUR", `"1e3" is not a plain number`},

	{plain, "", `"" is not a plain number`},
	{plain, ".", `"." is not a plain number`},
	{plain, ".5", `".5" is not a plain number`},
	{plain, "5.", `"5." is not a plain number`},
	{plain, "1.2.3", `"1.2.3" is not a plain number`},
	{plain, "+5", `"+5" is not a plain number`},
	{plain, "-5", "an amount cannot be negative"},
	{plain, "1_000", `"1_000" is not a plain number`},
	{plain, "0x10", `"0x10" is not a plain number`},
	{plain, "NaN", `"NaN" is not a plain number`},
	{plain, "٣", `"٣" is not a plain number`}, // a digit, but not 0 to 9
	{plain, "1e999999999", `"1e999999999" is not a plain number`},
	{plain, "1000000000000000", `"1000000000000000" has more than 15 digits before the point`},
	{plain, "0.123456789", `"0.123456789" has more than 8 decimals`},
	{plain, strings.Repeat("9", 1_000_000), `"` + strings.Repeat("9", 40) + `"… has more than 15 digits before the point`},
	{plain, "0." + strings.Repeat("0", 1_000_000), `"0.` + strings.Repeat("0", 38) + `"… has more than 8 decimals`},

	{rate, "", `"" has neither % nor /`},
	{rate, "0.25", `"0.25" has neither % nor /`},
	{rate, "25", `"25" has neither % nor /`},
	{rate, "%", `"" is not a plain number`},
	{rate, "-5%", "an amount cannot be negative"},
	{rate, "25  %", `"25 " is not a plain number`},
	{rate, "8,1%", `"8,1" has a comma: decimals follow a point, and digits are not grouped`},
	{rate, "1/0", "a fraction cannot have 0 below the line"},
	{rate, "1/0.000", "a fraction cannot have 0 below the line"},
	{rate, "1/", `"" is not a plain number`},
	{rate, "/6", `"" is not a plain number`},
	{rate, "1/2/3", `"2/3" is not a plain number`},
	{rate, "1/6%", `"1/6" is not a plain number`},

	{rounding, "", `unknown rounding ""`},
	{rounding, "half_up", `unknown rounding "half_up"`},

	{currency, "", `unknown currency ""`},
	{currency, "EU", `unknown currency "EU"`},
	{currency, "EUR GBP", `unknown currency "EUR GBP"`},
	{currency, "xxx", `unknown currency "xxx"`},
}

func amount(text string) error   { _, err := money.ParseAmount(text); return err }
func plain(text string) error    { _, err := money.ParsePlain(text); return err }
func rate(text string) error     { _, err := money.ParseRate(text); return err }
func rounding(text string) error { _, err := money.ParseRounding(text); return err }
func currency(text string) error { _, err := money.ParseCurrency(text); return err }

func TestParseErrors(t *testing.T) {
	for _, test := range parseErrors {
		err := test.parse(test.text)
		if err == nil {
			t.Errorf("%.60q: accepted, want %s", test.text, test.want)
		} else if err.Error() != test.want {
			t.Errorf("%.60q: got %s, want %s", test.text, err, test.want)
		}
	}
}

// A long text is cut between characters.
func TestParseErrorOfLongText(t *testing.T) {
	err := plain(strings.Repeat("é", 30)) // two bytes each
	want := `"` + strings.Repeat("é", 20) + `"… is not a plain number`
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
	err = plain("x" + strings.Repeat("é", 30))
	want = `"x` + strings.Repeat("é", 19) + `"… is not a plain number`
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

func TestAmountString(t *testing.T) {
	tests := []struct{ text, want string }{
		{"45 EUR", "45.00 EUR"},
		{"45.1 EUR", "45.10 EUR"},
		{"45.125 EUR", "45.125 EUR"},
		{"45.1250 EUR", "45.125 EUR"},
		{"0 EUR", "0.00 EUR"},
		{"1200 JPY", "1200 JPY"},
		{"1200.5 JPY", "1200.5 JPY"},
		{"1.5 BHD", "1.500 BHD"},
		{"0.00000001 EUR", "0.00000001 EUR"},
	}
	for _, test := range tests {
		a, err := money.ParseAmount(test.text)
		if err != nil {
			t.Fatal(err)
		}
		if got := a.String(); got != test.want {
			t.Errorf("%s: got %s, want %s", test.text, got, test.want)
		}
	}
	if got := (money.Amount{Value: dec("-3.5"), Currency: "EUR"}).String(); got != "-3.50 EUR" {
		t.Errorf("negative: got %s", got)
	}
}

func TestAmountEqual(t *testing.T) {
	euro := money.Amount{Value: dec("1.5"), Currency: "EUR"}
	if !euro.Equal(money.Amount{Value: dec("1.50"), Currency: "EUR"}) {
		t.Error("1.5 EUR is not 1.50 EUR")
	}
	if euro.Equal(money.Amount{Value: dec("1.5"), Currency: "GBP"}) || euro.Equal(money.Amount{Value: dec("1.51"), Currency: "EUR"}) {
		t.Error("1.5 EUR is equal to something else")
	}
}

// TestDigits names the currencies of the European Central Bank's history and
// those with unusual minor units. The published list is held against the table
// by the reference test of package charges.
func TestDigits(t *testing.T) {
	history := "USD 2 JPY 0 BGN 2 CYP 2 CZK 2 DKK 2 EEK 2 GBP 2 HUF 2 LTL 2 LVL 2 MTL 2 PLN 2 ROL 2 RON 2 SEK 2 SIT 2 " +
		"SKK 2 CHF 2 ISK 0 NOK 2 HRK 2 RUB 2 TRL 2 TRY 2 AUD 2 BRL 2 CAD 2 CNY 2 HKD 2 IDR 2 ILS 2 INR 2 KRW 0 MXN 2 " +
		"MYR 2 NZD 2 PHP 2 SGD 2 THB 2 ZAR 2"
	rare := " BIF 0 CLP 0 DJF 0 GNF 0 KMF 0 PYG 0 RWF 0 UGX 0 UYI 0 VND 0 VUV 0 XAF 0 XOF 0 XPF 0 " +
		"BHD 3 IQD 3 JOD 3 KWD 3 LYD 3 OMR 3 TND 3 CLF 4 UYW 4"
	list := strings.Fields(history + rare)
	for i := 0; i < len(list); i += 2 {
		c, err := money.ParseCurrency(list[i])
		if err != nil {
			t.Error(err)
		}
		if got, want := c.Unit(), decimal.New(1, -int32(list[i+1][0]-'0')); !got.Equal(want) {
			t.Errorf("%s: unit %s, want %s", c, got, want)
		}
	}
	if got := money.Currency("???").Digits(); got != 2 {
		t.Errorf("unknown currency: %d digits, want 2", got)
	}
}
