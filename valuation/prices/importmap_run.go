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

// readHeader finds the columns that the map names. A file without a header has
// its columns where the map says.
func (in *importer) readHeader() bool {
	for range in.skipLines {
		in.records.line()
	}
	var header csvRecord
	if in.header {
		var ok bool
		if header, ok = in.nextHeader(); !ok {
			return false
		}
		in.width = len(header.cells)
	}
	in.refs(func(ref columnRef) {
		at, bad := in.resolve(ref, header)
		if in.resolved[ref] = at; bad != nil {
			in.reports.kept.Add(*bad)
			in.reports.count++
		}
	})
	return in.reports.count == 0
}

// nextHeader is the record that names the columns. That there is none is
// reported, but not where reading failed, which is reported elsewhere.
func (in *importer) nextHeader() (csvRecord, bool) {
	header, ok := in.records.next()
	switch {
	case ok && header.fault != "":
		in.reports.error(header.line, 0, header.fault, "the names of the columns", "to set quote or skip_lines in "+in.file)
	case ok && !utf8.ValidString(header.text):
		in.reports.error(header.line, 0, notUTF8, "UTF-8, or the encoding that the map says", tryEncoding+in.file)
	case !ok && in.records.err == io.EOF:
		in.reports.error(0, 0, "there is no header", "the names of the columns", "to set header or skip_lines in "+in.file)
	default:
		return header, ok
	}
	return header, false
}

// What is said of text in another encoding.
const (
	notUTF8     = "the text is not UTF-8"
	tryEncoding = `to set encoding = "windows-1252" in `
)

// refs visits the columns that the map names.
func (m *Map) refs(visit func(columnRef)) {
	for _, ref := range m.columns {
		if ref != nil {
			visit(*ref)
		}
	}
	conditions := m.skips
	for _, rule := range m.rules {
		conditions = append(conditions[:len(conditions):len(conditions)], rule.when)
	}
	for _, c := range conditions {
		for _, p := range c {
			visit(p.column)
		}
	}
}

// resolve is the place of a column in the file, or a diagnostic at the place in
// the map that names it.
func (in *importer) resolve(ref columnRef, header csvRecord) (at int, bad *diag.Diagnostic) {
	refuse := func(summary, expected, try string) *diag.Diagnostic {
		return &diag.Diagnostic{Severity: diag.Error, Pos: ref.pos, Key: ref.key, Summary: summary, Expected: expected, Try: try}
	}
	if ref.name == "" {
		if in.header && ref.number > in.width {
			bad = refuse(fmt.Sprintf("%s has no column %d", in.reports.file, ref.number), fmt.Sprintf("at most %d", in.width), "")
		}
		return ref.number - 1, bad
	}
	at = -1
	for i, name := range header.cells {
		switch {
		case fold(name) != fold(ref.name):
		case at >= 0:
			return 0, refuse(fmt.Sprintf("%s has two columns %s", in.reports.file, quote(ref.name)), "the number of one, from 1", "")
		default:
			at = i
		}
	}
	if at >= 0 {
		return at, nil
	}
	near, _ := diag.Nearest(ref.name, header.cells)
	if near == "" && in.width == 1 {
		near = otherSeparator(header.text)
	}
	return 0, refuse(fmt.Sprintf("%s has no column %s", in.reports.file, quote(ref.name)), "one of "+listed(header.cells), near)
}

// otherSeparator is what to try where a header is one cell.
func otherSeparator(header string) string {
	for _, s := range []string{";", "\t", ",", "|"} {
		if strings.Contains(header, s) {
			return fmt.Sprintf("separator = %q", s)
		}
	}
	return ""
}

// listed are the first of the names in a header.
func listed(names []string) string {
	var quoted []string
	for _, name := range names[:min(len(names), 12)] {
		quoted = append(quoted, quote(name))
	}
	if len(names) > len(quoted) {
		quoted = append(quoted, "…")
	}
	return strings.Join(quoted, ", ")
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

// readRow reads a record into one of the lists.
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

// fail lists a record as failed.
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
