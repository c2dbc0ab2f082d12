package csvtext

import (
	"bytes"
	"fmt"
	"strings"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// Columns are those of a price table, in the order in which a new one has them.
var Columns = []string{"date", "item", "kind", "grade", "lacking", "price", "currency", "postage", "qty", "source", "note"}

// Append is the text of a price table with rows added at its end, and the line
// that each of them is on. The old text is its beginning, unchanged but for the
// end of the last line where that is missing. Without a header it gets one.
// file is the name for errors, which are a diag.List.
//
// Nothing is added, and the error says why, where a row would not read back as
// what it is: it is no row of a price table, has something that the table has
// no column for, or would stand where nobody reads it, behind a quote that is
// not closed or a byte that ends the text.
func Append(file string, text []byte, rows []prices.Row) ([]byte, []int, error) {
	columns, err := headerOf(text)
	if err != nil {
		return nil, nil, fault(file, 1, "the header cannot be read: "+err.Error())
	}
	if err := readable(file, text); err != nil {
		return nil, nil, err
	}
	nl := endOfLine(text)
	out := append(make([]byte, 0, len(text)+128*(len(rows)+1)), text...)
	out = ended(out)
	if columns == nil {
		columns = Columns
		out = append(out, strings.Join(Columns, ",")+nl...)
	}
	line := bytes.Count(out, newline) + 1
	from := len(out)
	lines := make([]int, len(rows))
	for i, row := range rows {
		if err := fits(file, columns, row); err != nil {
			return nil, nil, err
		}
		lines[i] = line
		at := len(out)
		out = appendCells(out, prices.FormatRow(columns, row), nl)
		line += bytes.Count(out[at:], newline)
	}
	if err := proved(file, columns, out[from:], rows); err != nil {
		return nil, nil, err
	}
	if len(out) > prices.MaxTable {
		return nil, nil, fault(file, 0, fmt.Sprintf("the table would be larger than %d MiB", prices.MaxTable>>20))
	}
	return out, lines, nil
}

// fault is an error of the file.
func fault(file string, line int, summary string) error {
	return diag.List{{Severity: diag.Error, Pos: diag.Pos{File: file, Line: line}, Summary: summary,
		Try: "to mend it first: lotgauge prices check says more"}}
}

// readable refuses a text whose end no reader of a price table comes to as the
// beginning of a row.
func readable(file string, text []byte) error {
	if i := bytes.IndexByte(text, 0); i >= 0 {
		return fault(file, bytes.Count(text[:i], newline)+1, "this is a binary file")
	}
	if line := openQuote(text); line > 0 {
		return fault(file, line, "a quoted text does not end before the file does")
	}
	for line, rest := 1, text; len(rest) > 0; line++ {
		n := lineLength(rest)
		if n > prices.MaxLine {
			return fault(file, line, fmt.Sprintf("a line is longer than %d KiB", prices.MaxLine>>10))
		}
		rest = rest[n:]
	}
	return nil
}

// fits refuses a row that has something the columns have no place for.
func fits(file string, columns []string, row prices.Row) error {
	if err := row.Check(); err != nil {
		return err
	}
	have := map[string]bool{}
	for _, name := range columns {
		have[strings.ToLower(strings.TrimSpace(name))] = true
	}
	for i, cell := range prices.FormatRow(Columns, row) {
		if cell != "" && !have[Columns[i]] {
			return diag.List{{Severity: diag.Error, Pos: diag.Pos{File: file},
				Summary: fmt.Sprintf("the table has no column %s, and this row has %q for it", Columns[i], cell),
				Try:     "to add the column to the header, or to leave that out"}}
		}
	}
	return nil
}

// proved reads the new rows back under the header of the table.
func proved(file string, columns []string, added []byte, want []prices.Row) error {
	text := append(appendCells(nil, columns, "\n"), added...)
	table, diags := prices.ReadTable(file, bytes.NewReader(text))
	for i := range diags {
		diags[i].Pos = diag.Pos{File: file} // the lines are of no file
	}
	if err := diags.Err(); err != nil {
		return err
	}
	got := map[string]int{}
	for _, item := range table.Items() {
		for _, row := range table.Rows(item) {
			got[content(row)]++
		}
	}
	for _, row := range want {
		if got[content(row)]--; got[content(row)] < 0 {
			return diag.List{{Severity: diag.Error, Pos: diag.Pos{File: file},
				Summary: fmt.Sprintf("a row of %s would not read back as it is", row.Item)}}
		}
	}
	return nil
}

// content is all that a row says.
func content(row prices.Row) string {
	return strings.Join(prices.FormatRow(Columns, row), "\x00")
}

// appendCells adds a record.
func appendCells(out []byte, cells []string, nl string) []byte {
	for i, cell := range cells {
		if i > 0 {
			out = append(out, ',')
		}
		out = appendCell(out, cell, i == 0)
	}
	return append(out, nl...)
}

// appendCell adds a cell, in quotes where it needs them: RFC 4180, and where
// the line would begin as a remark does.
func appendCell(out []byte, cell string, first bool) []byte {
	if !strings.ContainsAny(cell, ",\"\r\n") && !(first && strings.HasPrefix(cell, string(comment))) {
		return append(out, cell...)
	}
	out = append(out, '"')
	out = append(out, strings.ReplaceAll(cell, `"`, `""`)...)
	return append(out, '"')
}

// LineOf is the line, from 1, on which a text has the line given, 0 where it has
// none such.
func LineOf(text, line []byte) int {
	line = bytes.TrimRight(line, "\r\n")
	for at := 0; ; {
		i := bytes.Index(text[at:], line)
		if i < 0 {
			return 0
		}
		at += i
		rest := bytes.TrimPrefix(text[at+len(line):], []byte{'\r'})
		if (at == 0 || text[at-1] == '\n') && (len(rest) == 0 || rest[0] == '\n') {
			return bytes.Count(text[:at], newline) + 1
		}
		at++
	}
}
