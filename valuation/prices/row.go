package prices

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// readRow keeps one record, or reports every fault of it. Rows of empty cells,
// as spreadsheets leave them, are passed over. The row is filled in where it
// stays, not copied there.
func (r *tableReader) readRow(cells []string) {
	if !r.wellFormed(cells) {
		return
	}
	before, n := r.reports.count, len(r.table.rows)
	r.reserve()
	r.table.rows = append(r.table.rows, record{})
	row := &r.table.rows[n]
	row.line = uint32(r.line())
	row.day = r.day(cells)
	row.item = r.item(cells)
	row.asked = r.asked(cells)
	row.grade = r.grade(cells)
	row.lacking = r.lacking(cells)
	row.price = r.price(cells)
	row.postage = r.postage(cells)
	row.currency = r.currency(cells)
	row.quantity = r.quantity(cells)
	row.source = r.table.sources.intern(r.cell(cells, sourceColumn))
	if r.reports.count != before {
		r.table.rows = r.table.rows[:n]
		return
	}
	row.note = r.note(cells)
	r.table.link()
}

// cell is the text of a column without spaces around, "" where it is absent.
func (r *tableReader) cell(cells []string, c column) string {
	if at := r.at[c]; at >= 0 {
		return trim(cells[at])
	}
	return ""
}

// trim is strings.TrimSpace, quick where there is nothing to do.
func trim(text string) string {
	if text == "" || text[0] > ' ' && text[len(text)-1] > ' ' {
		return text
	}
	return strings.TrimSpace(text)
}

// wellFormed checks what concerns the row as a whole: that it is not empty, has
// a cell for each column, and is UTF-8, which is looked at only in files that
// the guard found something odd in.
func (r *tableReader) wellFormed(cells []string) bool {
	if cells[0] == "" && strings.Join(cells, "") == "" {
		return false
	}
	if len(cells) != r.width {
		r.reports.error(r.line(), 0, fmt.Sprintf("the row has %d cells", len(cells)),
			fmt.Sprintf("%d, one for each column", r.width), "quotes around a text with a comma in it")
		return false
	}
	if r.guard.odd {
		for i, text := range cells {
			if !utf8.ValidString(text) {
				line, col := r.place(cells, i)
				r.reports.error(line, col, "the text is not UTF-8", "UTF-8",
					"to save it from the spreadsheet as CSV, UTF-8")
				return false
			}
		}
	}
	return true
}
