package prices

import (
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// Table is the price table of a user, prices.csv, in memory. It is not changed
// after [ReadTable]. The zero Table has no rows.
type Table struct {
	file       string
	rows       []record
	notes      []byte // the texts of all notes, one after the other
	items      symbols
	grades     symbols
	lackings   symbols
	currencies symbols
	sources    symbols
	firstDay   day

	// Rows of item number i, in file order: order[starts[i]:starts[i+1]].
	starts []uint32
	order  []uint32
}

// record is a row as it is kept: 56 bytes. Texts are numbers into the symbols
// of their column.
type record struct {
	price, postage              digits
	line                        uint32
	day                         day
	item, grade, lacking        uint32
	source, noteFrom, noteUntil uint32
	quantity                    uint32
	currency                    uint16
	asked                       bool
}

// Row is one row of the table: a price seen for Qty pieces of one item.
type Row struct {
	Line     int       // in the file, from 1
	Day      time.Time // midnight UTC
	Item     string    // a part id or family/variant
	Asked    bool      // asked for, not sold
	Grade    string    // of a model; may be ""
	Lacking  string    // of a model: point:state, with spaces between; may be ""
	Price    decimal.Decimal
	Postage  decimal.Decimal // 0 where the file says nothing
	Currency money.Currency  // of price and postage, which are for the whole row
	Qty      int             // at least 1
	Source   string
	Note     string
}

// File is the name the table was read under.
func (t *Table) File() string { return t.file }

// Len is the number of rows without those that were refused.
func (t *Table) Len() int { return len(t.rows) }

// FirstDay is the earliest day in the table; ok is false if it has no rows.
func (t *Table) FirstDay() (first time.Time, ok bool) {
	if len(t.rows) == 0 {
		return time.Time{}, false
	}
	return t.firstDay.time(), true
}

// Items are the ids of all items with rows, sorted.
func (t *Table) Items() []string {
	var items []string
	for id := 1; id < len(t.items.texts); id++ {
		if t.starts[id] < t.starts[id+1] {
			items = append(items, t.items.texts[id])
		}
	}
	slices.Sort(items)
	return items
}

// Rows are the rows of an item in the order of the file, none if it is unknown.
func (t *Table) Rows(item string) []Row {
	var rows []Row
	for _, i := range t.of(item) {
		rows = append(rows, t.row(&t.rows[i]))
	}
	return rows
}

// of is the places of an item's rows in t.rows.
func (t *Table) of(item string) []uint32 {
	id, known := t.items.ids[item]
	if !known || item == "" {
		return nil
	}
	return t.order[t.starts[id]:t.starts[id+1]]
}

// row writes a record out.
func (t *Table) row(r *record) Row {
	return Row{
		Line:     int(r.line),
		Day:      r.day.time(),
		Item:     t.items.texts[r.item],
		Asked:    r.asked,
		Grade:    t.grades.texts[r.grade],
		Lacking:  t.lackings.texts[r.lacking],
		Price:    r.price.decimal(),
		Postage:  r.postage.decimal(),
		Currency: money.Currency(t.currencies.texts[r.currency]),
		Qty:      int(r.quantity),
		Source:   t.sources.texts[r.source],
		Note:     string(t.notes[r.noteFrom:r.noteUntil]),
	}
}

// index sorts the rows by item, by counting, and finds the first day.
func (t *Table) index() {
	t.starts = make([]uint32, len(t.items.texts)+1)
	t.order = make([]uint32, len(t.rows))
	for i := range t.rows {
		t.starts[t.rows[i].item+1]++
		if i == 0 || t.rows[i].day < t.firstDay {
			t.firstDay = t.rows[i].day
		}
	}
	for id := 1; id < len(t.starts); id++ {
		t.starts[id] += t.starts[id-1]
	}
	next := slices.Clone(t.starts)
	for i := range t.rows {
		id := t.rows[i].item
		t.order[next[id]] = uint32(i)
		next[id]++
	}
}
