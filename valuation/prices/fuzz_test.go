package prices

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// checkPlaces fails if a diagnostic has no words or lies outside its file.
func checkPlaces(t *testing.T, faults diag.List, file, text string) {
	t.Helper()
	lines := strings.Count(text, "\n") + 1
	for _, d := range faults {
		if d.Pos.File != file || d.Pos.Line < 0 || d.Pos.Line > lines || d.Pos.Column < 0 || d.Summary == "" || d.Error() == "" {
			t.Errorf("of %d lines: %+v", lines, d)
		}
	}
	if len(faults) > MaxReports+1 {
		t.Errorf("%d diagnostics", len(faults))
	}
}

// FuzzReadTable: whatever the file, faults have a place in it, rows are such as
// may be, and a table written out and read again is the same table.
func FuzzReadTable(f *testing.F) {
	for _, text := range []string{"", header, twoRows, sightings, "\uFEFF" + twoRows, strings.ReplaceAll(twoRows, "\n", "\r\n"),
		strings.ReplaceAll(twoRows, ",", ";"), header + "x", header + "\"", header + ",,,,,,,,,,\n", header + "# \n\x00",
		header + "2026-01-05,shoe,sold,,,0,EUR,-1,0,,\n", header + "\xe9,\xe9\n", "date,item,kind,price,currency,postge\n"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		table, faults := ReadTable("prices.csv", strings.NewReader(text))
		checkPlaces(t, faults, "prices.csv", text)
		rows := allRows(table)
		if len(rows) != table.Len() {
			t.Errorf("%d rows of %d have an item", len(rows), table.Len())
		}
		for i, r := range rows {
			if !r.Price.IsPositive() || r.Postage.IsNegative() || r.Qty < 1 || r.Currency == "" || r.Item == "" || r.Day.Year() < firstYear || r.Line < 2 {
				t.Errorf("a row is %+v", r)
			}
			rows[i].Line = 0
			// encoding/csv reads a line end within quotes as LF.
			rows[i].Note = strings.ReplaceAll(r.Note, "\r\n", "\n")
			rows[i].Source = strings.ReplaceAll(r.Source, "\r\n", "\n")
		}
		again, faults := ReadTable("again.csv", strings.NewReader(write(rows)))
		if len(faults) > 0 {
			t.Fatalf("written out it has faults: %v", faults)
		}
		back := allRows(again)
		for i := range back {
			back[i].Line = 0
		}
		if diff := cmp.Diff(rows, back); diff != "" {
			t.Errorf("written out and read again (-first +second):\n%s", diff)
		}
	})
}

// FuzzReadRates: whatever the file, faults have a place in it, and every rate
// there is, is above 0 and its own inverse's inverse.
func FuzzReadRates(f *testing.F) {
	for _, text := range []string{"", "Date,USD\n", "Date,USD,GBP,\n2024-02-20,1.0802,N/A,\n2024-02-19,1.0776,0.85448,\n",
		"Date, USD, \n19 February 2024, 1.0776, \n", "\"Date\",\"USD\"\n2024-02-19,\"1\"\n", "Date,USD\n2024-02-19,0\n",
		"Date,EUR,USD,USD\n", "Date,USD\n2024-02-19,1\n2024-02-19,2\n", "# \n\nDate,,USD\r\n2024-02-19,,1\r\n", "\uFEFFDate\n2024-02-19"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		rates, faults := ReadRates("rates.csv", strings.NewReader(text))
		checkPlaces(t, faults, "rates.csv", text)
		one := decimal.NewFromInt(1)
		for _, d := range rates.days {
			for c := range rates.columns {
				there, of, err := rates.Rate(c, "EUR", d.day.time())
				if err != nil {
					continue
				}
				back, _, err := rates.Rate("EUR", c, d.day.time())
				if err != nil || there.Sign() != 1 || there.Mul(back).Cmp(one) != 0 || of.After(d.day.time()) {
					t.Errorf("%s on %s: %v and %v, %v", c, d.day, there, back, err)
				}
			}
		}
		if _, _, err := rates.Rate("KWD", money.Currency("OMR"), on("1950-01-01")); err == nil && len(rates.days) == 0 {
			t.Error("a rate without days")
		}
	})
}
