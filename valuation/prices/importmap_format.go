package prices

import (
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// FormatRow is a row as cells of a price table with the given columns, those of
// its header in its order and in either case. A column that is not one of a
// price table's gets an empty cell, and so do a postage of 0 and a quantity of
// 1. Prices have the decimals of their currency, or more if they have more.
//
// For a row that [Row.Check] finds nothing wrong with, a table that begins with
// the columns and goes on with the cells reads back as that row; what has no
// column is lost. Cells are not quoted yet: besides what encoding/csv quotes, a
// first cell that begins with # must be, or the row would be a comment.
func FormatRow(columns []string, r Row) []string {
	cells := make([]string, len(columns))
	for i, name := range columns {
		c := slices.Index(columnNames[:], strings.ToLower(strings.TrimSpace(name)))
		if c >= 0 {
			cells[i] = formatCell(column(c), r)
		}
	}
	return cells
}

// formatCell is the cell of one column.
func formatCell(c column, r Row) string {
	switch c {
	case dateColumn:
		return dayOf(r.Day).String()
	case itemColumn:
		return r.Item
	case kindColumn:
		return kindOf(r.Asked)
	case priceColumn:
		return formatMoney(r.Price, r.Currency)
	case currencyColumn:
		return string(r.Currency)
	case gradeColumn:
		return r.Grade
	case lackingColumn:
		return r.Lacking
	case postageColumn:
		return unless(r.Postage.IsZero(), formatMoney(r.Postage, r.Currency))
	case qtyColumn:
		return unless(r.Qty == 1, strconv.Itoa(r.Qty))
	case sourceColumn:
		return r.Source
	default:
		return r.Note
	}
}

// The kinds of a row, as in the files.
const (
	soldKind  = "sold"
	askedKind = "asked"
)

// kindOf is the kind as in the files.
func kindOf(asked bool) string {
	if asked {
		return askedKind
	}
	return soldKind
}

// unless is the text, or nothing.
func unless(absent bool, text string) string {
	if absent {
		return ""
	}
	return text
}

// formatMoney writes an amount with its currency's decimals, or more.
func formatMoney(amount decimal.Decimal, c money.Currency) string {
	number, _, _ := strings.Cut(money.Amount{Value: amount, Currency: c}.String(), " ")
	return number
}

// Check reports what in a row a price table would refuse, or would not give
// back as it is: an error of the first such column, nil if there is none. Line
// is not looked at.
func (r Row) Check() error {
	var back Row
	for c, name := range columnNames {
		bad := back.set(column(c), formatCell(column(c), r))
		if bad != nil {
			return diag.Diagnostic{Severity: diag.Error, Key: name, Summary: bad.summary, Expected: bad.expected, Try: bad.try}
		}
	}
	return nil
}
