package prices

import (
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"golang.org/x/text/encoding/charmap"
)

// germanMap is for an export with German numbers and dates, in the code page of
// Windows.
const germanMap = `format = 1
[csv]
separator = ";"
encoding = "windows-1252"
decimal = ","
thousands = "."
date = "dd.mm.yyyy*"
[columns]
date = "Verkauft am"
kind = "Art"
price = "Preis"
postage = "Versand"
qty = "Menge"
grade = "Zustand"
lacking = "Fehlt"
source = 9
note = "Titel"
[values.kind]
"verkauft" = "sold"
"Angebot" = "asked"
[values.grade]
"sehr gut" = "very-good"
"gut" = "good"
"" = ""
[values.postage]
"frei" = "0"
[values.lacking]
"Karton" = "box:missing"
[values.currency]
"Fr." = "CHF"
[defaults]
currency = "EUR"
kind = "sold"
postage = "4.50"
[[skip]]
when = { Art = "^storniert$" }
[[item]]
when = { Titel = '(?i)\bCE4\b.*\b(60\d\d)\b' }
item = "pellworth-ce4/$1"
[[item]]
when = { Titel = "Stromabnehmer", "2" = "^(?P<colour>schwarz|grau)$" }
item = "pantograph-${colour}"
grade = "good"
[[item]]
when = { Titel = "Bastler" }
grade = "poor"
kind = "asked"
`

const germanHeader = "Titel;Farbe;Verkauft am;Art;Preis;Versand;Menge;Zustand;Ort;Fehlt\n"

