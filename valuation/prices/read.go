package prices

import (
	"bufio"
	"encoding/csv"
	"errors"
	"io"
	"io/fs"
	"slices"
	"unicode/utf8"

	"lotgauge/valuation/diag"
)

// ReadTable reads prices.csv: comma-separated text in UTF-8 with a header. The
// columns date, item, kind, price and currency must be there; grade, lacking,
// postage, qty, source and note may be; others are not read. Empty lines and
// lines that begin with # are left out. file is the name for diagnostics.
//
// Quoting is that of RFC 4180: a text with a comma, a quote or a line end in it
// stands in quotes, and a quote in it is written twice.
//
// A bad row is reported and left out, and reading goes on; at most
// [MaxReports] diagnostics are kept. The Table is never nil.
func ReadTable(file string, r io.Reader) (*Table, diag.List) {
	in := newTableReader(file, r)
	cells, ok := in.next()
	switch {
	case in.reports.count > 0: // the header could not be read
	case !ok:
		in.reports.error(0, 0, "the file is empty", "a header such as "+exampleHeader, "")
	case in.readHeader(cells):
		in.readRows()
	}
	return in.table, in.reports.list()
}

// tableReader is the state of one ReadTable. The bytes pass through the guard,
// which ends what is no text in lines, and encoding/csv, which cuts them into
// cells; the record it hands out is used again for the next row, so whatever is
// kept of it is copied.
type tableReader struct {
	layout
	table   *Table
	csv     *csv.Reader
	guard   *guard
	expect  int // size of the file if known
	reports reports
	doubts  int // warnings among the reports
}

func newTableReader(file string, r io.Reader) *tableReader {
	in := &tableReader{
		table: &Table{file: file, items: newSymbols(), grades: newSymbols(), lackings: newSymbols(),
			currencies: newSymbols(), sources: newSymbols()},
		guard:   &guard{from: r},
		expect:  sizeOf(r),
		reports: reports{file: file},
	}
	buffered := bufio.NewReaderSize(in.guard, MaxLine)
	skipMark(buffered)
	in.csv = csv.NewReader(buffered)
	in.csv.Comment = '#'
	in.csv.FieldsPerRecord = -1 // counted by wellFormed, which knows the header
	in.csv.ReuseRecord = true
	return in
}

// skipMark skips the byte order mark that some spreadsheets begin UTF-8 with.
func skipMark(r *bufio.Reader) {
	if mark, _ := r.Peek(3); string(mark) == "\uFEFF" {
		r.Discard(3)
	}
}

// sizeOf is the number of bytes that r will give if it says so, else 0.
func sizeOf(r io.Reader) int {
	switch r := r.(type) {
	case interface{ Len() int }:
		return r.Len()
	case interface{ Stat() (fs.FileInfo, error) }:
		if info, err := r.Stat(); err == nil {
			return int(min(info.Size(), MaxTable))
		}
	}
	return 0
}

// next is the next record that is well-formed CSV; false at the end.
func (r *tableReader) next() ([]string, bool) {
	for {
		cells, err := r.csv.Read()
		if err == nil {
			return cells, true
		}
		if !r.goOn(err) {
			return nil, false
		}
	}
}

// goOn reports what csv.Reader refused; false if that was the last of the file.
func (r *tableReader) goOn(err error) bool {
	var bad *csv.ParseError
	if errors.As(err, &bad) {
		r.badQuotes(bad)
		return true
	}
	r.ended(err)
	return false
}

// badQuotes reports a record whose quotes do not match.
func (r *tableReader) badQuotes(bad *csv.ParseError) {
	summary := "a quote inside a text that is not quoted"
	if errors.Is(bad.Err, csv.ErrQuote) {
		summary = "a quoted text does not end where a comma or the line does"
	}
	column := bad.Column
	if bad.Line != bad.StartLine {
		column = 0
	}
	r.reports.error(bad.StartLine, column, summary,
		`the whole text in quotes, with "" for a quote in it`, "")
}

// ended reports why reading ended, if not at the end of the file.
func (r *tableReader) ended(err error) {
	var f *fault
	switch {
	case errors.As(err, &f):
		r.reports.error(f.line, 0, f.summary, f.expected, f.try)
	case err != io.EOF:
		r.reports.error(0, 0, "the file cannot be read: "+err.Error(), "", "")
	}
}

// readRows reads all rows after the header.
func (r *tableReader) readRows() {
	for cells, ok := r.next(); ok; cells, ok = r.next() {
		r.readRow(cells)
	}
}

// reserve makes room for all rows once the first of them show how long a row
// is, so that a large table is not copied over and over as it grows. A reader
// that does not say how much it has gets no room in advance.
func (r *tableReader) reserve() {
	const sample = 256
	if len(r.table.rows) != sample || r.expect == 0 {
		return
	}
	perRow := int(r.csv.InputOffset())/sample + 1
	more := r.expect / perRow * 21 / 20
	r.table.rows = slices.Grow(r.table.rows, max(more-sample, 0))
	r.table.notes = slices.Grow(r.table.notes, len(r.table.notes)/sample*more)
}

// line is that of the record read last.
func (r *tableReader) line() int {
	line, _ := r.csv.FieldPos(0)
	return line
}

// place is the line and column of a cell of the record read last. Columns of
// [diag.Pos] are characters, those of encoding/csv bytes.
func (r *tableReader) place(cells []string, i int) (line, col int) {
	line, col = r.csv.FieldPos(i)
	for j := range i {
		if at, _ := r.csv.FieldPos(j); at == line {
			col -= len(cells[j]) - utf8.RuneCountInString(cells[j])
		}
	}
	return line, max(col, 1)
}

// refuse reports a cell that is not what its column holds.
func (r *tableReader) refuse(c column, cells []string, summary, expected, try string) {
	line, col := r.place(cells, r.at[c])
	r.reports.add(diag.Diagnostic{Severity: diag.Error, Pos: diag.Pos{Line: line, Column: col},
		Key: columnNames[c], Summary: summary, Expected: expected, Try: try})
}
