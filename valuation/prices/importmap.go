package prices

import (
	"fmt"
	"slices"

	"golang.org/x/text/encoding/charmap"

	"lotgauge/valuation/diag"
)

// A Map says how the rows of somebody else's CSV file, such as the export of a
// place of sale, become rows of a price table. It is read by [ReadMap] and not
// changed afterwards. Its file is TOML:
//
//	format = 1
//
//	[csv]                        # all optional
//	separator = ";"              # default ","
//	quote = '"'                  # the default; "" if texts are never quoted
//	comment = "#"                # lines that begin with it are left out; default none
//	header = true                # the default; false: columns have numbers only
//	skip_lines = 0               # lines before the header
//	encoding = "windows-1252"    # utf-8 (default), latin-1 or windows-1252
//	decimal = ","                # default "."
//	thousands = "."              # default none
//	date = "dd.mm.yyyy*"         # or several with | between; default "yyyy-mm-dd"
//	months = ["Jan", "Feb", …]   # twelve names for mmm; default the English ones
//
//	[columns]                    # a name in the header, or a number from 1
//	date = "Datum"               # also item, kind, grade, lacking, price,
//	price = 4                    # currency, postage, qty, source, note
//
//	[values.kind]                # what a cell stands for, for any column
//	"verkauft" = "sold"
//
//	[defaults]                   # where there is no column, or nothing in it;
//	currency = "EUR"             # any column but date and price
//
//	[[skip]]                     # rows to leave out: all patterns must be found
//	when = { "Status" = "^storniert$" }
//
//	[[item]]                     # item, kind, grade and lacking by patterns
//	when = { "Titel" = '(?i)\bCE4\b.*(60\d\d)' }
//	item = "pellworth-ce4/$1"
//	grade = "good"
//
// Patterns are those of package regexp, https://github.com/google/re2/wiki/Syntax,
// found anywhere in the cell of a column. They take time in proportion to the
// cell, whatever the pattern, so a map cannot hang an import.
// $1 is what the first group found, counted through all patterns of a rule in
// their order; ${1} and ${name} do too, and $$ is a dollar. Item, kind, grade
// and lacking each come from the first rule that fits and names them, else from
// their column, else from the defaults.
//
// A price may have its currency before or after it: a code, € or what
// [values.currency] knows.
type Map struct {
	file      string
	syntax    csvSyntax
	charset   *charmap.Charmap // nil: UTF-8
	skipLines int
	header    bool
	numbers   numberFormat
	dates     []datePattern
	columns   [columnCount]*columnRef        // nil: not in the file
	values    [columnCount]map[string]string // by the folded text of the cell
	defaults  [columnCount]string
	skips     []condition
	rules     []itemRule
}

// columnRef is a column of the file to import, by name or by number.
type columnRef struct {
	name   string // "" if by number
	number int    // from 1
	pos    diag.Pos
	key    string // in the map
}

// ReadMap reads an import map; see [Map] for its keys. What is wrong with it
// goes into doc; the Map is usable only if that is without errors.
func ReadMap(doc *diag.Document) *Map {
	t := doc.Root()
	r := mapReader{&Map{file: doc.File()}}
	if t.Need("format", "format = 1 in the first line") {
		t.Integer("format", 1, 1, 1)
	}
	r.readCSV(t.Child("csv"))
	r.readColumns(t)
	r.readValues(t.Child("values"))
	r.readDefaults(t.Child("defaults"))
	for _, s := range t.Children("skip") {
		r.skips = append(r.skips, r.condition(s))
	}
	for _, s := range t.Children("item") {
		r.rules = append(r.rules, r.rule(s))
	}
	r.complete(t)
	t.Finish()
	return r.Map
}

// mapReader fills a Map from its document.
type mapReader struct{ *Map }

// readCSV reads how the file is written. A nil table has all the defaults.
func (r mapReader) readCSV(t *diag.Table) {
	r.syntax.separator = character(t, "separator", ',')
	r.syntax.quote = character(t, "quote", '"')
	r.syntax.comment = character(t, "comment", 0)
	if r.syntax.separator == 0 {
		t.Report("separator", "empty", `one character such as ";"`, "")
	}
	if r.syntax.quote == r.syntax.separator {
		t.Report("quote", "the same as the separator", "another character", "")
	}
	r.header = t.Flag("header", true)
	r.skipLines = t.Integer("skip_lines", 0, 0, 1000)
	r.charset = charsets[t.Choice("encoding", "utf-8", "utf-8", "latin-1", "windows-1252")]
	r.readNumbers(t)
	r.readDates(t)
}

