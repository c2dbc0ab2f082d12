package prices

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// MaxRates is the size in bytes above which a file of rates is refused; the
// European Central Bank's history was 1.7 MB long in 2026.
const MaxRates = 16 << 20

// ReadRates reads a file of exchange rates in the layout of the European
// Central Bank's reference-rate history: a header Date,USD,JPY,… with any of
// its columns, then one row a day with the units of each currency per 1 EUR,
// N/A or nothing where there is none, in any order of days. The bank's habits
// are allowed for: a comma after the last column, and in its file of one day
// spaces after commas and a date such as 19 February 2024. Empty lines and
// lines that begin with # are left out. file is the name for diagnostics.
//
// Every cell is checked here, so a fault is found before it is needed; at most
// [MaxReports] diagnostics are kept. A row with a fault is left out. The Rates
// are never nil.
func ReadRates(file string, r io.Reader) (*Rates, diag.List) {
	in := &ratesReader{rates: &Rates{file: file, columns: map[money.Currency]int{}}, reports: reports{file: file}}
	if in.load(r) && in.readHeader() {
		in.readRows()
	}
	return in.rates, in.reports.list()
}

// ratesReader is the state of one ReadRates.
type ratesReader struct {
	rates   *Rates
	rest    string // what is not read yet
	lineNo  int
	used    []bool // by place in the header, the date's first: whether it has a currency
	reports reports
}

// load reads the file whole and refuses what is not text.
func (r *ratesReader) load(from io.Reader) bool {
	var text bytes.Buffer
	text.Grow(min(sizeOf(from), MaxRates) + bytes.MinRead)
	_, err := text.ReadFrom(io.LimitReader(from, MaxRates+1))
	data := bytes.TrimPrefix(text.Bytes(), []byte("\uFEFF"))
	fault := ""
	expected := "text in the layout of the European Central Bank's reference-rate history"
	switch {
	case err != nil:
		fault, expected = "the file cannot be read: "+err.Error(), ""
	case text.Len() > MaxRates:
		fault, expected = "the file is too large", fmt.Sprintf("at most %d MiB", MaxRates>>20)
	case bytes.IndexByte(data, 0) >= 0:
		fault = "this is a binary file"
	case !utf8.Valid(data):
		fault, expected = "the text is not UTF-8", "UTF-8"
	}
	if fault != "" {
		r.reports.error(0, 0, fault, expected, "")
		return false
	}
	r.rest = string(data)
	return true
}

// line is the next line that says something, without the spaces after it. The
// file is not read with encoding/csv: no cell may hold a comma or a line end.
func (r *ratesReader) line() (string, bool) {
	for r.rest != "" {
		line, rest, _ := strings.Cut(r.rest, "\n")
		r.rest = rest
		r.lineNo++
		if line = strings.TrimRight(line, " \r"); line != "" && line[0] != '#' {
			return line, true
		}
	}
	return "", false
}

// readHeader finds out which column is which currency.
func (r *ratesReader) readHeader() bool {
	header, ok := r.line()
	if !ok {
		r.reports.error(0, 0, "the file is empty", "a header such as Date,USD,JPY", "")
		return false
	}
	names := strings.Split(header, ",")
	if len(names) == 1 && strings.Contains(header, ";") {
		r.reports.error(r.lineNo, 0, "the columns are separated by semicolons", "a header such as Date,USD,JPY",
			"the file as the European Central Bank publishes it")
		return false
	}
	if !strings.EqualFold(unquoted(names[0]), "date") {
		r.reports.error(r.lineNo, 1, fmt.Sprintf("the first column is %s", quote(names[0])),
			"a header such as Date,USD,JPY", "")
		return false
	}
	r.used = make([]bool, len(names))
	column := len(names[0]) + 2
	for i, name := range names[1:] {
		r.used[i+1] = r.name(unquoted(name), column)
		column += utf8.RuneCountInString(name) + 1
	}
	return r.reports.count == 0
}

// name takes in one name of the header; false if the column has none.
func (r *ratesReader) name(name string, column int) bool {
	if name == "" {
		return false
	}
	currency, err := money.ParseCurrency(name)
	_, twice := r.rates.columns[currency]
	switch {
	case err != nil:
		r.reports.error(r.lineNo, column, err.Error(), "an ISO 4217 code such as USD", "")
	case twice:
		r.reports.error(r.lineNo, column, fmt.Sprintf("there are two columns %s", name), "each currency once", "")
	case currency == base:
		r.reports.error(r.lineNo, column, "there is a column EUR", "other currencies, in units per 1 EUR", "")
	default:
		r.rates.columns[currency] = len(r.rates.columns)
	}
	return true
}

// readRows reads all rows and puts their days in order.
func (r *ratesReader) readRows() {
	x := r.rates
	// No more room than the text can fill: a cell has a comma, a date ten bytes.
	lines := min(strings.Count(r.rest, "\n")+1, len(r.rest)/len(time.DateOnly))
	x.days = make([]rateDay, 0, lines)
	x.cells = make([]digits, 0, min(lines*len(x.columns), len(r.rest)))
	for line, ok := r.line(); ok; line, ok = r.line() {
		at := len(x.cells)
		if d, ok := r.row(line); ok {
			x.days = append(x.days, rateDay{d, r.lineNo, at})
		} else {
			x.cells = x.cells[:at]
		}
	}
	slices.SortFunc(x.days, func(a, b rateDay) int {
		return cmp.Or(cmp.Compare(a.day, b.day), cmp.Compare(a.line, b.line))
	})
	for i := 1; i < len(x.days); i++ {
		if x.days[i].day == x.days[i-1].day {
			r.reports.error(x.days[i].line, 1, fmt.Sprintf("there are two rows of %s", x.days[i].day),
				"each day once", "")
		}
	}
}
