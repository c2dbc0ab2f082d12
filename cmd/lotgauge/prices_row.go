package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strconv"
	"strings"

	"lotgauge/cmd/lotgauge/load/csvtext"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// rowJSON is the JSON form of a row of the price table.
type rowJSON struct {
	Line     int    `json:"line"`
	Date     string `json:"date"`
	Item     string `json:"item"`
	Kind     string `json:"kind"`
	Grade    string `json:"grade"`
	Lacking  string `json:"lacking"`
	Price    string `json:"price"`
	Currency string `json:"currency"`
	Postage  string `json:"postage"`
	Qty      int    `json:"qty"`
	Source   string `json:"source"`
	Note     string `json:"note"`
}

func rowToJSON(line int, r prices.Row) rowJSON {
	c := prices.FormatRow(csvtext.Columns, r)
	return rowJSON{line, c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7], r.Qty, c[9], c[10]}
}

func rowsToJSON(rows []prices.Row) []rowJSON {
	out := []rowJSON{}
	for _, r := range rows {
		out = append(out, rowToJSON(r.Line, r))
	}
	return out
}

// printJSON writes a value as indented JSON.
func printJSON(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}

// jsonOf is a value as indented JSON that does nothing to a terminal.
func jsonOf(v any) ([]byte, error) {
	var b bytes.Buffer
	err := printJSON(escaper{&b}, v)
	return b.Bytes(), err
}

// rowText is a row as it stands in a table with all columns.
func rowText(r prices.Row) string {
	cells := prices.FormatRow(csvtext.Columns, r)
	for i, cell := range cells {
		if strings.ContainsAny(cell, ",\"") {
			cells[i] = strconv.Quote(cell)
		}
	}
	return strings.TrimRight(strings.Join(cells, ","), ",")
}

// formulas tells whether a text of a row would be a formula to a spreadsheet.
func formulas(r prices.Row) bool {
	return csvtext.Guard(r.Source) != r.Source || csvtext.Guard(r.Note) != r.Note
}

// misuse turns the first of some diagnostics into a mistake on the command line.
func misuse(err error) error {
	var list diag.List
	var one diag.Diagnostic
	switch {
	case errors.As(err, &list) && len(list) > 0:
		one = list.Sorted()[0]
	case !errors.As(err, &one):
		return err
	}
	u := usagef("%s", one.Summary)
	if one.Expected != "" {
		u.hint("expected %s", one.Expected)
	}
	if one.Try != "" {
		u.hint("try %s", one.Try)
	}
	return u
}
