package prices

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"strconv"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
)

const twoRows = header + `2026-01-05,pellworth-ce4/6043,sold,good,box:missing lamp:wrong-type,120.00,EUR,,,hall,"red, late roof"
2026-02-01,shoe,asked,,,12.5,GBP,1.60,10,stall 4,
`

var twoRowsRead = []Row{
	{Line: 2, Day: on("2026-01-05"), Item: "pellworth-ce4/6043", Grade: "good", Lacking: "box:missing lamp:wrong-type",
		Price: decimal.RequireFromString("120"), Currency: "EUR", Qty: 1, Source: "hall", Note: "red, late roof"},
	{Line: 3, Day: on("2026-02-01"), Item: "shoe", Asked: true, Price: decimal.RequireFromString("12.5"),
		Postage: decimal.RequireFromString("1.6"), Currency: "GBP", Qty: 10, Source: "stall 4"},
}

// allRows are the rows of all items, in the order of Items.
func allRows(table *Table) []Row {
	var rows []Row
	for _, item := range table.Items() {
		rows = append(rows, table.Rows(item)...)
	}
	return rows
}

func TestReadTable(t *testing.T) {
	table := readTable(t, twoRows)
	if diff := cmp.Diff(twoRowsRead, allRows(table)); diff != "" {
		t.Errorf("rows differ (-want +got):\n%s", diff)
	}
	if table.Len() != 2 || table.File() != "prices.csv" {
		t.Errorf("%d rows of %q", table.Len(), table.File())
	}
	if first, ok := table.FirstDay(); !ok || !first.Equal(on("2026-01-05")) {
		t.Errorf("the first day is %v, %v", first, ok)
	}
	if rows := table.Rows("unknown"); rows != nil {
		t.Errorf("an unknown item has rows: %v", rows)
	}
	if rows := table.Rows(""); rows != nil {
		t.Errorf("no item has rows: %v", rows)
	}
}

// The same rows however the file is laid out; lines differ.
func TestReadTableLayouts(t *testing.T) {
	for name, text := range map[string]string{
		"CRLF":             strings.ReplaceAll(twoRows, "\n", "\r\n"),
		"byte order mark":  "\uFEFF" + twoRows,
		"no last line end": strings.TrimSuffix(twoRows, "\n"),
		"comments":         "# my prices\n\n" + strings.Replace(twoRows, "\n", "\n# more\n\n", 1),
		"empty rows":       strings.ReplaceAll(twoRows, "\n", "\n,,,,,,,,,,\n"),
		"spaces":           strings.ReplaceAll(strings.ReplaceAll(twoRows, ",shoe,", " , shoe\t, "), "EUR", " EUR "),
		"capital header":   "Date,ITEM," + strings.TrimPrefix(twoRows, "date,item,"),
		"quoted":           strings.ReplaceAll(twoRows, "hall", `"hall"`),
		"more columns": "colour,date,item,kind,grade,lacking,price,currency,postage,qty,source,note,\n" +
			`red,2026-01-05,pellworth-ce4/6043,sold,good,box:missing lamp:wrong-type,120.00,EUR,,,hall,"red, late roof",x` +
			"\n,2026-02-01,shoe,asked,,,12.5,GBP,1.60,10,stall 4,,\n",
		"other order": "note,price,currency,kind,date,item,qty,postage,source,lacking,grade\n" +
			`"red, late roof",120,EUR,sold,2026-01-05,pellworth-ce4/6043,1,0,hall,box:missing lamp:wrong-type,good` +
			"\n,12.50,GBP,asked,2026-02-01,shoe,10,1.6,stall 4,,\n",
	} {
		rows := allRows(readTable(t, text))
		for i := range rows {
			rows[i].Line = i + 2
		}
		if diff := cmp.Diff(twoRowsRead, rows); diff != "" {
			t.Errorf("%s: rows differ (-want +got):\n%s", name, diff)
		}
	}
}

