package csvtext

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// tyre is a row of the tests.
func tyre(price string) prices.Row {
	return prices.Row{Day: time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC), Item: "tyre",
		Price: decimal.RequireFromString(price), Currency: "EUR", Qty: 1}
}

const plainHeader = "date,item,kind,grade,lacking,price,currency,postage,qty,source,note"

// Old bytes stay, new ones are in the manner of the old.
func TestAppend(t *testing.T) {
	full := tyre("82")
	full.Item, full.Asked, full.Grade, full.Lacking = "quillmore-t1/110", true, "fine", "lamps:missing box:missing"
	full.Postage, full.Qty, full.Source, full.Note = decimal.RequireFromString("4.5"), 2, "fair", `said "as new", 12" long`
	const tyreRow, fullRow = "2026-03-14,tyre,sold,,,0.80,EUR,,,,", `2026-03-14,quillmore-t1/110,asked,fine,lamps:missing box:missing,82.00,EUR,4.50,2,fair,"said ""as new"", 12"" long"`
	for _, test := range []struct {
		name, old string
		rows      []prices.Row
		added     string // behind old
		lines     []int
	}{
		{"no file", "", []prices.Row{tyre("0.8")}, plainHeader + "\n" + tyreRow + "\n", []int{2}},
		{"a header", plainHeader + "\n", []prices.Row{tyre("0.80"), full}, tyreRow + "\n" + fullRow + "\n", []int{2, 3}},
		{"no end of the last line", plainHeader, []prices.Row{tyre("0.80")}, "\n" + tyreRow + "\n", []int{2}},
		{"no rows to add", plainHeader + "\n# end", nil, "\n", nil},
		{"CRLF", plainHeader + "\r\n" + tyreRow + "\r\n", []prices.Row{tyre("0.80")}, tyreRow + "\r\n", []int{3}},
		{"CRLF, no end of the last line", plainHeader + "\r\n" + tyreRow, []prices.Row{tyre("0.80")}, "\r\n" + tyreRow + "\r\n", []int{3}},
		{"CRLF, half an end", plainHeader + "\r\n" + tyreRow + "\r", []prices.Row{tyre("0.80")}, "\n" + tyreRow + "\r\n", []int{3}},
		{"a byte order mark", "\uFEFF" + plainHeader + "\n", []prices.Row{tyre("0.80")}, tyreRow + "\n", []int{2}},
		{"a byte order mark alone", "\uFEFF", []prices.Row{tyre("0.80")}, plainHeader + "\n" + tyreRow + "\n", []int{2}},
		{"remarks", "# mine\n\n" + plainHeader + "\n# to do: \"this\n", []prices.Row{tyre("0.80")}, tyreRow + "\n", []int{5}},
		{"remarks and no header", "# mine", []prices.Row{tyre("0.80")}, "\n" + plainHeader + "\n" + tyreRow + "\n", []int{3}},
		{"other columns in another order", "Note, PRICE ,shelf,currency,item,kind,date\n", []prices.Row{tyre("0.80")},
			",0.80,,EUR,tyre,sold,2026-03-14\n", []int{2}},
		{"a remark that is none", "note,date,item,kind,price,currency\n", []prices.Row{noted(tyre("0.80"), "#1")},
			"\"#1\",2026-03-14,tyre,sold,0.80,EUR\n", []int{2}},
		{"quotes and lines within them", plainHeader + "\n2026-03-13,tyre,sold,,,1,EUR,,1,\"a \"\"b\"\",\nc\",\"\"\n", []prices.Row{tyre("0.80")}, tyreRow + "\n", []int{4}},
		{"quotes that are wrong", plainHeader + "\n2026-03-13,tyre,sold,,,1,EUR,,1,12\" long,\n2026-03-13,\"tyre\"x,\"\n", []prices.Row{tyre("0.80")}, tyreRow + "\n", []int{4}},
		{"yen", plainHeader + "\n", []prices.Row{yen(tyre("500"))}, "2026-03-14,tyre,sold,,,500,JPY,,,,\n", []int{2}},
		{"more decimals than the currency's", plainHeader + "\n", []prices.Row{tyre("0.125")}, "2026-03-14,tyre,sold,,,0.125,EUR,,,,\n", []int{2}},
	} {
		got, lines, err := Append("prices.csv", []byte(test.old), test.rows)
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		if want := test.old + test.added; string(got) != want {
			t.Errorf("%s: got\n%q\nwant\n%q", test.name, got, want)
		}
		if len(lines) != len(test.lines) {
			t.Errorf("%s: lines %v, want %v", test.name, lines, test.lines)
			continue
		}
		for i, line := range test.lines {
			if lines[i] != line {
				t.Errorf("%s: lines %v, want %v", test.name, lines, test.lines)
			}
		}
	}
}

func noted(row prices.Row, note string) prices.Row { row.Note = note; return row }
func yen(row prices.Row) prices.Row                { row.Currency = "JPY"; return row }

func graded(row prices.Row) prices.Row { row.Grade = "fine"; return row }

