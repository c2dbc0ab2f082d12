package prices

import (
	"io"

	"lotgauge/valuation/diag"
)

// A Map says how the rows of somebody else's CSV file, such as the export of a
// place of sale, become rows of the price table. It is read by [ReadMap] and
// not changed afterwards.
type Map struct{}

// ReadMap reads an import map, MAP.toml; see the package's README for its
// keys. Diagnostics go into doc; the Map is usable only if it has no errors.
func ReadMap(doc *diag.Document) *Map {
	return &Map{}
}

// Imported is what a file comes to by a map. Each row of the file that says
// something is in one of the three lists or counted as skipped.
type Imported struct {
	Rows    []Row     // new ones, valid in a price table, in the order of the file; Line is that of the file
	Seen    []Row     // those that the table has already
	Failed  []Failure // those that cannot be read
	Skipped int       // those that a skip rule of the map leaves out
}

// Failure is a row of an imported file that is no row of a price table.
type Failure struct {
	Line   int    // in the file, from 1, where the row begins
	Reason string // what is wrong with it, and with every cell of it, one line
	Text   string // the row as it stands in the file, shortened, one line
}

// Import reads a CSV file by the map, row by row. A row that cannot be read is
// listed as failed and stops no other.
//
// Rows that the table known has already are told apart by their content: date,
// item, kind, grade, lacking, price, currency, postage, qty and source, with
// numbers compared by value and what is lacking in any order. They are counted:
// of two equal rows of the file, of which the table has one, one is new. A nil
// known has no rows.
//
// The diagnostics are about the file as a whole: it cannot be read, has not the
// columns that the map names, is no text. With errors among them nothing should
// be added, though the rows read before are returned. file is its name in them.
func (m *Map) Import(file string, r io.Reader, known *Table) (*Imported, diag.List) {
	return &Imported{}, nil
}