// Five columns are enough; lines are those of the file, also after a text that
// goes over several.
func TestReadTableFewColumns(t *testing.T) {
	table := readTable(t, "date,item,kind,price,currency,note\n2026-01-05,shoe,sold,5,EUR,\"two\nlines\"\n"+
		"# comment\n2026-01-06,shoe,asked,6,EUR,\n")
	want := []Row{
		{Line: 2, Day: on("2026-01-05"), Item: "shoe", Price: decimal.NewFromInt(5), Currency: "EUR", Qty: 1, Note: "two\nlines"},
		{Line: 5, Day: on("2026-01-06"), Item: "shoe", Asked: true, Price: decimal.NewFromInt(6), Currency: "EUR", Qty: 1},
	}
	if diff := cmp.Diff(want, table.Rows("shoe")); diff != "" {
		t.Errorf("rows differ (-want +got):\n%s", diff)
	}
}

// A table of nothing but a header is a table, and so is the zero one.
func TestTableWithoutRows(t *testing.T) {
	for name, table := range map[string]*Table{"header": readTable(t, header), "zero": {}} {
		_, ok := table.FirstDay()
		if table.Len() != 0 || len(table.Items()) != 0 || table.Rows("shoe") != nil || ok {
			t.Errorf("%s: a table without rows has some", name)
		}
	}
}

// However the text comes in, the table is the same: byte by byte, in one
// piece, or from a reader that says how much there is.
func TestReadTableChunks(t *testing.T) {
	text := makeTable(3000)
	want := readTable(t, string(text))
	for name, r := range map[string]io.Reader{
		"bytes":  iotest.OneByteReader(bytes.NewReader(text)),
		"halves": iotest.HalfReader(bytes.NewReader(text)),
		"early":  iotest.DataErrReader(bytes.NewReader(text)),
		"sized":  bytes.NewBuffer(text),
	} {
		got, faults := ReadTable("prices.csv", r)
		wantFaults(t, faults)
		if diff := cmp.Diff(allRows(want), allRows(got)); diff != "" {
			t.Errorf("%s: rows differ (-want +got):\n%s", name, diff)
		}
	}
}

// A file that breaks off keeps its rows and says why.
func TestReadTableBrokenOff(t *testing.T) {
	broken := io.MultiReader(strings.NewReader(twoRows), iotest.ErrReader(errors.New("disk on fire")))
	table, faults := ReadTable("prices.csv", broken)
	wantFaults(t, faults, "prices.csv: the file cannot be read: disk on fire")
	if table.Len() != 2 {
		t.Errorf("%d rows", table.Len())
	}
}

// Items are sorted; a row that is refused leaves no item behind.
func TestItems(t *testing.T) {
	table, _ := ReadTable("prices.csv", strings.NewReader(header+
		"2026-01-01,b,sold,,,5,EUR,,,,\n2026-01-01,ghost,sold,,,0,EUR,,,,\n2026-01-01,a/1,sold,,,5,EUR,,,,\n2026-01-01,b,sold,,,5,EUR,,,,\n"))
	if diff := cmp.Diff([]string{"a/1", "b"}, table.Items()); diff != "" {
		t.Errorf("items differ (-want +got):\n%s", diff)
	}
	if rows := table.Rows("ghost"); len(rows) != 0 {
		t.Errorf("a refused row is there: %v", rows)
	}
}

// write is a table as a file.
func write(rows []Row) string {
	var b strings.Builder
	b.WriteString(header)
	w := csv.NewWriter(&b)
	for _, r := range rows {
		kind := "sold"
		if r.Asked {
			kind = "asked"
		}
		w.Write([]string{day.String(dayOf(r.Day)), r.Item, kind, r.Grade, r.Lacking, r.Price.String(), string(r.Currency),
			r.Postage.String(), strconv.Itoa(r.Qty), r.Source, r.Note})
	}
	w.Flush()
	return b.String()
}