// charsets are the encodings beside UTF-8 that spreadsheets in western Europe
// write: ISO 8859-1, and the code page of Windows, which has the euro sign and
// others in the places 0x80 to 0x9F where ISO 8859-1 has control characters:
// https://encoding.spec.whatwg.org/index-windows-1252.txt.
var charsets = map[string]*charmap.Charmap{
	"latin-1":      charmap.ISO8859_1,
	"windows-1252": charmap.Windows1252,
}

// readNumbers reads how decimals and thousands are marked.
func (r mapReader) readNumbers(t *diag.Table) {
	r.numbers.decimal = character(t, "decimal", '.')
	r.numbers.thousands = unify(character(t, "thousands", 0))
	switch {
	case r.numbers.decimal == 0, isDigit(r.numbers.decimal):
		t.Report("decimal", "this is no mark of decimals", `"." or ","`, "")
	case r.numbers.thousands == r.numbers.decimal:
		t.Report("thousands", "the same as the mark of decimals", "another character", "")
	case isDigit(r.numbers.thousands):
		t.Report("thousands", "this is no mark of thousands", `"." or "," or " " or "'"`, "")
	}
}

// readDates reads the patterns of dates.
func (r mapReader) readDates(t *diag.Table) {
	months := englishMonths
	if t.Has("months") {
		if months = t.Texts("months"); len(months) != len(englishMonths) {
			t.Report("months", fmt.Sprintf("%d names of months", len(months)), "twelve, January first", "")
			return
		}
	}
	r.dates, _ = diag.Parse(t, "date", `a pattern of yyyy, mm and dd such as "dd.mm.yyyy"`,
		func(text string) ([]datePattern, error) { return newDatePatterns(text, months) })
	if !t.Has("date") {
		r.dates = []datePattern{isoDate}
	}
}

// readColumns reads where the columns are.
func (r mapReader) readColumns(t *diag.Table) {
	columns := t.Child("columns")
	for c, name := range columnNames {
		if columns.Has(name) {
			r.columns[c] = r.column(columns, name)
		}
	}
}

// column reads a column of the file: its name or its number.
func (r mapReader) column(t *diag.Table, key string) *columnRef {
	ref := &columnRef{pos: t.Pos(key), key: t.Path() + "." + key}
	if t.IsNumber(key) {
		ref.number = t.Integer(key, 1, 1, maxCells)
		return ref
	}
	if ref.name = t.Required(key); ref.name != "" && !r.header {
		t.Report(key, "a file without a header has no names", "the number of the column, from 1", "")
	}
	return ref
}

// readValues reads what cells stand for, for each column.
func (r mapReader) readValues(t *diag.Table) {
	for c, name := range columnNames {
		values := t.Child(name)
		if values == nil {
			continue
		}
		r.values[c] = map[string]string{}
		for _, cell := range values.Keys() {
			r.values[c][fold(cell)] = r.plainText(values, cell, column(c))
		}
	}
}

// readDefaults reads what holds where a file says nothing. A date or a price for
// all rows would be made up.
func (r mapReader) readDefaults(t *diag.Table) {
	for c, name := range columnNames {
		if c != int(dateColumn) && c != int(priceColumn) && t.Has(name) {
			r.defaults[c] = r.plainText(t, name, column(c))
		}
	}
}

// plainText is a text that must be one of a column of a price table: values and
// defaults are written as there, whatever the formats of the file, so that a map
// reads like the table it leads to.
func (r mapReader) plainText(t *diag.Table, key string, c column) string {
	text := t.Text(key)
	if bad := new(Row).set(c, text); bad != nil && !(text == "" && c == gradeColumn) {
		t.Report(key, bad.summary, bad.expected, bad.try)
	}
	return text
}

// complete reports what no row of any file could have by this map.
func (r mapReader) complete(t *diag.Table) {
	for c := range requiredColumns {
		name := columnNames[c]
		switch {
		case r.columns[c] != nil, r.defaults[c] != "", r.ruled(c):
		case c == currencyColumn && r.values[c] != nil: // beside the price
		case c == dateColumn, c == priceColumn:
			t.Report("", "nothing says where the "+name+" is", fmt.Sprintf("[columns] with %s = \"…\"", name), "")
		case c == itemColumn:
			t.Report("", "nothing says what the item is", "[[item]] with patterns, or [columns] with item", "")
		default:
			t.Report("", "nothing says what the "+name+" is", fmt.Sprintf("[columns] or [defaults] with %s", name), "")
		}
	}
}

// ruled reports whether a rule names the column.
func (r mapReader) ruled(c column) bool {
	return slices.ContainsFunc(r.rules, func(rule itemRule) bool { return rule.sets[c] != nil })
}
