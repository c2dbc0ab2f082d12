package prices

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
)

// row reads one row and appends its rates; ok is false if it has a fault.
func (r *ratesReader) row(line string) (d day, ok bool) {
	before := r.reports.count
	if number := quotedComma(line); number != "" {
		r.reports.error(r.lineNo, 0, fmt.Sprintf("the rate %q has a decimal comma", number),
			"decimals after a point", strings.Replace(number, ",", ".", 1))
		return 0, false
	}
	cell, rest, more := strings.Cut(line, ",")
	d = r.date(cell)
	column, i := 1, 1
	for ; more; i++ {
		column += len(cell) + 1
		cell, rest, more = strings.Cut(rest, ",")
		r.cell(cell, i, column)
	}
	if i < len(r.used) && slices.Contains(r.used[i:], true) {
		r.reports.error(r.lineNo, 0, fmt.Sprintf("the row has %d cells", i),
			fmt.Sprintf("%d, one for each column", len(r.used)), "")
	}
	return d, r.reports.count == before
}

// quotedComma is the first number of a line in quotes with a decimal comma, as
// spreadsheets of many countries write it, "" if there is none.
func quotedComma(line string) string {
	for _, text, found := strings.Cut(line, `"`); found; _, text, found = strings.Cut(text, `"`) {
		var cell string
		cell, text, _ = strings.Cut(text, `"`)
		if whole, decimals, comma := strings.Cut(cell, ","); comma && isDigits(whole) && isDigits(decimals) {
			return cell
		}
	}
	return ""
}

// date reads the first cell of a row: a date as 2026-03-14 in the history, as
// 14 March 2026 in the bank's file of one day.
func (r *ratesReader) date(text string) day {
	d, ok := parseDay(text)
	if ok {
		return d
	}
	if d, ok = parseDay(unquoted(text)); ok {
		return d
	}
	if long, err := time.Parse("2 January 2006", unquoted(text)); err == nil && long.Year() >= firstYear {
		return dayOf(long)
	}
	r.reports.error(r.lineNo, 1, fmt.Sprintf("%s is not a day", quote(text)),
		fmt.Sprintf("year-month-day such as 2026-03-14, from %d on", firstYear), "")
	return 0
}

// cell appends the rate in a cell, or reports what is wrong with it. The short
// way is for cells as the bank writes them.
func (r *ratesReader) cell(text string, i, column int) {
	if i >= len(r.used) || !r.used[i] {
		if unquoted(text) != "" {
			r.reports.error(r.lineNo, column, fmt.Sprintf("%s is under no currency", quote(text)), "", "")
		}
		return
	}
	if text == "N/A" {
		r.rates.cells = append(r.rates.cells, 0)
		return
	}
	rate, err := parseDigits(text)
	if err != nil {
		rate, err = looseRate(unquoted(text))
	} else if rate.isZero() {
		err = errZeroRate
	}
	if err != nil {
		r.reports.error(r.lineNo, column, err.Error(), "a plain number above 0, N/A or nothing", "")
	}
	r.rates.cells = append(r.rates.cells, rate)
}

var errZeroRate = errors.New("the rate is 0")

// looseRate reads the text of a cell without what is allowed around it; 0 is
// no rate.
func looseRate(text string) (digits, error) {
	if text == "" || text == "N/A" {
		return 0, nil
	}
	rate, err := parseDigits(text)
	if err == nil && rate.isZero() {
		return 0, errZeroRate
	}
	return rate, err
}

// unquoted is a cell without the spaces around it and quotes around the rest.
func unquoted(text string) string {
	text = strings.TrimSpace(text)
	if n := len(text); n >= 2 && text[0] == '"' && text[n-1] == '"' {
		return text[1 : n-1]
	}
	return text
}
