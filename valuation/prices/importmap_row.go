package prices

import (
	"fmt"
	"strings"
)

// cell is the text of a column of the row that is being read, "" where the row
// has none.
func (in *importer) cell(ref columnRef) string {
	if at := in.resolved[ref]; at < len(in.cells) {
		return in.cells[at]
	}
	return ""
}

// fillRow makes the row that is being read one of a price table. What is wrong
// with it is added to the problems: all of it, so that a file can be mended in one
// go. Columns come in the order of their declaration: the currency after the price
// that it may stand beside, the postage after the currency that it must share.
func (in *importer) fillRow() {
	set := in.ruled()
	for c := range columnCount {
		text, err := set[c], error(nil)
		if text == "" {
			text, err = in.plain(c)
		}
		switch {
		case err != nil:
			in.problem(c, err.Error())
		case text == "" && c == itemColumn:
			in.problem(c, "no pattern of the map fits")
		case text == "" && c < requiredColumns:
			in.problem(c, "nothing is there")
		default:
			if bad := in.row.set(c, text); bad != nil {
				in.problem(c, bad.summary+", expected "+bad.expected)
			}
		}
	}
}

// problem adds what is wrong with a column.
func (in *importer) problem(c column, what string) {
	in.problems = append(in.problems, columnNames[c]+": "+what)
}

// ruled are the texts that the rules of the map set, "" where none does. Each
// column is set by the first rule that fits and has something for it, so one rule
// can say what the item is and another, by other words of the title, its grade.
func (in *importer) ruled() (set [columnCount]string) {
	for _, rule := range in.rules {
		groups, fits := rule.when.fits(in.cell)
		if !fits {
			continue
		}
		for c, t := range rule.sets {
			if t != nil && set[c] == "" {
				set[c] = t.fill(groups)
			}
		}
	}
	return set
}

// plain is the text of a column as a price table has it: what the map says the
// cell stands for, else the cell read by the formats of the map, else the
// default.
func (in *importer) plain(c column) (string, error) {
	text := ""
	if ref := in.columns[c]; ref != nil {
		text = oneLine(in.cell(*ref))
	}
	if c == currencyColumn {
		return in.currency(text)
	}
	if value, known := in.value(c, text); known {
		return value, nil
	}
	if text == "" {
		return in.defaults[c], nil
	}
	return in.format(c, text)
}

// value is what the map says that a cell stands for.
func (in *importer) value(c column, text string) (string, bool) {
	if in.values[c] == nil {
		return "", false
	}
	value, known := in.values[c][fold(text)]
	return value, known
}

// format reads a cell by the formats of the map, and writes it as a price table
// does. The currency beside a price is kept for [importer.currency].
func (in *importer) format(c column, text string) (string, error) {
	switch c {
	case dateColumn:
		return in.date(text)
	case kindColumn:
		return fold(text), nil
	case lackingColumn:
		return strings.Join(strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;", r) }), " "), nil
	case priceColumn:
		number, label := splitMoney(text)
		in.label = label
		return in.numbers.plain(number)
	case postageColumn:
		number, label := splitMoney(text)
		if paid := in.row.Currency; label != "" && paid != "" && in.code(label) != string(paid) {
			return "", fmt.Errorf("it is in %s, the price in %s", in.code(label), paid)
		}
		return in.numbers.plain(number)
	case qtyColumn:
		number, err := in.numbers.plain(text)
		if whole, fraction, _ := strings.Cut(number, "."); strings.Trim(fraction, "0") == "" {
			return whole, err
		}
		return number, err
	}
	return text, nil
}

// date reads a day by the first pattern that fits.
func (in *importer) date(text string) (string, error) {
	for _, pattern := range in.dates {
		if d, ok := pattern.parse(text); ok {
			return d.String(), nil
		}
	}
	return "", fmt.Errorf("%s is not a day as the map has them", quote(text))
}

// currency is that of the cell, or the one beside the price, or the default. If
// the first two are there they must be the same.
func (in *importer) currency(text string) (string, error) {
	code, beside := in.code(text), in.code(in.label)
	switch {
	case code == "" && beside == "":
		return in.defaults[currencyColumn], nil
	case code == "" || code == beside:
		return beside, nil
	case beside != "":
		return "", fmt.Errorf("it is %s, beside the price %s", quote(code), quote(beside))
	}
	return code, nil
}

// code is the code of a currency by what a file calls it. Of the signs only that
// of the euro means one currency (ISO 4217 has some twenty called dollar), the
// others are for the map to say.
func (in *importer) code(text string) string {
	if code, known := in.value(currencyColumn, text); known {
		return code
	}
	if text == "€" {
		return "EUR"
	}
	return strings.ToUpper(text)
}
