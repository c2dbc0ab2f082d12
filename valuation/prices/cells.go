package prices

import (
	"fmt"
	"math"
	"strings"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// The methods of tableReader in this file read one cell each, and refuse it
// where it is not what its column holds. Ids, grades and the like are checked
// when they are first seen.

// day reads when the price was seen.
func (r *tableReader) day(cells []string) day {
	text := r.cell(cells, dateColumn)
	d, ok := parseDay(text)
	if !ok {
		r.refuse(dateColumn, cells, fmt.Sprintf("%s is not a day", quote(text)),
			fmt.Sprintf("year-month-day such as 2026-03-14, from %d on", firstYear), "")
	}
	return d
}

// item reads what was sold: a part, or a variant of a family.
func (r *tableReader) item(cells []string) uint32 {
	text := r.cell(cells, itemColumn)
	if id, known := r.table.items.find(text); known && text != "" {
		return id
	}
	if !validItem(text) {
		r.refuse(itemColumn, cells, fmt.Sprintf("%s is not an item", quote(text)),
			"a part such as lamp-black, or family/variant such as pellworth-ce4/6043", "")
		return 0
	}
	return r.table.items.add(text)
}

// asked reads the kind: sold, or only asked for.
func (r *tableReader) asked(cells []string) bool {
	text := r.cell(cells, kindColumn)
	if text != "sold" && text != "asked" {
		near, _ := diag.Nearest(text, []string{"sold", "asked"})
		r.refuse(kindColumn, cells, fmt.Sprintf("unknown kind %s", quote(text)), "sold or asked", near)
	}
	return text == "asked"
}

// grade reads the grade of a model. Whether its family has that grade is not
// known here; see [Item].
func (r *tableReader) grade(cells []string) uint32 {
	text := r.cell(cells, gradeColumn)
	id, known := r.table.grades.find(text)
	if known {
		return id
	}
	if !validID(text) {
		r.refuse(gradeColumn, cells, fmt.Sprintf("%s is not a grade", quote(text)), "the id of a grade, such as good", "")
		return 0
	}
	return r.table.grades.add(text)
}

// lacking reads the states that a model was in, but for its grade.
func (r *tableReader) lacking(cells []string) uint32 {
	text := r.cell(cells, lackingColumn)
	id, known := r.table.lackings.find(text)
	if known {
		return id
	}
	if !validLacking(text) {
		r.refuse(lackingColumn, cells, fmt.Sprintf("%s is not what a model lacks", quote(text)),
			"point:state such as box:missing, with spaces between several", "")
		return 0
	}
	return r.table.lackings.add(text)
}

// price reads a price. None is 0: what was given away has no price, and its
// logarithm would be without bound.
func (r *tableReader) price(cells []string) digits {
	text := r.cell(cells, priceColumn)
	price, err := parseDigits(text)
	switch {
	case err != nil:
		r.refuse(priceColumn, cells, err.Error(), "a plain number above 0 such as 12.50", withPoint(text))
	case price.isZero():
		r.refuse(priceColumn, cells, "the price is 0", "a price above 0", "to leave the row out if nothing was paid")
	}
	return price
}

// postage reads what was paid for postage, which may be nothing.
func (r *tableReader) postage(cells []string) digits {
	text := r.cell(cells, postageColumn)
	if text == "" {
		return 0
	}
	postage, err := parseDigits(text)
	if err != nil {
		r.refuse(postageColumn, cells, err.Error(), "a plain number such as 3.50, or nothing", withPoint(text))
	}
	return postage
}

// currency reads the currency of price and postage.
func (r *tableReader) currency(cells []string) uint16 {
	text := r.cell(cells, currencyColumn)
	if id, known := r.table.currencies.find(text); known && text != "" {
		return uint16(id)
	}
	if _, err := money.ParseCurrency(text); err != nil {
		r.refuse(currencyColumn, cells, err.Error(), "an ISO 4217 code such as EUR", "")
		return 0
	}
	return uint16(r.table.currencies.add(text))
}

// quantity reads the number of pieces, 1 where the cell is empty.
func (r *tableReader) quantity(cells []string) uint32 {
	text := r.cell(cells, qtyColumn)
	if text == "" || text == "1" {
		return 1
	}
	n, err := parseDigits(text)
	pieces := n >> countBits
	if err != nil || strings.Contains(text, ".") || pieces < 1 || pieces > math.MaxInt32 {
		r.refuse(qtyColumn, cells, fmt.Sprintf("%s is not a number of pieces", quote(text)),
			"a whole number from 1", "")
	}
	return uint32(pieces)
}

// note keeps the text of a note and says where it begins.
func (r *tableReader) note(cells []string) uint32 {
	from := uint32(len(r.table.notes))
	if text := r.cell(cells, noteColumn); text != "" {
		r.table.notes = append(r.table.notes, text...)
	}
	return from
}

// validItem reports whether text is an id, or two with a slash between.
func validItem(text string) bool {
	family, variant, model := strings.Cut(text, "/")
	return validID(family) && (!model || validID(variant))
}

// validLacking reports whether text is a list of point:state.
func validLacking(text string) bool {
	for _, one := range strings.Fields(text) {
		point, state, found := strings.Cut(one, ":")
		if !found || !validID(point) || !validID(state) {
			return false
		}
	}
	return true
}

// validID reports whether text is an id: letters, digits, - and _.
func validID(text string) bool {
	for i := range len(text) {
		c := text[i]
		if (c|0x20 < 'a' || c|0x20 > 'z') && (c < '0' || c > '9') && c != '-' && c != '_' {
			return false
		}
	}
	return text != ""
}

// quote shows a text from a file, shortened where it is long.
func quote(text string) string {
	if short := []rune(text); len(short) > 40 {
		return fmt.Sprintf("%q…", string(short[:40]))
	}
	return fmt.Sprintf("%q", text)
}
