package prices

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"lotgauge/valuation/diag"
)

// csvSyntax is how a file separates and quotes its cells.
type csvSyntax struct {
	separator rune
	quote     rune // 0: texts are never quoted
	comment   rune // 0: there are no comments
}

// Limits of a record, so that a quote that is never closed takes few lines with
// it and a file that is no table ends early.
const (
	maxRecordLines = 200
	maxCells       = 1000
)

var tooManyCells = fmt.Sprintf("the row has more than %d cells", maxCells)

// csvRecord is a record of a file to import.
type csvRecord struct {
	line  int    // where it begins, from 1
	text  string // its first line
	cells []string
	fault string // why it has no cells, "" if it has
}

// csvRecords cuts a file into records: RFC 4180,
// https://www.rfc-editor.org/rfc/rfc4180, with any separator and quote, and quotes
// inside a text that is not quoted stand for themselves, as many programs write
// them. A record whose quotes do not match is one line long and has a fault: what
// follows is read again as records of its own. encoding/csv, which knows one kind
// of quote, would take the file up to the next quote into it, and the rows there
// would be lost.
type csvRecords struct {
	csvSyntax
	lines *bufio.Reader
	read  int      // lines read
	ahead []string // lines read of a record that was given up
	err   error    // that ended the lines
}

// next is the next record; false at the end. Empty lines and comments are
// passed over.
func (r *csvRecords) next() (csvRecord, bool) {
	for {
		text, ok := r.line()
		if !ok {
			return csvRecord{}, false
		}
		comment := r.comment != 0 && first(text) == r.comment
		if !comment && strings.Trim(text, " ") != "" {
			return r.record(text), true
		}
	}
}

// record is the record that begins with a line, and goes on as long as a quote is
// open.
func (r *csvRecords) record(text string) csvRecord {
	rec := csvRecord{line: r.read - len(r.ahead), text: text}
	if r.quote == 0 || !strings.ContainsRune(text, r.quote) { // as most are
		if rec.cells = strings.Split(text, string(r.separator)); len(rec.cells) > maxCells {
			rec.fault = tooManyCells
		}
		return rec
	}
	split := splitter{csvSyntax: r.csvSyntax}
	taken := []string{}
	for split.add(text); split.quoted && split.fault == "" && len(taken) < maxRecordLines; split.add(text) {
		more, ok := r.line()
		if !ok {
			break
		}
		text, taken = more, append(taken, more)
	}
	if split.quoted && split.fault == "" {
		split.fault = "a quoted text does not end"
	}
	if split.fault == "" {
		split.cell()
	}
	if rec.fault = split.fault; rec.fault != "" {
		r.ahead = append(taken, r.ahead...)
		return rec
	}
	rec.cells = split.cells
	return rec
}

// line is the next line without its end, LF or CRLF; false at the end of the file.
// Lines of a record that was given up come first. The guard below bounds their
// length.
func (r *csvRecords) line() (string, bool) {
	if len(r.ahead) > 0 {
		text := r.ahead[0]
		r.ahead = r.ahead[1:]
		return text, true
	}
	if r.err != nil {
		return "", false
	}
	text, err := r.lines.ReadString('\n')
	if r.err = err; err != nil && (text == "" || err != io.EOF) {
		return "", false
	}
	r.read++
	return strings.TrimSuffix(strings.TrimSuffix(text, "\n"), "\r"), true
}

// splitter cuts the lines of one record into cells.
type splitter struct {
	csvSyntax
	cells  []string
	text   strings.Builder // of the cell so far
	quoted bool            // within quotes
	fault  string
}

// add goes on with a line. Within quotes that is after a line end.
//
// A cell begins at the start of the line or after a separator; spaces leave it
// beginning. A quote there opens a quoted text, and one within closes it, unless a
// second follows at once: then the two are one quote of the text. After the close
// only spaces may come before the separator. Anywhere else a quote is a character
// like others. Bytes that are no UTF-8 are kept as they are, for the row to be
// refused by.
func (s *splitter) add(line string) {
	if s.quoted {
		s.text.WriteByte('\n')
	}
	began, closed := !s.quoted, false // whether a cell begins here, whether its quotes have ended
	for i, c := range line {
		switch {
		case s.quoted && c == s.quote:
			s.quoted, closed = false, true
		case s.quoted:
			s.text.WriteString(line[i : i+sizeAt(line, i)])
		case c == s.separator:
			s.cell()
			began, closed = true, false
			continue
		case c == s.quote && closed: // the second of two
			s.text.WriteRune(c)
			s.quoted, closed = true, false
		case closed && c != ' ':
			s.fault = "text follows a quoted text before the next separator"
			return
		case c == s.quote && began:
			s.quoted = true
			s.text.Reset()
		case !closed:
			s.text.WriteString(line[i : i+sizeAt(line, i)])
			began = began && c == ' '
			continue
		}
		began = false
	}
}

// sizeAt is the number of bytes of the character at i, 1 for what is none.
func sizeAt(line string, i int) int {
	_, size := utf8.DecodeRuneInString(line[i:])
	return size
}

// cell ends a cell and begins the next.
func (s *splitter) cell() {
	if len(s.cells) == maxCells {
		s.fault = tooManyCells
		return
	}
	s.cells = append(s.cells, s.text.String())
	s.text.Reset()
}

// character is a text of one character, def where it is not there, 0 where it
// is empty.
func character(t *diag.Table, key string, def rune) rune {
	r, ok := diag.Parse(t, key, `one character such as ";"`, func(text string) (rune, error) {
		switch {
		case text == "":
			return 0, nil
		case utf8.RuneCountInString(text) != 1:
			return 0, fmt.Errorf("%s is not one character", quote(text))
		}
		return first(text), nil
	})
	if !ok && !t.Has(key) {
		return def
	}
	return r
}