// inWindows1252 is a text in that encoding.
func inWindows1252(t *testing.T, text string) string {
	t.Helper()
	out, err := charmap.Windows1252.NewEncoder().String(text)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestImport(t *testing.T) {
	m := readMap(t, germanMap)
	out := imported(t, m, inWindows1252(t, germanHeader+
		"Lok CE4 grün 6043;;14.03.2026 18:22;verkauft;1.234,50 €;7,00;1;sehr gut;Börse;Karton\n"+
		"Stromabnehmer;schwarz;01.02.2026;ANGEBOT;Fr. 25;frei;2,00;;;\n"+
		"\"Lok \"\"CE4\"\" 6032; Bastler\";;01.02.2026;verkauft;EUR 80,00;EUR 6;;gut;;\"box:missing, papers:missing\"\n"+
		";;;;;;;;;\n"+
		"Lok CE4 6043;;14.03.2026;storniert;1;1;1;gut;;\n"+
		"Lok CE4 6043;;31.02.2026;verschenkt;-3,00;1,0,0;0;mint state;;Deckel\n"+
		"Lampe;;01.02.2026;verkauft;12.50;;;;;;;\n"+
		"Lok CE4 6043;;01.02.2026;verkauft;12,50;CHF 3;;gut;\n"+
		"Lok CE4 6043;;01.02.2026;verkauft;12,50;CHF 3;;gut;;\n"+
		"\"Lok CE4 6043;;01.02.2026;verkauft;12,50;;;gut;;\n"+
		"Lok CE4 6036;;01.02.2026;verkauft;12,50;;;gut;;;x\n"), nil)
	if out.Skipped != 1 {
		t.Errorf("%d rows skipped", out.Skipped)
	}
	wantImport(t, out,
		"2: 2026-03-14 pellworth-ce4/6043 sold 1234.50 EUR very-good box:missing 7.00 Börse Lok CE4 grün 6043",
		"3: 2026-02-01 pantograph-schwarz asked 25.00 CHF good 2 Stromabnehmer",
		// The third rule names kind and grade, the first the item.
		`4: 2026-02-01 pellworth-ce4/6032 asked 80.00 EUR poor box:missing papers:missing 6.00 Lok "CE4" 6032; Bastler`,
		`failed 7: date: "31.02.2026" is not a day as the map has them; kind: unknown kind "verschenkt", expected sold or asked; `+
			`price: "-3,00" is negative; grade: "mint state" is not a grade, expected the id of a grade, such as good; `+
			`lacking: "Deckel" is not what a model lacks, expected point:state such as box:missing, with spaces between several; `+
			`postage: "1,0,0" is not a number with decimals after ',' and thousands grouped with '.'; qty: "0" is not a number of pieces, expected a whole number from 1`,
		`failed 8: item: no pattern of the map fits; price: "12.50" is not a number with decimals after ',' and thousands grouped with '.'`,
		"failed 9: the row has 9 cells, not 10: is there a separator inside a text?",
		"failed 10: postage: it is in CHF, the price in EUR",
		"failed 11: a quoted text does not end",
		"failed 12: the row has 11 cells, not 10: is there a separator inside a text?")
	for _, r := range out.Rows {
		if err := r.Check(); err != nil {
			t.Errorf("%+v: %v", r, err)
		}
	}
}

// What a failure shows is one line without control characters, shortened.
func TestFailureText(t *testing.T) {
	m := readMap(t, least)
	out := imported(t, m, "date,item,price\n\x1b[31m"+strings.Repeat("é", 200)+"\xff,x\n", nil)
	want := Failure{2, "the row has 2 cells, not 3: is there a separator inside a text?", "[31m" + strings.Repeat("é", 96) + "…"}
	if diff := cmp.Diff([]Failure{want}, out.Failed); diff != "" {
		t.Error(diff)
	}
}

// Columns by number, no header, lines before the first row, comments, and text
// that is not quoted.
func TestImportWithoutHeader(t *testing.T) {
	m := readMap(t, `format = 1
[csv]
header = false
skip_lines = 2
separator = "\t"
quote = ""
comment = "%"
date = "d-mmm-yy | yyyy-mm-dd"
[columns]
item = 1
date = 3
price = 2
currency = 4
kind = 5
[[skip]]
when = { "5" = "lost" }
`)
	out := imported(t, m, "Sales of \"last year\nprinted today\nlamp\t5\t4-Mar-26\teur\tsold\n% lamp\nlamp\t6\t2026-03-05\t€\tAsked\nlamp\t7\t2026-03-05\tGBP\tlost\nlamp\t7\t2026-03-05\tGBP\t\nlamp\t7\t2026-03-05\tXYZ\tsold\n", nil)
	wantImport(t, out,
		"3: 2026-03-04 lamp sold 5.00 EUR",
		"5: 2026-03-05 lamp asked 6.00 EUR",
		"failed 7: kind: nothing is there",
		`failed 8: currency: unknown currency "XYZ", expected an ISO 4217 code such as EUR`)
	if out.Skipped != 1 {
		t.Errorf("%d rows skipped", out.Skipped)
	}
}

// Of the rules that fit, the first that has something for a column sets it; one
// whose groups found nothing has nothing. Rules go before columns, columns before
// defaults.
func TestImportRules(t *testing.T) {
	m := readMap(t, least+`grade = "grade"
[[item]]
when = { item = '^(?:no (\d+)|lamp)' }
item = "part-$1"
grade = "$1"
[[item]]
when = { item = 'lamp' }
item = "lamp"
grade = "good"
[[item]]
when = { item = 'dear', price = '^(\d+)\.(?P<cents>\d\d)$' }
item = "for-${2}1$$${cents}"
[[item]]
when = { item = 'asked' }
kind = "asked"
lacking = "box:missing"
`)
	out := imported(t, m, "date,item,price,grade\n2026-01-01,no 7 lamp,5,fair\n2026-01-01,lamp,5,\n2026-01-01,dear,5.25,fair\n2026-01-01,asked,5,fair\n2026-01-01,other,5,\n", nil)
	wantImport(t, out,
		"2: 2026-01-01 part-7 sold 5.00 EUR 7",
		"3: 2026-01-01 part- sold 5.00 EUR good",
		"5: 2026-01-01 asked asked 5.00 EUR fair box:missing",
		"6: 2026-01-01 other sold 5.00 EUR",
		`failed 4: item: "for-251$25" is not an item, expected a part such as lamp-black, or family/variant such as pellworth-ce4/6043`)
}

// The currency of the column, the one beside the price and the default.
func TestImportCurrency(t *testing.T) {
	m := readMap(t, least+"currency = \"cur\"\n[values.currency]\n\"$\" = \"USD\"\n")
	const header = "date,item,price,cur\n"
	for row, want := range map[string]string{
		"5,":       "5.00 EUR",
		"5,GBP":    "5.00 GBP",
		"5,$":      "5.00 USD",
		"$5,":      "5.00 USD",
		"$5,usd":   "5.00 USD",
		"5 chf,":   "5.00 CHF",
		"$5,GBP":   `currency: it is "GBP", beside the price "USD"`,
		"5 Taler,": `currency: unknown currency "TALER", expected an ISO 4217 code such as EUR`,
		"0,":       "price: the price is 0, expected a price above 0",
		",":        "price: nothing is there",
	} {
		out := imported(t, m, header+"2026-01-01,lamp,"+row+"\n", nil)
		if strings.Contains(want, ":") {
			wantImport(t, out, "failed 2: "+want)
		} else {
			wantImport(t, out, "2: 2026-01-01 lamp sold "+want)
		}
	}
}

// What concerns the file as a whole is said once, at the place in the map where
// that is what names the column.
func TestImportFileFaults(t *testing.T) {
	m := readMap(t, least+"[[item]]\nwhen = { Titel = 'x', \"7\" = 'y' }\nitem = \"lamp\"\n[[skip]]\nwhen = { date = 'x' }\n")
	const columns = `expected one of "Date", "artcle", "price"`
	for text, want := range map[string][]string{
		"":       {"export.csv: there is no header: expected the names of the columns; try to set header or skip_lines in MAP.toml"},
		"\n\n  ": {"export.csv: there is no header: expected the names of the columns; try to set header or skip_lines in MAP.toml"},
		"Date,artcle,price\n2026-01-01,lamp,5\n": {
			`MAP.toml:7:8: columns.item: export.csv has no column "item": ` + columns,
			`MAP.toml:10:18: item[1].when: export.csv has no column "Titel": ` + columns,
			`MAP.toml:10:29: item[1].when: export.csv has no column 7: expected at most 3`},
		"date;item;price": {
			`MAP.toml:6:8: columns.date: export.csv has no column "date": expected one of "date;item;price"; try separator = ";"`,
			`MAP.toml:7:8: columns.item: export.csv has no column "item": expected one of "date;item;price"; try separator = ";"`,
			`MAP.toml:8:9: columns.price: export.csv has no column "price": expected one of "date;item;price"; try separator = ";"`,
			`MAP.toml:10:18: item[1].when: export.csv has no column "Titel": expected one of "date;item;price"; try separator = ";"`,
			`MAP.toml:10:29: item[1].when: export.csv has no column 7: expected at most 1`,
			`MAP.toml:13:17: skip[1].when: export.csv has no column "date": expected one of "date;item;price"; try separator = ";"`},
		"date,item,price,Titel,DATE,6,7": {
			`MAP.toml:6:8: columns.date: export.csv has two columns "date": expected the number of one, from 1`,
			`MAP.toml:13:17: skip[1].when: export.csv has two columns "date": expected the number of one, from 1`},
		"date,\"item\nprice": {"export.csv:1: a quoted text does not end: expected the names of the columns; try to set quote or skip_lines in MAP.toml"},
		"d\xe4te,item,price": {`export.csv:1: the text is not UTF-8: expected UTF-8, or the encoding that the map says; try to set encoding = "windows-1252" in MAP.toml`},
		"d\x00":              {"export.csv:1: this is a binary file: expected comma-separated text in UTF-8; try to save it from the spreadsheet as CSV, UTF-8"},
	} {
		out, faults := m.Import("export.csv", strings.NewReader(text), nil)
		wantFaults(t, faults, want...)
		if len(out.Rows) != 0 {
			t.Errorf("%q: %d rows", text, len(out.Rows))
		}
	}
}

// A file that ends early says so; the rows before that are there.
func TestImportEndsEarly(t *testing.T) {
	m := readMap(t, least)
	const text = "date,item,price\n2026-01-01,lamp,5\n"
	for want, r := range map[string]io.Reader{
		"export.csv: the file cannot be read: the disk is gone":                                                               io.MultiReader(strings.NewReader(text), iotest.ErrReader(errors.New("the disk is gone"))),
		"export.csv:3: a line is longer than 64 KiB: expected one row on each line; try to save it with LF or CRLF line ends": strings.NewReader(text + strings.Repeat("x", MaxLine+1)),
		"export.csv:3: this is a binary file: expected comma-separated text in UTF-8; try to save it from the spreadsheet as CSV, UTF-8": strings.NewReader(
			text + "2026-01-01,lamp\x00,5\n"),
	} {
		out, faults := m.Import("export.csv", r, nil)
		wantFaults(t, faults, want)
		wantImport(t, &Imported{Rows: out.Rows}, "2: 2026-01-01 lamp sold 5.00 EUR")
	}
}

// Text that is not in the encoding of the map fails row by row; a byte order
// mark is passed over.
func TestImportEncodings(t *testing.T) {
	m := readMap(t, least+"note = \"note\"\n")
	out := imported(t, m, "\uFEFFdate,item,price,note\n2026-01-01,lamp,5,B\xf6rse\n2026-01-01,lamp,6,Börse\n", nil)
	wantImport(t, out, "3: 2026-01-01 lamp sold 6.00 EUR Börse",
		`failed 2: the text is not UTF-8: try to set encoding = "windows-1252" in MAP.toml`)
	m = readMap(t, least+"note = \"note\"\n[csv]\nencoding = \"latin-1\"\n")
	out = imported(t, m, "date,item,price,note\n2026-01-01,lamp,5,B\xf6rse\n", nil)
	wantImport(t, out, "2: 2026-01-01 lamp sold 5.00 EUR Börse")
}

// Rows of the table are told by their content, and counted.
func TestImportSeen(t *testing.T) {
	known := readTable(t, "source,date,item,kind,price,currency,postage,qty,note,grade,lacking\n"+
		"fair,2026-01-01,lamp,sold,5,EUR,,,as the table has it,,\n"+
		"fair,2026-01-02,lamp,sold,7,EUR,1.50,2,,,\n"+
		"fair,2026-01-02,f/1,sold,7,EUR,,,,good,box:missing papers:worn\n"+
		"\"swap  meet,\nhall 2\",2026-01-03,lamp,sold,7,EUR,,,,,\n")
	m := readMap(t, least+`source = "source"
postage = "postage"
qty = "qty"
grade = "grade"
lacking = "lacking"
note = "note"
`)
	out := imported(t, m, "date,item,price,source,postage,qty,grade,lacking,note\n"+
		"2026-01-01,lamp,5.00,fair,0,1,,,\n"+ // the first of the table
		"2026-01-01,lamp,5.00,fair,,,,,\n"+ // a second one is new
		"2026-01-01,lamp,5.01,fair,,,,,\n"+
		"2026-01-02,lamp,7.0,fair,1.5,2,,,x\n"+
		"2026-01-02,lamp,7.0,fair,1.5,1,,,\n"+
		"2026-01-02,lamp,7.0,online,1.5,2,,,\n"+
		"2026-01-02,f/1,7.0,fair,,,good,papers:worn box:missing,\n"+ // in any order
		"2026-01-02,f/1,7.0,fair,,,fair,papers:worn box:missing,\n"+
		"2026-01-03,lamp,7,\"swap meet, hall 2\",,,,,\n", known)
	wantImport(t, out,
		"3: 2026-01-01 lamp sold 5.00 EUR fair",
		"4: 2026-01-01 lamp sold 5.01 EUR fair",
		"6: 2026-01-02 lamp sold 7.00 EUR 1.50 fair",
		"7: 2026-01-02 lamp sold 7.00 EUR 1.50 2 online",
		"9: 2026-01-02 f/1 sold 7.00 EUR fair papers:worn box:missing fair",
		"seen 2: 2026-01-01 lamp sold 5.00 EUR fair",
		"seen 5: 2026-01-02 lamp sold 7.00 EUR 1.50 2 fair x",
		"seen 8: 2026-01-02 f/1 sold 7.00 EUR good papers:worn box:missing fair",
		"seen 10: 2026-01-03 lamp sold 7.00 EUR swap meet, hall 2")
}

// exportOf writes rows as the least map with more columns reads them.
func exportOf(rows []Row) string {
	columns := []string{"date", "item", "price", "kind", "grade", "lacking", "currency", "postage", "qty", "source", "note"}
	return writeRows(columns, rows)
}

// Importing the same file again adds nothing; in whatever parts it comes, in the
// end each row is there as often as in the file that has it most often.
func TestImportTwice(t *testing.T) {
	m := readMap(t, least+"kind = \"kind\"\ngrade = \"grade\"\nlacking = \"lacking\"\ncurrency = \"currency\"\npostage = \"postage\"\nqty = \"qty\"\nsource = \"source\"\nnote = \"note\"\n")
	random := rand.New(rand.NewPCG(4, 4))
	for range 50 {
		var rows []Row
		for range 40 {
			if len(rows) > 0 && random.IntN(3) == 0 {
				rows = append(rows, rows[random.IntN(len(rows))])
				continue
			}
			rows = append(rows, randomRow(random))
		}
		var table []Row
		add := func(part []Row) (added int) {
			known := readTable(t, writeRows(columnNames[:], table))
			out := imported(t, m, exportOf(part), known)
			if len(out.Failed) > 0 || len(out.Rows)+len(out.Seen) != len(part) {
				t.Fatalf("%d new, %d seen of %d, failed %v", len(out.Rows), len(out.Seen), len(part), out.Failed)
			}
			table = append(table, out.Rows...)
			return len(out.Rows)
		}
		cut := random.IntN(len(rows))
		add(rows[:cut])
		add(rows)
		if add(rows) != 0 || add(rows[cut:]) != 0 {
			t.Error("rows seen before were added again")
		}
		if diff := cmp.Diff(tally(rows), tally(table)); diff != "" {
			t.Fatalf("the table differs from the file (-file +table):\n%s", diff)
		}
	}
}

// tally counts rows by content.
func tally(rows []Row) []string {
	counts := map[content]int{}
	for _, r := range rows {
		counts[contentOf(r)]++
	}
	var lines []string
	for c, n := range counts {
		lines = append(lines, fmt.Sprintf("%d %+v", n, c))
	}
	slices.Sort(lines)
	return lines
}

// germanMoney writes an amount as Germans do: 1.234,50 €.
func germanMoney(amount decimal.Decimal) string {
	whole, fraction, _ := strings.Cut(amount.StringFixed(max(2, -amount.Exponent())), ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "." + whole[i:]
	}
	return whole + "," + fraction + " €"
}

// Of a thousand rows written the German way, some of them of no use, the good
// ones come out as they went in, each once, however often the file is imported.
func TestImportThousand(t *testing.T) {
	m := readMap(t, germanMap)
	random := rand.New(rand.NewPCG(4, 19))
	kinds := map[bool]string{false: "verkauft", true: "Angebot"}
	grades := map[string]string{"very-good": "sehr gut", "good": "gut", "": ""}
	var want []Row
	text := germanHeader
	failed := 0
	for i := range 1000 {
		model := 6000 + random.IntN(100)
		r := Row{Line: i + 2, Day: (civil(2020, 1, 1) + day(random.IntN(2000))).time(), Item: fmt.Sprintf("pellworth-ce4/%d", model), Asked: random.IntN(3) == 0,
			Grade: []string{"", "good", "very-good"}[random.IntN(3)], Price: decimal.New(1+random.Int64N(10_000_000), -2), Postage: decimal.New(random.Int64N(2000), -2),
			Currency: "EUR", Qty: 1 + random.IntN(3), Source: fmt.Sprintf("Börse %d", i), Note: fmt.Sprintf("CE4 \"grün\"; %d", model)}
		at := r.Day.Format("02.01.2006 15:04")
		if random.IntN(20) == 0 {
			failed++
			at = r.Day.Format(time.DateOnly)
		} else {
			want = append(want, r)
		}
		text += fmt.Sprintf("\"%s\";;%s;%s;%s;%s;%d,0;%s;%s;\n", strings.ReplaceAll(r.Note, `"`, `""`), at, kinds[r.Asked],
			germanMoney(r.Price), germanMoney(r.Postage), r.Qty, grades[r.Grade], r.Source)
	}
	out := imported(t, m, inWindows1252(t, text), nil)
	if diff := cmp.Diff(want, out.Rows); diff != "" || len(out.Failed) != failed {
		t.Fatalf("%d failed, %d should (-want +got):\n%s", len(out.Failed), failed, diff)
	}
	again := imported(t, m, inWindows1252(t, text), readTable(t, writeRows(columnNames[:], out.Rows)))
	if len(again.Rows) != 0 || len(again.Seen) != len(want) || len(again.Failed) != failed {
		t.Errorf("the second time %d are new, %d seen, %d failed", len(again.Rows), len(again.Seen), len(again.Failed))
	}
}
