package field

import (
	"bytes"
	"encoding/csv"
	"regexp"
	"slices"
	"strings"
	"time"
)

const dayFormat = time.DateOnly

// rateSpan is how long before the first price rates are kept: as far back as a
// conversion looks for one (prices.MaxRateAge), and some more.
const rateSpan = 14 * 24 * time.Hour

// priceRows are the rows of a price table about some items. One row of the
// table's first day stays whatever it is about: how long the table has been
// kept says how scarce a part is. Where a price was seen and what was noted of
// it stays at home: the page makes no use of it.
func priceRows(text string, items map[string]bool, first time.Time) (string, error) {
	rows, err := records(text)
	if err != nil || len(rows) == 0 {
		return text, err
	}
	item, day := column(rows[0], "item"), column(rows[0], "date")
	var columns []int
	for i := range rows[0] {
		if i != column(rows[0], "source") && i != column(rows[0], "note") {
			columns = append(columns, i)
		}
	}
	var kept [][]string
	opened := false
	for _, row := range rows[1:] {
		opens := !opened && strings.TrimSpace(row[day]) == first.Format(dayFormat)
		if opens || items[strings.TrimSpace(row[item])] {
			kept = append(kept, pick(row, columns))
			opened = opened || opens
		}
	}
	return written(kept, pick(rows[0], columns))
}

// column is the place of a column, which the engine found before.
func column(header []string, name string) int {
	return slices.IndexFunc(header, func(cell string) bool { return strings.ToLower(strings.TrimSpace(cell)) == name })
}

// rateRows are the columns of the given currencies and the rows from shortly
// before the first price on, and the day of the last row.
func rateRows(text string, wanted map[string]bool, first time.Time) (kept, last string, err error) {
	rows, err := records(text)
	if err != nil || len(rows) == 0 {
		return text, "", err
	}
	from := first.Add(-rateSpan).Format(dayFormat)
	var columns []int
	for i, name := range rows[0] {
		if i == 0 || wanted[strings.TrimSpace(name)] {
			columns = append(columns, i)
		}
	}
	var out [][]string
	for _, row := range rows {
		day := strings.TrimSpace(row[0])
		if _, err := time.Parse(dayFormat, day); err == nil {
			if day < from {
				continue
			}
			last = max(last, day)
		}
		out = append(out, pick(row, columns))
	}
	kept, err = written(out[1:], out[0])
	return kept, last, err
}

func pick(row []string, columns []int) []string {
	var out []string
	for _, i := range columns {
		if i < len(row) {
			out = append(out, row[i])
		}
	}
	return out
}

// code is what may be the code of a currency.
var code = regexp.MustCompile(`\b[A-Z]{3}\b`)

// currencies are those that the files may name.
func currencies(files map[string]string) map[string]bool {
	found := map[string]bool{}
	for file, text := range files {
		if file == ratesFile {
			continue
		}
		for _, c := range code.FindAllString(text, -1) {
			found[c] = true
		}
	}
	return found
}

// records are the rows of a table, which has been read by the engine before and
// is in order.
func records(text string) ([][]string, error) {
	r := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\uFEFF")))
	r.Comment = '#'
	r.FieldsPerRecord = -1
	return r.ReadAll()
}

func written(rows [][]string, header []string) (string, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	if err := w.Write(header); err != nil {
		return "", err
	}
	err := w.WriteAll(rows)
	return b.String(), err
}
