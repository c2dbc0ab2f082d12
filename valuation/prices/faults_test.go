package prices

import (
	"fmt"
	"io"
	"strings"
	"testing"
)

// Every row has one fault, which is reported with its place; the last row is
// good and is read.
func TestRowFaults(t *testing.T) {
	const day = "expected year-month-day such as 2026-03-14, from 1900 on"
	const item = "expected a part such as lamp-black, or family/variant such as pellworth-ce4/6043"
	const price = "expected a plain number above 0 such as 12.50"
	const qty = "expected a whole number from 1"
	const state = "expected point:state such as box:missing, with spaces between several"
	for _, c := range []struct{ row, want string }{
		{"2026-02-30,shoe,sold,,,5,EUR,,,,", `1: date: "2026-02-30" is not a day: ` + day},
		{",shoe,sold,,,5,EUR,,,,", `1: date: "" is not a day: ` + day},
		{"2026-01-01,,sold,,,5,EUR,,,,", `12: item: "" is not an item: ` + item},
		{"2026-01-01,a/b/c,sold,,,5,EUR,,,,", `12: item: "a/b/c" is not an item: ` + item},
		{"2026-01-01,/b,sold,,,5,EUR,,,,", `12: item: "/b" is not an item: ` + item},
		{"2026-01-01,a/,sold,,,5,EUR,,,,", `12: item: "a/" is not an item: ` + item},
		{"2026-01-01,red shoe,sold,,,5,EUR,,,,", `12: item: "red shoe" is not an item: ` + item},
		{"2026-01-01,shoe,,,,5,EUR,,,,", `17: kind: unknown kind "": expected sold or asked`},
		{"2026-01-01,shoe,ask,,,5,EUR,,,,", `17: kind: unknown kind "ask": expected sold or asked`},
		{"2026-01-01,shoe,Sold,,,5,EUR,,,,", `17: kind: unknown kind "Sold": expected sold or asked; try sold`},
		{"2026-01-01,shoe,sold,very good,,5,EUR,,,,", `22: grade: "very good" is not a grade: expected the id of a grade, such as good`},
		{"2026-01-01,shoe,sold,,box,5,EUR,,,,", `23: lacking: "box" is not what a model lacks: ` + state},
		{"2026-01-01,shoe,sold,,box:,5,EUR,,,,", `23: lacking: "box:" is not what a model lacks: ` + state},
		{"2026-01-01,shoe,sold,,a:b;c:d,5,EUR,,,,", `23: lacking: "a:b;c:d" is not what a model lacks: ` + state},
		{"2026-01-01,shoe,sold,,,,EUR,,,,", `24: price: "" is not a plain number: ` + price},
		{"2026-01-01,shoe,sold,,,-5,EUR,,,,", `24: price: an amount cannot be negative: ` + price},
		{"2026-01-01,shoe,sold,,,0.00,EUR,,,,", `24: price: the price is 0: expected a price above 0; try to leave the row out if nothing was paid`},
		{"2026-01-01,shoe,sold,,,1e9,EUR,,,,", `24: price: "1e9" is not a plain number: ` + price},
		{"2026-01-01,shoe,sold,,,99999999999.99999999,EUR,,,,", `24: price: the number has more than 18 digits: ` + price},
		{`2026-01-01,shoe,sold,,,"9,50",EUR,,,,`, `24: price: "9,50" has a comma: decimals follow a point, and digits are not grouped: ` + price + "; try 9.50"},
		{`2026-01-01,shoe,sold,,,"1,950",EUR,,,,`, `24: price: "1,950" has a comma: decimals follow a point, and digits are not grouped: ` + price},
		{`2026-01-01,shoe,sold,,,5,EUR,"3,5",,,`, `30: postage: "3,5" has a comma: decimals follow a point, and digits are not grouped: ` +
			"expected a plain number such as 3.50, or nothing; try 3.5"},
		{"2026-01-01,shoe,sold,,,71,50,EUR,,,,", `the row has 12 cells, as 71,50 makes two of them: expected decimals after a point; try 71.50`},
		{"2026-01-01,shoe,sold,,,71,5,EUR,3,50,,,", `the row has 13 cells, as 71,5 makes two of them: expected decimals after a point; try 71.5`},
		{"2026-01-01,shoe,sold,,,71,50,EUR,,,", `the row has 11 cells, as 71,50 makes two of them: expected decimals after a point; try 71.50`},
		{"2026-01-01,shoe,sold,,,71.50,EUR,3,50,,,", `the row has 12 cells, as 3,50 makes two of them: expected decimals after a point; try 3.50`},
		{"2026-01-01,shoe,sold,,,71.50,EUR,3,1,,red, late", `the row has 12 cells: expected 11, one for each column; try quotes around a text with a comma in it`},
		{"2026-01-01,shoe,sold,,,1,500,EUR,,,,", `the row has 12 cells: expected 11, one for each column; try quotes around a text with a comma in it`},
		{"2026-01-01,shoe,sold,,,5,,,,,", `26: currency: unknown currency "": expected an ISO 4217 code such as EUR`},
		{"2026-01-01,shoe,sold,,,5,eur,,,,", `26: currency: currency codes are written in capitals: EUR, not eur: expected an ISO 4217 code such as EUR`},
		{"2026-01-01,shoe,sold,,,5,EUR,free,,,", `30: postage: "free" is not a plain number: expected a plain number such as 3.50, or nothing`},
		{"2026-01-01,shoe,sold,,,5,EUR,,0,,", `31: qty: "0" is not a number of pieces: ` + qty},
		{"2026-01-01,shoe,sold,,,5,EUR,,1.0,,", `31: qty: "1.0" is not a number of pieces: ` + qty},
		{"2026-01-01,shoe,sold,,,5,EUR,,3000000000,,", `31: qty: "3000000000" is not a number of pieces: ` + qty},
		{"2026-01-01,shoe,sold,,,5,EUR,,,", `the row has 10 cells: expected 11, one for each column; try quotes around a text with a comma in it`},
		{"2026-01-01,shoe,sold,,,5,EUR,,,,red, late", `the row has 12 cells: expected 11, one for each column; try quotes around a text with a comma in it`},
		{`2026-01-01,shoe,sold,,,5,EUR,,,,2" gauge`, `34: a quote inside a text that is not quoted: expected the whole text in quotes, with "" for a quote in it`},
		{`2026-01-01,shoe,sold,,,5,EUR,,,,"2" gauge`, `35: a quoted text does not end where a comma or the line does: expected the whole text in quotes, with "" for a quote in it`},
		{"2026-01-01,shoe,sold,,,5,EUR,,,,caf\xe9", `33: the text is not UTF-8: expected UTF-8; try to save it from the spreadsheet as CSV, UTF-8`},
		{`"",schön,sold,,,5,EUR,,,,`, `1: date: "" is not a day: ` + day + "\n" + `4: item: "schön" is not an item: ` + item},
		{`2026-01-01,shoe,sold,,,5,XXX,ä,,,`, `26: currency: unknown currency "XXX": expected an ISO 4217 code such as EUR` + "\n" +
			`30: postage: "ä" is not a plain number: expected a plain number such as 3.50, or nothing`},
		{`schön,shoe,sold,,,-5,EUR,,,,`, `1: date: "schön" is not a day: ` + day + "\n" + `19: price: an amount cannot be negative: ` + price},
	} {
		table, faults := ReadTable("prices.csv", strings.NewReader(header+c.row+"\n2026-01-05,shoe,sold,,,5,EUR,,,,\n"))
		var want []string
		for _, line := range strings.Split(c.want, "\n") {
			if line[0] >= '1' && line[0] <= '9' {
				line = ":" + line
			} else {
				line = ": " + line
			}
			want = append(want, "prices.csv:2"+line)
		}
		wantFaults(t, faults, want...)
		if table.Len() != 1 {
			t.Errorf("%s: %d rows are left", c.row, table.Len())
		}
	}
}

