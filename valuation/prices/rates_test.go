package prices

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// testdata/reference/ecb-sample.csv: 64 days of the European Central Bank's
// euro foreign exchange reference rates, history file, as published: newest day
// first, a comma after the last column, N/A, no trailing zeros.
func bankRates(t *testing.T) *Rates {
	t.Helper()
	return readRates(t, reference(t, "ecb-sample.csv"))
}

// perEuro is the rate of a day, "N/A" where there is none of that very day.
func perEuro(x *Rates, c money.Currency, on time.Time) string {
	ratio, of, err := x.Rate("EUR", c, on)
	if err != nil || !of.Equal(on) {
		return "N/A"
	}
	return money.HalfUp.Round(ratio, decimal.New(1, -8)).String()
}

// The rates of days that were compared between several copies of the history
// file: the first and lowest, columns that end and begin.
func TestRatesReference(t *testing.T) {
	rates := bankRates(t)
	for day, want := range map[string]string{
		"1999-01-04": "USD 1.1789 JPY 133.73 GBP 0.7111 CHF 1.6168 SEK 9.4696 DKK 7.4501 NOK 8.855 ISK 81.48 PLN 4.0712 CZK 35.107 HUF 251.48 ROL 13111 TRL 372274 BGN N/A CNY N/A",
		"2000-10-26": "USD 0.8252 JPY 89.3 GBP 0.5807 CHF 1.5088 SEK 8.4888",
		"2004-12-31": "TRL 1836200 TRY N/A USD 1.3621",
		"2005-01-03": "TRL N/A TRY 1.815 USD 1.3507",
		"2005-07-01": "ROL N/A RON 3.603 USD 1.2087",
		"2008-12-09": "ISK 290",
		"2008-12-10": "ISK N/A",
		"2016-06-23": "USD 1.1389 GBP 0.76595 CHF 1.0876 JPY 120.38",
		"2016-06-24": "USD 1.1066 GBP 0.8075 CHF 1.0808 JPY 113.23",
		"2018-01-31": "ISK N/A",
		"2018-02-01": "ISK 125.01",
		"2022-03-01": "RUB 117.201 USD 1.1162",
		"2022-03-02": "RUB N/A USD 1.1106",
		"2024-02-19": "USD 1.0776 JPY 161.59 CZK 25.455 DKK 7.4547 GBP 0.85448 HUF 388.4 PLN 4.3265 RON 4.977 SEK 11.237 CHF 0.9492 NOK 11.3045 AUD 1.6479 CAD 1.4522 NZD 1.7536",
		"2025-12-31": "USD 1.175 GBP 0.8726 CHF 0.9314 BGN 1.9558",
		"2026-01-02": "USD 1.1721 GBP 0.8719 CHF 0.9296 JPY 183.94 AUD 1.7508 BGN N/A",
	} {
		words := strings.Fields(want)
		for i := 0; i < len(words); i += 2 {
			if got := perEuro(rates, money.Currency(words[i]), on(day)); got != words[i+1] {
				t.Errorf("%s %s is %s, want %s", day, words[i], got, words[i+1])
			}
		}
	}
	first, last, ok := rates.Span()
	if !ok || !first.Equal(on("1999-01-04")) || !last.Equal(on("2026-04-13")) || len(rates.days) != 64 {
		t.Errorf("%d days from %v to %v", len(rates.days), first, last)
	}
}

// Conversions worked out by hand from the published rates, rounded once, half
// up: crosses, and days without rates.
func TestConversions(t *testing.T) {
	rates := bankRates(t)
	for _, c := range []struct{ day, amount, from, to, rateDay, want string }{
		{"2024-02-19", "250", "USD", "GBP", "2024-02-19", "198.24"},
		{"1999-01-04", "120", "GBP", "EUR", "1999-01-04", "168.75"},
		{"2024-02-19", "85", "EUR", "JPY", "2024-02-19", "13735"},
		{"2024-04-01", "100", "GBP", "EUR", "2024-03-28", "116.95"}, // Easter Monday
		{"2025-12-26", "100", "CHF", "EUR", "2025-12-24", "107.71"}, // Boxing Day
		{"2024-02-19", "3", "CHF", "CHF", "2024-02-19", "3"},
		{"1900-01-01", "3", "EUR", "EUR", "1900-01-01", "3"},
	} {
		to := money.Currency(c.to)
		rate, of, err := rates.Rate(money.Currency(c.from), to, on(c.day))
		if err != nil {
			t.Errorf("%s %s: %v", c.amount, c.from, err)
			continue
		}
		got := money.HalfUp.Round(rate.MulDecimal(decimal.RequireFromString(c.amount)), to.Unit())
		if !got.Equal(decimal.RequireFromString(c.want)) || !of.Equal(on(c.rateDay)) {
			t.Errorf("%s %s on %s is %s %s by the rate of %s", c.amount, c.from, c.day, got, c.to, of.Format(time.DateOnly))
		}
	}
}

