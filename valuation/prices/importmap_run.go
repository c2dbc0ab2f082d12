package prices

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"lotgauge/valuation/diag"
)

// Imported is what a file comes to by a map. Each row of the file that says
// something is in one of the three lists or counted as skipped.
type Imported struct {
	Rows    []Row     // new ones, that a price table may hold, in the order of the file; Line is that of the file
	Seen    []Row     // those that the table has already
	Failed  []Failure // those that cannot be read
	Skipped int       // those that a skip rule leaves out
}

// Failure is a row of an imported file that is no row of a price table.
type Failure struct {
	Line   int    // in the file, from 1, where the row begins
	Reason string // what is wrong with it, all of it, on one line
	Text   string // the first line of the row, shortened
}

// Import reads a CSV file by the map, row by row. A row that cannot be read is
// listed as failed and stops no other.
//
// Rows that the table known has already are told by their content: date, item,
// kind, grade, lacking, price, currency, postage, qty and source, with numbers
// compared by value and what is lacking in any order. They are counted: of two
// equal rows of the file, of which the table has one, one is new. A nil known
// has no rows.
//
// The diagnostics are about the file as a whole: it cannot be read, has not the
// columns that the map names, is no text. With an error among them nothing
// should be added. file is its name in them.
func (m *Map) Import(file string, r io.Reader, known *Table) (*Imported, diag.List) {
	in := m.newImporter(file, r, known)
	if in.readHeader() {
		in.readRows()
	}
	in.ended()
	return in.out, in.reports.list()
}

// importer is the state of one Import.
type importer struct {
	*Map
	records  csvRecords
	reports  reports
	resolved map[columnRef]int // place of each column in a record
	width    int               // cells of the header, or of the first row
	seen     *seen
	out      *Imported
	// Of the row that is being read:
	cells    []string
	row      Row      // as far as it is
	label    string   // the currency that stands beside its price
	problems []string // what is wrong with it
}

// newImporter puts the guard, and then the decoder, between the file and the
// reader of records.
func (m *Map) newImporter(file string, r io.Reader, known *Table) *importer {
	var text io.Reader = &guard{from: r}
	if m.charset != nil {
		text = m.charset.NewDecoder().Reader(text)
	}
	lines := bufio.NewReaderSize(text, MaxLine)
	skipMark(lines)
	return &importer{
		Map:      m,
		records:  csvRecords{csvSyntax: m.syntax, lines: lines},
		reports:  reports{file: file},
		resolved: map[columnRef]int{},
		seen:     newSeen(known),
		out:      &Imported{},
	}
}

// readRows reads the records after the header.
func (in *importer) readRows() {
	for rec, ok := in.records.next(); ok; rec, ok = in.records.next() {
		if rec.fault == "" {
			rec.fault = in.misfit(rec)
		}
		if rec.fault != "" {
			in.fail(rec, rec.fault)
			continue
		}
		in.cells, in.problems = rec.cells, nil
		in.row, in.label = Row{Line: rec.line}, ""
		if strings.TrimSpace(strings.Join(rec.cells, "")) != "" {
			in.readRow(rec)
		}
	}
}

// misfit is why a record is no row of its file: cells are missing or too many,
// or not text. Empty ones at the end are no matter.
func (in *importer) misfit(rec csvRecord) string {
	if in.width == 0 {
		in.width = len(rec.cells)
	}
	extra := strings.Join(rec.cells[min(in.width, len(rec.cells)):], "")
	if len(rec.cells) < in.width || strings.TrimSpace(extra) != "" {
		return fmt.Sprintf("the row has %d cells, not %d: is there a separator inside a text?", len(rec.cells), in.width)
	}
	for _, cell := range rec.cells[:in.width] {
		if !utf8.ValidString(cell) {
			return notUTF8 + ": try " + tryEncoding + in.file
		}
	}
	return ""
}

// readRow reads a record into one of the lists, or counts it as skipped. Skip rules
// come first: what the user leaves out need not be well-formed.
func (in *importer) readRow(rec csvRecord) {
	for _, skip := range in.skips {
		if _, fits := skip.fits(in.cell); fits {
			in.out.Skipped++
			return
		}
	}
	in.fillRow()
	switch {
	case len(in.problems) > 0:
		in.fail(rec, strings.Join(in.problems, "; "))
	case in.seen.take(in.row):
		in.out.Seen = append(in.out.Seen, in.row)
	default:
		in.out.Rows = append(in.out.Rows, in.row)
	}
}

// fail lists a record as failed. Its text is shown, perhaps on a terminal: control
// characters and what is not UTF-8 do not get there.
func (in *importer) fail(rec csvRecord, reason string) {
	const shown = 100
	text := []rune(oneLine(strings.ToValidUTF8(rec.text, "\uFFFD")))
	if len(text) > shown {
		text = append(text[:shown], '…')
	}
	in.out.Failed = append(in.out.Failed, Failure{rec.line, reason, string(text)})
}

// ended reports why the lines ended, if not at the end of the file.
func (in *importer) ended() {
	r := tableReader{reports: in.reports}
	if in.records.err != nil {
		r.ended(in.records.err)
	}
	in.reports = r.reports
}
