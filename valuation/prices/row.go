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
	if number := r.decimalComma(cells); number != "" {
		r.reports.error(r.line(), 0, fmt.Sprintf("the row has %d cells, as %s makes two of them", len(cells), number),
			"decimals after a point", withPoint(number))
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

// decimalComma is a price or postage that was written with a decimal comma and
// so cut into two cells, "" if there is none. It is told by digits where the
// currency should be, or by a cell too many and two digits after the number. A
// row that leaves out its last cells can have a cell for each column and be cut
// all the same.
func (r *tableReader) decimalComma(cells []string) string {
	for _, c := range [...]column{priceColumn, postageColumn} {
		i := r.at[c]
		if i < 0 || i+1 >= len(cells) || !isDigits(trim(cells[i+1])) || !isDigits(trim(cells[i])) {
			continue
		}
		decimals := trim(cells[i+1])
		if i+1 == r.at[currencyColumn] && len(decimals) <= 2 || len(cells) > r.width && len(decimals) == 2 {
			return trim(cells[i]) + "," + decimals
		}
	}
	return ""
}

// isDigits reports whether text is of digits alone.
func isDigits(text string) bool {
	for i := range len(text) {
		if text[i]-'0' > 9 {
			return false
		}
	}
	return text != ""
}

// withPoint is a number with a decimal comma as it should be written, "" if the
// text is none. A comma before three digits may stand between thousands.
func withPoint(text string) string {
	whole, decimals, found := strings.Cut(text, ",")
	if !found || !isDigits(whole) || !isDigits(decimals) || len(decimals) == 3 && whole != "0" {
		return ""
	}
	return whole + "." + decimals
}