// There and back is 1, and by way of a third currency is the same, exactly.
func TestCrossLaws(t *testing.T) {
	rates := bankRates(t)
	one := decimal.NewFromInt(1)
	ratio := func(from, to money.Currency, on time.Time) money.Ratio {
		r, _, err := rates.Rate(from, to, on)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	codes := []money.Currency{"EUR", "USD", "GBP", "CHF", "JPY", "SEK"}
	for _, d := range rates.days {
		on := d.day.time()
		for i, a := range codes {
			b, c := codes[(i+1)%len(codes)], codes[(i+3)%len(codes)]
			if there := ratio(a, b, on); there.Mul(ratio(b, a, on)).Cmp(one) != 0 || !there.Mul(ratio(b, c, on)).Equal(ratio(a, c, on)) {
				t.Errorf("%s: %s, %s and %s do not cross", d.day, a, b, c)
			}
		}
	}
}

// The króna was suspended from 10 December 2008: ten days later its last rate
// is still taken, eleven days later not.
func TestRateAge(t *testing.T) {
	rates := bankRates(t)
	for _, day := range []string{"2008-12-09", "2008-12-10", "2008-12-15", "2008-12-19"} {
		rate, of, err := rates.Rate("ISK", "EUR", on(day))
		if err != nil || !of.Equal(on("2008-12-09")) || rate.Cmp(decimal.RequireFromString("0.003448")) != 1 {
			t.Errorf("%s: %v, %v", day, of, err)
		}
	}
	// Of a cross with a fresh rate, the day is the older.
	if _, of, err := rates.Rate("USD", "ISK", on("2008-12-15")); err != nil || !of.Equal(on("2008-12-09")) {
		t.Errorf("a cross is of %v, %v", of, err)
	}
	for _, c := range []struct {
		from, to money.Currency
		day      string
		want     string
	}{
		{"ISK", "EUR", "2008-12-20", "no rate of ISK for 2008-12-20 or the 10 days before: the last one is of 2008-12-09"},
		{"GBP", "ISK", "2008-12-22", "no rate of ISK for 2008-12-22 or the 10 days before: the last one is of 2008-12-09"},
		{"USD", "EUR", "2030-01-01", "no rate of USD for 2030-01-01 or the 10 days before: the last one is of 2026-04-13"},
		{"USD", "EUR", "1998-12-31", "no rate of USD for 1998-12-31 or the 10 days before: there is none before it"},
		{"CNY", "EUR", "1999-01-08", "no rate of CNY for 1999-01-08 or the 10 days before: there is none before it"},
		{"KWD", "EUR", "2024-02-19", "rates.csv has no column KWD"},
	} {
		_, _, err := rates.Rate(c.from, c.to, on(c.day))
		var missing *RateError
		if !errors.As(err, &missing) || missing.File != "rates.csv" || err.Error() != c.want {
			t.Errorf("%s %s: %v, want %s", c.from, c.day, err, c.want)
		}
	}
}

// A file that is not there is named, and so is one without rows.
func TestAbsentRates(t *testing.T) {
	empty, _ := ReadRates("data/rates.csv", strings.NewReader("Date,USD\n"))
	for _, c := range []struct {
		rates    *Rates
		currency money.Currency
		want     string
	}{
		{NoRates("data/rates.csv"), "USD", "there is no rates.csv, and so no rate of USD"},
		{empty, "SEK", "rates.csv has no column SEK"},
		{empty, "USD", "no rate of USD for 2026-01-01 or the 10 days before: there is none before it"},
	} {
		_, _, err := c.rates.Rate(c.currency, "EUR", on("2026-01-01"))
		var missing *RateError
		if !errors.As(err, &missing) || missing.File != "data/rates.csv" || err.Error() != c.want {
			t.Errorf("%s: %v, want %s", c.currency, err, c.want)
		}
		if remedy(err) == "" {
			t.Errorf("%s: nothing to try", c.currency)
		}
	}
	if _, _, ok := NoRates("rates.csv").Span(); ok {
		t.Error("no rates span days")
	}
}

// Rates as a spreadsheet saves them are told by their decimal commas.
func TestRatesWithDecimalCommas(t *testing.T) {
	rates, faults := ReadRates("rates.csv", strings.NewReader("Date,USD,JPY\n2026-01-05,\"1,1151\",\"161,2\"\n\"2026-01-02\",\"1.1\",160\n"))
	wantFaults(t, faults, `rates.csv:2: the rate "1,1151" has a decimal comma: expected decimals after a point; try 1.1151`)
	if _, of, err := rates.Rate("USD", "EUR", on("2026-01-05")); err != nil || !of.Equal(on("2026-01-02")) {
		t.Errorf("the other row is not read: %v, %v", of, err)
	}
	_, faults = ReadRates("rates.csv", strings.NewReader("Date;USD;JPY\n2026-01-05;1,1151;161,2\n"))
	wantFaults(t, faults, "rates.csv:1: the columns are separated by semicolons: expected a header such as Date,USD,JPY; try the file as the European Central Bank publishes it")
}

// Without a file of rates, equal currencies convert and others do not.
func TestNoRates(t *testing.T) {
	for _, rates := range []*Rates{nil, {}} {
		if rate, _, err := rates.Rate("USD", "USD", on("2024-02-19")); err != nil || rate.Cmp(decimal.NewFromInt(1)) != 0 {
			t.Errorf("dollars in dollars: %v, %v", rate, err)
		}
		if _, _, err := rates.Rate("USD", "EUR", on("2024-02-19")); err == nil {
			t.Error("there is a rate without rates")
		}
		if _, _, ok := rates.Span(); ok || rates.File() != "" {
			t.Error("no rates have a span or a file")
		}
	}
}

// Any columns, any order of days, and what editors and the bank's daily file do
// to the layout.
func TestReadRatesLayouts(t *testing.T) {
	for name, text := range map[string]string{
		"newest first":     "Date,USD,GBP,\n2024-02-20,1.0802,N/A,\n2024-02-19,1.0776,0.85448,\n",
		"oldest first":     "Date,USD,GBP\n2024-02-19,1.0776,0.85448\n2024-02-20,1.0802,\n",
		"other columns":    "Date,GBP,CHF,USD\n2024-02-20,N/A,,1.0802\n2024-02-19,0.85448,,1.0776",
		"no order":         "Date,USD,GBP\n2024-02-19,1.0776,0.85448\n2020-01-02,1,1\n2024-02-20,1.0802,N/A\n",
		"CRLF, mark":       "\uFEFFDate,USD,GBP\r\n2024-02-20,1.0802,N/A\r\n2024-02-19,1.0776,0.85448\r\n",
		"comments":         "# rates\n\nDate,USD,GBP\n# more\n2024-02-20,1.0802,N/A\n \n2024-02-19,1.0776,0.85448\n",
		"quotes":           "\"Date\",\"USD\",\"GBP\"\n\"2024-02-20\",\"1.0802\",\"N/A\"\n2024-02-19,\"1.0776\",\"0.85448\"\n",
		"as the daily":     "Date, USD, GBP, \n20 February 2024, 1.0802, N/A, \n19 February 2024, 1.0776, 0.85448, \n",
		"zeros at the end": "Date,USD,GBP\n2024-02-20,1.080200,N/A\n2024-02-19,1.0776,0.85448000\n",
	} {
		rates := readRates(t, text)
		got := []string{perEuro(rates, "USD", on("2024-02-20")), perEuro(rates, "GBP", on("2024-02-20")),
			perEuro(rates, "USD", on("2024-02-19")), perEuro(rates, "GBP", on("2024-02-19"))}
		for i, want := range []string{"1.0802", "N/A", "1.0776", "0.85448"} {
			if got[i] != want {
				t.Errorf("%s: figure %d is %s, want %s", name, i, got[i], want)
			}
		}
	}
}

// Only a header: rates without days.
func TestReadRatesHeaderOnly(t *testing.T) {
	rates := readRates(t, "Date,USD\n")
	if _, _, err := rates.Rate("USD", "EUR", on("2024-02-19")); err == nil {
		t.Error("there is a rate without days")
	}
}

func TestRatesFaults(t *testing.T) {
	const number = ": expected a plain number above 0, N/A or nothing"
	const code = ": expected an ISO 4217 code such as USD"
	const layout = ": expected text in the layout of the European Central Bank's reference-rate history"
	for text, want := range map[string][]string{
		"":                 {"rates.csv: the file is empty: expected a header such as Date,USD,JPY"},
		"# nothing\n":      {"rates.csv: the file is empty: expected a header such as Date,USD,JPY"},
		"Date\x00":         {"rates.csv: this is a binary file" + layout},
		"Date,\xff":        {"rates.csv: the text is not UTF-8: expected UTF-8"},
		"Day,USD\n":        {`rates.csv:1:1: the first column is "Day": expected a header such as Date,USD,JPY`},
		"Date,USD,usd\n":   {"rates.csv:1:10: currency codes are written in capitals: USD, not usd" + code},
		"Date,USD,USD\n":   {"rates.csv:1:10: there are two columns USD: expected each currency once"},
		"Date,EUR\n":       {"rates.csv:1:6: there is a column EUR: expected other currencies, in units per 1 EUR"},
		"Date,GRD,€,USD\n": {`rates.csv:1:6: unknown currency "GRD"` + code, `rates.csv:1:10: unknown currency "€"` + code},
		"Date,USD\n2024-02-30,1\n": {
			`rates.csv:2:1: "2024-02-30" is not a day: expected year-month-day such as 2026-03-14, from 1900 on`},
		"Date,USD\n2 March 1899,1\n": {
			`rates.csv:2:1: "2 March 1899" is not a day: expected year-month-day such as 2026-03-14, from 1900 on`},
		"Date,USD,GBP\n2024-02-19,1.2x,-1\n": {
			`rates.csv:2:12: "1.2x" is not a plain number` + number, "rates.csv:2:17: an amount cannot be negative" + number},
		"Date,USD,GBP\n2024-02-19,0,0.00\n":       {"rates.csv:2:12: the rate is 0" + number, "rates.csv:2:14: the rate is 0" + number},
		"Date,USD\n2024-02-19,\" 0 \"\n":          {`rates.csv:2:12: " 0 " is not a plain number` + number},
		"Date,USD\n2024-02-19, 00\n":              {"rates.csv:2:12: the rate is 0" + number},
		"Date,USD,GBP,\n2024-02-19,1\n":           {"rates.csv:2: the row has 2 cells: expected 4, one for each column"},
		"Date,USD\n2024-02-19,1,,2\n":             {`rates.csv:2:15: "2" is under no currency`},
		"Date,,USD\n2024-02-19,7,1\n":             {`rates.csv:2:12: "7" is under no currency`},
		"Date,USD\n2024-02-19,1\n\n2024-02-19,2,": {"rates.csv:4:1: there are two rows of 2024-02-19: expected each day once"},
		strings.Repeat("x", MaxRates+1):           {"rates.csv: the file is too large: expected at most 16 MiB"},
	} {
		_, faults := ReadRates("rates.csv", strings.NewReader(text))
		wantFaults(t, faults, want...)
	}
}

// A row with a fault is left out, the others are there.
func TestRatesFaultyRow(t *testing.T) {
	rates, faults := ReadRates("rates.csv",
		strings.NewReader("Date,USD,GBP\n2024-02-19,1.1,0.8\n2024-02-20,1.2,oops\n2024-02-21,1.3,0.9\n"))
	if len(faults) != 1 || perEuro(rates, "USD", on("2024-02-20")) != "N/A" || perEuro(rates, "GBP", on("2024-02-21")) != "0.9" {
		t.Errorf("%v; %s", faults, perEuro(rates, "GBP", on("2024-02-21")))
	}
}
