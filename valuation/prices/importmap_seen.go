package prices

import (
	"slices"
	"strings"

	"lotgauge/valuation/money"
)

// content is what makes two rows the same observation: all of a row but its
// line and its note, in one form.
type content struct {
	day            day
	item           string
	asked          bool
	grade, lacking string // lacking in order
	price, postage string // without zeros at the end
	currency       money.Currency
	quantity       int
	source         string
}

// contentOf is the content of a row. The note is left out since it is the user's:
// one who adds to it does not want the row again. A source written by hand may
// have more than one line, which an import never has.
func contentOf(r Row) content {
	lacking := strings.Fields(r.Lacking)
	slices.Sort(lacking)
	return content{dayOf(r.Day), r.Item, r.Asked, r.Grade, strings.Join(lacking, " "),
		r.Price.String(), r.Postage.String(), r.Currency, r.Qty, oneLine(r.Source)}
}

// seen counts the rows of a table that have not been met again in a file.
type seen struct {
	table *Table
	rows  map[content]int
	items map[string]bool // counted
}

// newSeen is nothing met yet. A nil table has no rows.
func newSeen(table *Table) *seen {
	return &seen{table, map[content]int{}, map[string]bool{}}
}

// take reports whether the table has a row for this one, which is then taken.
// The rows of an item are counted when it is first met, so a large table costs
// no more than the items of the file.
func (s *seen) take(row Row) bool {
	if s.table != nil && !s.items[row.Item] {
		s.items[row.Item] = true
		for _, r := range s.table.Rows(row.Item) {
			s.rows[contentOf(r)]++
		}
	}
	key := contentOf(row)
	if s.rows[key] == 0 {
		return false
	}
	s.rows[key]--
	return true
}