const headerExpected = "expected a header such as date,item,kind,grade,lacking,price,currency,postage,qty,source,note"

func TestHeaderFaults(t *testing.T) {
	const least = "expected a header with at least date,item,kind,price,currency"
	for text, want := range map[string][]string{
		"":                     {"prices.csv: the file is empty: " + headerExpected},
		"\uFEFF":               {"prices.csv: the file is empty: " + headerExpected},
		"# only a comment\n\n": {"prices.csv: the file is empty: " + headerExpected},
		"dat\"e,item\n" + header: {`prices.csv:1:4: a quote inside a text that is not quoted: ` +
			`expected the whole text in quotes, with "" for a quote in it`},
		"date,item,kind,price\n":   {"prices.csv:1: there is no column currency: " + least},
		"\n\nitem,kind,price,euro": {"prices.csv:3: there is no column date: " + least, "prices.csv:3: there is no column currency: " + least},
		"date,item,kind,price,currency,Item\n": {
			"prices.csv:1:31: item: there are two columns item: expected each column once"},
		strings.ReplaceAll(header, ",", ";"): {"prices.csv:1: the columns are separated by semicolons: " +
			headerExpected + "; try lotgauge prices import FILE --map MAP.toml, which reads it as it is, or to save it as comma-separated CSV"},
		strings.ReplaceAll(header, ",", "\t"): {"prices.csv:1: the columns are separated by tabs: " +
			headerExpected + "; try lotgauge prices import FILE --map MAP.toml, which reads it as it is, or to save it as comma-separated CSV"},
		strings.ReplaceAll(twoRows, "\n", "\r"): {"prices.csv:1:170: a quoted text does not end where a comma or the line does: " +
			`expected the whole text in quotes, with "" for a quote in it`},
		strings.ReplaceAll(header+"2026-01-01,shoe,sold,,,5,EUR,,,,\n", "\n", "\r"): {
			"prices.csv:1: the lines end in CR alone: " + headerExpected + "; try to save it as comma-separated CSV"},
	} {
		table, faults := ReadTable("prices.csv", strings.NewReader(text))
		wantFaults(t, faults, want...)
		if table.Len() != 0 {
			t.Errorf("%q: %d rows", text, table.Len())
		}
	}
}

