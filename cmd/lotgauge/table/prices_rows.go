package table

import (
	"fmt"
	"io"
	"strings"
)

// A SeenRow is a row of a price table as text, with its line in its file.
type SeenRow struct {
	Line           int
	Date           string
	Item           string
	Kind           string
	Grade, Lacking string
	Price          string
	Currency       string
	Postage        string
	Qty            int
	Source, Note   string
}

// SeenRows prints rows that are to go into a price table.
func SeenRows(w io.Writer, rows []SeenRow, o Options) error {
	p := newPrinter(o)
	g := &grid{columns: []column{
		{head: "Line", right: true}, {head: "Day"}, {head: "Item", flex: true}, {head: "How"}, {head: "Price", right: true}, {head: "Pieces", right: true, spare: 1},
	}}
	var amounts []string
	for _, r := range rows {
		amounts = append(amounts, r.Price+" "+r.Currency)
	}
	amounts = aligned(amounts)
	for i, r := range rows {
		g.add(words(fmt.Sprint(r.Line)), words(r.Date), words(r.Item), words(r.Kind), words(amounts[i]), words(fmt.Sprint(r.Qty)))
		var more []string
		for _, text := range []struct{ before, text string }{
			{"grade ", r.Grade}, {"", r.Lacking}, {"postage ", r.Postage}, {"", clipped(r.Source, nameRunes)}, {"", clipped(r.Note, nameRunes)},
		} {
			if text.text != "" {
				more = append(more, text.before+text.text)
			}
		}
		g.note(strings.Join(more, "; "))
	}
	p.grid(g)
	return p.writeTo(w)
}

// Paragraph prints a text, wrapped to the width.
func Paragraph(w io.Writer, text string, o Options) error {
	p := newPrinter(o)
	p.para(plain, "", margin, text)
	return p.writeTo(w)
}
