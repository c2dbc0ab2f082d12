package prices

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"lotgauge/valuation/money"
)

// objection is why a text cannot stand in a column of a price table.
type objection struct{ summary, expected, try string }

// set fills a column of a row from the text of a cell of a price table; nil if it
// may stand there. The rules are those of [ReadTable], which a test holds it
// against, and one more: texts must be such as come back from a table as they are.
func (r *Row) set(c column, text string) *objection {
	switch c {
	case dateColumn:
		return r.setDay(text)
	case itemColumn:
		r.Item = text
		return objectIf(!validItem(text), "%s is not an item", text,
			"a part such as lamp-black, or family/variant such as pellworth-ce4/6043")
	case kindColumn:
		r.Asked = text == askedKind
		return objectIf(text != soldKind && text != askedKind, "unknown kind %s", text, "sold or asked")
	case gradeColumn:
		r.Grade = text
		return objectIf(text != "" && !validID(text), "%s is not a grade", text, "the id of a grade, such as good")
	case lackingColumn:
		r.Lacking = text
		return objectIf(!validLacking(text), "%s is not what a model lacks", text,
			"point:state such as box:missing, with spaces between several")
	case priceColumn, postageColumn:
		return r.setMoney(c, text)
	case currencyColumn:
		return r.setCurrency(text)
	case qtyColumn:
		return r.setQuantity(text)
	case sourceColumn:
		r.Source = text
	default:
		r.Note = text
	}
	return objectToText(text)
}

// setDay reads a day as a table writes it.
func (r *Row) setDay(text string) *objection {
	d, ok := parseDay(text)
	r.Day = d.time()
	return objectIf(!ok, "%s is not a day", text,
		fmt.Sprintf("year-month-day such as 2026-03-14, from %d on", firstYear))
}

// setMoney reads a price, which is above 0, or a postage, which may be nothing.
func (r *Row) setMoney(c column, text string) *objection {
	if text == "" && c == postageColumn {
		r.Postage = digits(0).decimal()
		return nil
	}
	amount, err := parseDigits(text)
	switch {
	case err != nil:
		return &objection{err.Error(), "a plain number such as 12.50", ""}
	case c == postageColumn:
		r.Postage = amount.decimal()
	case amount.isZero():
		return &objection{"the price is 0", "a price above 0", "to leave the row out if nothing was paid"}
	default:
		r.Price = amount.decimal()
	}
	return nil
}

// setCurrency reads a code.
func (r *Row) setCurrency(text string) *objection {
	currency, err := money.ParseCurrency(text)
	if err != nil {
		return &objection{err.Error(), "an ISO 4217 code such as EUR", ""}
	}
	r.Currency = currency
	return nil
}

// setQuantity reads a number of pieces, 1 where there is none, up to what a table
// takes.
func (r *Row) setQuantity(text string) *objection {
	r.Qty = 1
	if text == "" {
		return nil
	}
	n, err := strconv.ParseInt(text, 10, 32)
	r.Qty = int(n)
	return objectIf(err != nil || n < 1 || !allDigits(text), "%s is not a number of pieces", text, "a whole number from 1")
}

// objectIf objects to the text, or not.
func objectIf(bad bool, summary, text, expected string) *objection {
	if !bad {
		return nil
	}
	return &objection{fmt.Sprintf(summary, quote(text)), expected, ""}
}

// maxText is the length in bytes of a source or a note above which it is
// refused: two of them, every character a quote, still fit on a line.
const maxText = 8 << 10

// objectToText objects to what would not come back from a table as it is.
func objectToText(text string) *objection {
	switch {
	case len(text) > maxText:
		return &objection{"the text is too long", fmt.Sprintf("at most %d KiB", maxText>>10), ""}
	case !utf8.ValidString(text):
		return &objection{"the text is not UTF-8", "UTF-8", ""}
	case oneLine(text) != text:
		return &objection{fmt.Sprintf("%s has line ends, control characters or spaces too many", quote(text)), "one line of text", ""}
	}
	return nil
}

// oneLine makes a text one line: runs of spaces, line ends and control
// characters become one space, and those around it go. A table is for people to
// read and edit, and encoding/csv would turn CRLF in a quoted text into LF.
func oneLine(text string) string {
	if isPlain(text) {
		return text
	}
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool {
		return unicode.IsSpace(r) || unicode.IsControl(r)
	}), " ")
}

// isPlain reports a text of single spaces and printed characters of ASCII, which
// most cells are.
func isPlain(text string) bool {
	for i := range len(text) {
		c := text[i]
		if c > '~' || c < ' ' || c == ' ' && (i == 0 || i == len(text)-1 || text[i-1] == ' ') {
			return false
		}
	}
	return true
}

// fold is a text as names and values are compared: on one line, in lower case.
func fold(text string) string { return strings.ToLower(oneLine(text)) }