// What cannot be added leaves no text behind.
func TestAppendRefuses(t *testing.T) {
	long := strings.Repeat("x", prices.MaxLine+1)
	for _, test := range []struct {
		name, old string
		row       prices.Row
		want      string
	}{
		{"an open quote", plainHeader + "\n\n2026-03-13,tyre,sold,,,1,EUR,,1,\"fair,\n", tyre("1"), "prices.csv:3: a quoted text does not end before the file does"},
		{"an open quote in the header", "date,item,kind,\"price\n", tyre("1"), "prices.csv:1: the header cannot be read"},
		{"a byte that ends the text", plainHeader + "\n\x00", tyre("1"), "prices.csv:2: this is a binary file"},
		{"a long line", plainHeader + "\n" + long + "\n", tyre("1"), "prices.csv:2: a line is longer than 64 KiB"},
		{"no table", "Dear Ann,\n", tyre("1"), "prices.csv: the table has no column date"},
		{"semicolons", strings.ReplaceAll(plainHeader, ",", ";") + "\n", tyre("1"), "prices.csv: the table has no column date"},
		{"a column twice", plainHeader + ",note\n", tyre("1"), "there are two columns note"},
		{"a column that is missing", "date,item,kind,price,currency\n", graded(tyre("1")), `prices.csv: the table has no column grade, and this row has "fine" for it`},
		{"no such day", plainHeader + "\n", prices.Row{Item: "tyre", Price: decimal.New(1, 0), Currency: "EUR", Qty: 1}, ""},
		{"no such item", plainHeader + "\n", prices.Row{Day: tyre("1").Day, Item: "tyre,2", Price: decimal.New(1, 0), Currency: "EUR", Qty: 1}, "tyre,2"},
		{"a note with a byte that ends the text", plainHeader + "\n", noted(tyre("1"), "a\x00b"), ""},
		{"a note that is not UTF-8", plainHeader + "\n", noted(tyre("1"), "a\xff"), ""},
		{"a note with spaces around", plainHeader + "\n", noted(tyre("1"), " a "), ""},
		{"a note that is too long", plainHeader + "\n", noted(tyre("1"), long), ""},
		{"a price of nothing", plainHeader + "\n", tyre("0"), ""},
	} {
		got, lines, err := Append("prices.csv", []byte(test.old), []prices.Row{tyre("1"), test.row})
		if err == nil || got != nil || lines != nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: got %q, %v; want %q", test.name, got, err, test.want)
		}
		if _, ok := errors.AsType[diag.List](err); test.want != "" && strings.HasPrefix(test.want, "prices.csv") && !ok {
			t.Errorf("%s: the error is a %T", test.name, err)
		}
	}
}

// FuzzAppend holds Append against encoding/csv and prices.ReadTable: the old
// text stays, its records are as they were, and the new row is read on the line
// that was said.
func FuzzAppend(f *testing.F) {
	for _, seed := range []string{"", plainHeader, plainHeader + "\r\n", "\uFEFF#x\n" + plainHeader + "\n\"a\"\"b", "note,date,item,kind,price,currency\n\"\n",
		plainHeader + "\na\"b,\"c\"d,\"e\r\nf\"\r\n", plainHeader + "\n\"a\r"} {
		f.Add(seed, "a note")
		f.Add(seed, "#1, \"two\"\nlines")
	}
	f.Fuzz(func(t *testing.T, old, note string) {
		row := noted(tyre("0.80"), note)
		got, lines, err := Append("prices.csv", []byte(old), []prices.Row{row})
		if err != nil {
			return
		}
		if !strings.HasPrefix(string(got), old) {
			t.Fatalf("the old text has changed: %q", got)
		}
		before, after := records(old), records(string(got))
		extra := 1
		if len(before) == 0 {
			extra = 2 // and a header
		}
		if len(after) != len(before)+extra {
			t.Fatalf("%d records became %d: %q", len(before), len(after), got)
		}
		for i := range before {
			if before[i] != after[i] {
				t.Fatalf("record %q became %q", before[i], after[i])
			}
		}
		table, _ := prices.ReadTable("prices.csv", bytes.NewReader(got))
		for _, r := range table.Rows("tyre") {
			if r.Line == lines[0] && content(r) == content(row) {
				return
			}
		}
		t.Fatalf("no such row on line %d: %q", lines[0], got)
	})
}

// records are those of a text, refused ones included, as encoding/csv sees them.
func records(text string) []string {
	r := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\uFEFF")))
	r.Comment, r.FieldsPerRecord = '#', -1
	var out []string
	for {
		cells, err := r.Read()
		if err == io.EOF {
			return out
		}
		if err != nil {
			cells = []string{err.Error()}
		}
		out = append(out, strings.Join(cells, "\x00"))
	}
}

func TestLineOf(t *testing.T) {
	text := "a\nb,c\r\n b,c\nxb,c\nb,c"
	for line, want := range map[string]int{"a\n": 1, "b,c\r\n": 2, "b,c": 2, " b,c": 3, "c": 0, "xb": 0, "xb,c\n": 4} {
		if got := LineOf([]byte(text), []byte(line)); got != want {
			t.Errorf("%q is on line %d, want %d", line, got, want)
		}
	}
}