// A column that is nearly one that is missing is doubted, and the table read;
// a column of the user's own is not.
func TestHeaderWarning(t *testing.T) {
	table, faults := ReadTable("prices.csv",
		strings.NewReader("date,item,kind,price,currency,postge,colour\n2026-01-01,shoe,sold,5,EUR,1,red\n"))
	wantFaults(t, faults, `prices.csv:1:31: warning: column "postge" is not known and not read: try postage`)
	if faults.HasErrors() || table.Len() != 1 {
		t.Errorf("%d rows, %v", table.Len(), faults)
	}
}

// What is no text in lines ends early; the rows before it stay.
func TestFileFaults(t *testing.T) {
	row := "2026-01-05,shoe,sold,,,5,EUR,,,,\n"
	for name, c := range map[string]struct {
		text, want string
		rows       int
	}{
		"binary": {"PK\x03\x04\x00\x00", "prices.csv:1: this is a binary file: " +
			"expected comma-separated text in UTF-8; try to save it from the spreadsheet as CSV, UTF-8", 0},
		"NUL": {header + row + row + "2026-01-05,sh\x00e", "prices.csv:4: this is a binary file: " +
			"expected comma-separated text in UTF-8; try to save it from the spreadsheet as CSV, UTF-8", 2},
		"UTF-16": {"\xff\xfed\x00a\x00", "prices.csv:1: this is a binary file: " +
			"expected comma-separated text in UTF-8; try to save it from the spreadsheet as CSV, UTF-8", 0},
		"long line": {header + row + strings.Repeat("x", MaxLine+1), "prices.csv:3: a line is longer than 64 KiB: " +
			"expected one row on each line; try to save it with LF or CRLF line ends", 1},
		"long line that ends": {header + row + strings.Repeat("x", MaxLine+1) + "\n" + row, "prices.csv:3: a line is longer than 64 KiB: " +
			"expected one row on each line; try to save it with LF or CRLF line ends", 1},
		"open quote": {header + row + `2026-01-05,shoe,sold,,,5,EUR,,,,"never` + "\n" + row, "prices.csv:3: a quoted text does not end " +
			`where a comma or the line does: expected the whole text in quotes, with "" for a quote in it`, 1},
	} {
		table, faults := ReadTable("prices.csv", strings.NewReader(c.text))
		wantFaults(t, faults, c.want)
		if table.Len() != c.rows {
			t.Errorf("%s: %d rows, want %d", name, table.Len(), c.rows)
		}
	}
}

// A line as long as is allowed is read, wherever it lies in the file.
func TestLongestLine(t *testing.T) {
	row := "2026-01-05,shoe,sold,,,5,EUR,,,,"
	long := row + strings.Repeat("x", MaxLine-len(row)) + "\n"
	for _, before := range []int{0, 1, 100, 1985, 1986, 4000} {
		table := readTable(t, header+strings.Repeat(row+"\n", before)+long+row+"\n")
		rows := table.Rows("shoe")
		if len(rows) != before+2 || len(rows[before].Note) != MaxLine-len(row) {
			t.Errorf("after %d rows: %d rows", before, len(rows))
		}
	}
}

// endless is a table that goes on for ever.
type endless struct{ chunk string }

func (e endless) Read(p []byte) (int, error) { return copy(p, e.chunk), nil }

// A file that is too large, or does not end, is given up.
func TestTooLarge(t *testing.T) {
	if testing.Short() {
		t.Skip("reads 256 MiB")
	}
	comments := endless{strings.Repeat("#"+strings.Repeat("x", 1022)+"\n", 64)}
	table, faults := ReadTable("prices.csv", io.MultiReader(strings.NewReader(twoRows), comments))
	wantFaults(t, faults, "prices.csv: the file is too large: expected at most 256 MiB")
	if table.Len() != 2 {
		t.Errorf("%d rows", table.Len())
	}
}

// A hundred diagnostics are kept, and the others counted; good rows among them
// are read.
func TestReportsAreCut(t *testing.T) {
	bad := strings.Repeat("2026-01-05,shoe,sold,,,0,EUR,,,,\n", 150)
	table, faults := ReadTable("prices.csv", strings.NewReader(header+bad+"2026-01-05,shoe,sold,,,5,EUR,,,,\n"))
	if len(faults) != MaxReports || table.Len() != 1 {
		t.Fatalf("%d diagnostics, %d rows", len(faults), table.Len())
	}
	sorted := faults.Sorted()
	if got, want := sorted[MaxReports-1].Error(), "prices.csv:100:24: 51 more problems are not shown: try to mend those shown first"; got != want {
		t.Errorf("the last says %q, want %q", got, want)
	}
	for i, d := range sorted[:MaxReports-1] {
		if !strings.HasPrefix(d.Error(), fmt.Sprintf("prices.csv:%d:24: price: the price is 0", i+2)) {
			t.Fatalf("diagnostic %d is %v", i, d)
		}
	}
}
