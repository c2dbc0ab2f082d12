package prices

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"lotgauge/valuation/diag"
)

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

// refs visits the columns that the map names: those it reads, and those that its
// conditions look into.
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
// the map that names it: what is to be mended is there. Names are compared without
// regard to case and to spaces around them. A number is that of the column,
// whatever its name; without a header a column that some rows have not is empty
// there.
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

// otherSeparator is what to try where a header is one cell: the first of the usual
// separators that is in it.
func otherSeparator(header string) string {
	for _, s := range []string{";", "\t", ",", "|"} {
		if strings.Contains(header, s) {
			return fmt.Sprintf("separator = %q", s)
		}
	}
	return ""
}

// listed are the first of the names in a header, in quotes, since they may have
// commas in them.
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
