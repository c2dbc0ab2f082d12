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
	chains     []chain // by item number
}

// chain is the rows of one item. They are linked backwards as they are read,
// which costs a large table less than sorting them by item afterwards.
type chain struct {
	count uint32
	last  uint32 // place of the last of them
}

// record is a row as it is kept: 56 bytes. Texts are numbers into the symbols
// of their column.
type record struct {
	price, postage         digits
	line                   uint32
	day                    day
	item, grade, lacking   uint32
	source, note, quantity uint32 // the note begins at notes[note] and ends where the next row's begins
	before                 uint32 // place of the row of the same item before this one, if there is one
	currency               uint16
	asked                  bool
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
	for id, chain := range t.chains {
		if chain.count > 0 {
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
		rows = append(rows, t.row(i))
	}
	return rows
}

// of is the places of an item's rows in t.rows, ascending.
func (t *Table) of(item string) []uint32 {
	id, known := t.items.ids[item]
	if !known || int(id) >= len(t.chains) {
		return nil
	}
	places := make([]uint32, t.chains[id].count)
	at := t.chains[id].last
	for i := len(places) - 1; i >= 0; i-- {
		places[i] = at
		at = t.rows[at].before
	}
	return places
}

// link adds the last row to the chain of its item and to the days.
func (t *Table) link() {
	n := len(t.rows) - 1
	row := &t.rows[n]
	for int(row.item) >= len(t.chains) {
		t.chains = append(t.chains, chain{})
	}
	chain := &t.chains[row.item]
	row.before, chain.last = chain.last, uint32(n)
	chain.count++
	if n == 0 || row.day < t.firstDay {
		t.firstDay = row.day
	}
}

// row writes a record out.
func (t *Table) row(i uint32) Row {
	r, noteEnd := &t.rows[i], uint32(len(t.notes))
	if int(i)+1 < len(t.rows) {
		noteEnd = t.rows[i+1].note
	}
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
		Note:     string(t.notes[r.note:noteEnd]),
	}
}
