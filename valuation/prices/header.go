package prices

import (
	"fmt"
	"slices"
	"strings"

	"lotgauge/valuation/diag"
)

// column is a column of prices.csv that means something.
type column uint8

const (
	// A table must have these: when, what, sold or asked, for how much.
	dateColumn column = iota
	itemColumn
	kindColumn
	priceColumn
	currencyColumn
	// For models: the grade, and the states of points it was not sound in.
	gradeColumn
	lackingColumn
	// For the whole row, as the price is; and how many pieces it is for.
	postageColumn
	qtyColumn
	// For the user's memory.
	sourceColumn
	noteColumn
	columnCount
)

const requiredColumns = currencyColumn + 1

// columnNames are the columns' names in the header.
var columnNames = [columnCount]string{"date", "item", "kind", "price", "currency",
	"grade", "lacking", "postage", "qty", "source", "note"}

// layout is where the columns of a file are: for each its place, or -1.
type layout struct {
	at    [columnCount]int
	width int // number of columns in the file, unknown ones included
}

// readHeader finds the columns by name, in any order and either case. Columns
// of the user's own are left alone, but one whose name is nearly that of a
// column that is not there is doubted.
func (r *tableReader) readHeader(cells []string) bool {
	before := r.reports.count
	r.width = len(cells)
	for c := range r.at {
		r.at[c] = -1
	}
	var unknown []int
	for i, cell := range cells {
		c := slices.Index(columnNames[:], strings.ToLower(strings.TrimSpace(cell)))
		switch {
		case c < 0:
			unknown = append(unknown, i)
		case r.at[c] >= 0:
			r.at[c] = i
			r.refuse(column(c), cells, fmt.Sprintf("there are two columns %s", columnNames[c]), "each column once", "")
		default:
			r.at[c] = i
		}
	}
	if why, try := notCommas(cells); why != "" {
		r.reports.error(r.line(), 0, why, "a header such as "+exampleHeader, try)
		return false
	}
	missing := r.missing()
	for _, i := range unknown {
		r.doubt(cells, i, missing)
	}
	return r.reports.count-before == r.doubts
}

const exampleHeader = "date,item,kind,grade,lacking,price,currency,postage,qty,source,note"

// notCommas says what separates the cells of a header that is not separated by
// commas, or ends its line, if that can be seen, and what to do. Spreadsheets of
// many countries write semicolons, or tabs, and call it CSV, and old ones end
// lines in CR alone. A list of missing columns would not say why.
func notCommas(cells []string) (why, try string) {
	const takeOver = "lotgauge prices import FILE --map MAP.toml, which reads it as it is, or to save it as comma-separated CSV"
	switch {
	case !slices.ContainsFunc(cells[1:], isColumn) && strings.Contains(cells[0], ";"):
		return "the columns are separated by semicolons", takeOver
	case !slices.ContainsFunc(cells[1:], isColumn) && strings.Contains(cells[0], "\t"):
		return "the columns are separated by tabs", takeOver
	case strings.Contains(strings.Join(cells, ""), "\r"):
		return "the lines end in CR alone", "to save it as comma-separated CSV"
	}
	return "", ""
}

// isColumn reports whether a cell of the header names a column.
func isColumn(cell string) bool {
	return slices.Contains(columnNames[:], strings.ToLower(strings.TrimSpace(cell)))
}

// missing reports the required columns that are missing and is the names of
// all missing ones.
func (r *tableReader) missing() []string {
	var names []string
	for c, at := range r.at {
		if at >= 0 {
			continue
		}
		names = append(names, columnNames[c])
		if column(c) < requiredColumns {
			r.reports.error(r.line(), 0, "there is no column "+columnNames[c],
				"a header with at least "+strings.Join(columnNames[:requiredColumns], ","), "")
		}
	}
	return names
}

// doubt warns of an unknown column that one of the missing may be meant by.
func (r *tableReader) doubt(cells []string, i int, missing []string) {
	name := strings.TrimSpace(cells[i])
	meant, near := diag.Nearest(name, missing)
	if !near {
		return
	}
	r.doubts++
	line, col := r.place(cells, i)
	r.reports.add(diag.Diagnostic{Severity: diag.Warning, Pos: diag.Pos{Line: line, Column: col},
		Summary: fmt.Sprintf("column %q is not known and not read", name), Try: meant})
}
