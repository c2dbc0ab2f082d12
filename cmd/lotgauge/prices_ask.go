package main

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"time"

	"lotgauge/valuation"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// An addition is a row of the price table that is being put together.
type addition struct {
	library *valuation.Library
	today   time.Time
	newItem bool
	item    *valuation.Item // nil for one that no family knows
	row     prices.Row
}

// A field is one answer of which a row is made. Fields are filled in order: what
// may stand in one depends on those before.
type field struct {
	name     string
	question string
	usual    string // the answer where none is given
	must     bool   // there is no usual answer
	model    bool   // for models only
	set      func(a *addition, text string) error
}

// fields are those of a row. The usual day is put in when it is known.
var fields = []field{
	{name: "item", question: "Item, a part or family/variant", must: true, set: (*addition).setItem},
	{name: "price", question: "Price, such as 34 EUR", must: true, set: (*addition).setPrice},
	{name: "date", question: "Seen on", usual: "today", set: (*addition).setDate},
	{name: "kind", question: "Sold or asked", usual: "sold", set: (*addition).setKind},
	{name: "grade", question: "Grade", model: true, set: (*addition).setGrade},
	{name: "lacking", question: "What was not sound, as point:state, with spaces between", model: true, set: (*addition).setLacking},
	{name: "postage", question: "Postage", set: (*addition).setPostage},
	{name: "qty", question: "Pieces", usual: "1", set: (*addition).setQty},
	{name: "source", question: "Where", set: (*addition).setSource},
	{name: "note", question: "Note", set: (*addition).setNote},
}

// fill fills the row from the answers given, and asks for others: for all of
// them where the item or the price is missing, else for the grade of a model
// alone, without which its price says little.
func (a *addition) fill(given map[string]string, q *questioner) error {
	all := given["item"] == "" || given["price"] == ""
	for i := range fields {
		f := &fields[i]
		text, known := given[f.name]
		switch {
		case known && text != "" || known && !f.must:
			if err := f.set(a, text); err != nil {
				return misuse(err)
			}
		case q.open && f.applies(a) && (all || f.name == "grade"):
			if err := q.ask(a, f); err != nil {
				return err
			}
		case f.must:
			return usagef("no %s given", f.name).hint("lotgauge prices add ITEM PRICE, such as: lotgauge prices add tyre \"4.50 EUR\"")
		default:
			if err := f.set(a, f.usual); err != nil {
				return misuse(err)
			}
		}
	}
	return misuse(a.row.Check())
}

// applies tells whether a field is one of the item's.
func (f *field) applies(a *addition) bool { return !f.model || a.item != nil && a.item.Model() }

// A questioner asks somebody at a terminal.
type questioner struct {
	in   io.Reader
	out  io.Writer
	open bool // there is somebody

	lines *bufio.Reader
}

// ask asks for a field until the answer may stand there. No answer is the usual
// one.
func (q *questioner) ask(a *addition, f *field) error {
	if q.lines == nil {
		q.lines = bufio.NewReader(q.in)
	}
	for {
		fmt.Fprint(q.out, f.prompt(a))
		text, err := q.lines.ReadString('\n')
		if text = strings.TrimSpace(text); err != nil && text == "" {
			fmt.Fprintln(q.out)
			return usagef("no more answers: nothing has been added")
		}
		if text == "" {
			text = f.usual
		}
		if text == "" && f.must {
			continue
		}
		if err = f.set(a, text); err == nil {
			return nil
		}
		complain(q.out, misuse(err))
	}
}

// prompt is the question with the usual answer.
func (f *field) prompt(a *addition) string {
	question := f.question
	if f.name == "grade" {
		question += " (" + strings.Join(a.item.Grades, ", ") + ")"
	}
	if f.usual != "" {
		question += " [" + f.usual + "]"
	}
	return diag.Clean(question) + ": "
}
