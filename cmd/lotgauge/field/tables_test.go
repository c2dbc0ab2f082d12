package field

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

func day(t *testing.T, text string) time.Time {
	t.Helper()
	d, err := time.Parse(dayFormat, text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestPriceRows(t *testing.T) {
	const head, kept = "date,item,price,note\n", "date,item,price\n"
	for _, c := range []struct{ name, in, want string }{
		{"only what is asked for",
			head + "2024-01-01,a,1,\n2024-01-02,b,2,\n2024-01-03,a,3,\n",
			kept + "2024-01-01,a,1\n2024-01-03,a,3\n"},
		{"and a row of the first day",
			head + "2024-01-03,a,3,\n2024-01-01,b,1,first\n2024-01-01,c,1,second\n",
			kept + "2024-01-03,a,3\n2024-01-01,b,1\n"},
		{"comments, blanks and a byte order mark",
			"\uFEFF# mine\nDate, Item ,price,note\n\n 2024-01-01 , a ,1,x\n",
			"Date,\" Item \",price\n\" 2024-01-01 \",\" a \",1\n"},
		{"quotes and line ends",
			"date,item,price,mine\n2024-01-01,a,1,\"one, \"\"two\"\"\nthree\"\n",
			"date,item,price,mine\n2024-01-01,a,1,\"one, \"\"two\"\"\nthree\"\n"},
		{"nothing", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := priceRows(c.in, map[string]bool{"a": true}, day(t, "2024-01-01"))
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestRateRows(t *testing.T) {
	for _, c := range []struct{ name, in, want, last string }{
		{"only the currencies wanted",
			"Date,USD,JPY,GBP,\n2024-01-05,1.1,160,0.86,\n2024-01-04,1.2,161,0.85,\n",
			"Date,USD,GBP\n2024-01-05,1.1,0.86\n2024-01-04,1.2,0.85\n", "2024-01-05"},
		{"from two weeks before the first price on",
			"Date,USD\n2023-12-17,1\n2023-12-18,2\n2024-06-01,3\n",
			"Date,USD\n2023-12-18,2\n2024-06-01,3\n", "2024-06-01"},
		{"the bank's file of one day",
			"Date, USD, JPY, \n19 February 2024, 1.0776, 161.86, \n",
			"Date,\" USD\"\n19 February 2024,\" 1.0776\"\n", ""},
		{"nothing", "", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, last, err := rateRows(c.in, map[string]bool{"USD": true, "GBP": true}, day(t, "2024-01-01"))
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(c.want, got); diff != "" || last != c.last {
				t.Errorf("last day %q, not %q %s", last, c.last, diff)
			}
		})
	}
}

func TestCurrencies(t *testing.T) {
	got := currencies(map[string]string{
		"settings.toml": `currency = "EUR"`,
		pricesFile:      "2024-01-01,a,sold,,,1,CHF,,1,,\n",
		ratesFile:       "Date,USD,JPY\n",
		"sheets/x.toml": `currency = "GBP" # not usd nor XXXX`,
	})
	if diff := cmp.Diff(map[string]bool{"EUR": true, "CHF": true, "GBP": true}, got); diff != "" {
		t.Error(diff)
	}
}
