package main

import (
	"strings"
	"time"

	"lotgauge/valuation/money"
)

// The methods of addition in this file fill a field each, from an argument or an
// answer, or refuse it.

func (a *addition) setItem(text string) error {
	a.row.Item = strings.TrimSpace(text)
	x, diags := a.library.Item(a.row.Item)
	if err := diags.Err(); err != nil && !(a.newItem && x == nil) {
		if list := diags.Sorted(); list[0].Pos.File != "" {
			return err // a family that cannot be read
		}
		u := misuse(err).(*usageError)
		return u.hint("--new-item takes it all the same")
	}
	a.item = x
	return nil
}

func (a *addition) setPrice(text string) error {
	amount, err := money.ParseAmount(strings.Join(strings.Fields(text), " "))
	if err != nil {
		return usagef("price: %v", err).hint("expected an amount and its currency, such as \"34 EUR\" or \"12.50 GBP\"")
	}
	if amount.Value.IsZero() {
		return usagef("price: it is 0").hint("leave out what was given away: it says nothing of a price")
	}
	a.row.Price, a.row.Currency = amount.Value, amount.Currency
	return nil
}

func (a *addition) setDate(text string) error {
	year, month, day := a.today.Date()
	today := time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	if text == "today" || text == "" {
		a.row.Day = today
		return nil
	}
	on, err := time.Parse(time.DateOnly, text)
	switch {
	case err != nil:
		return usagef("date: %q is not a day", text).hint("expected year-month-day such as %s", today.Format(time.DateOnly))
	case on.After(today):
		return usagef("date: %s has not come yet", text).hint("today is %s", today.Format(time.DateOnly))
	}
	a.row.Day = on
	return nil
}

func (a *addition) setKind(text string) error {
	if text != "sold" && text != "asked" {
		return usagef("kind: %q is neither sold nor asked", text).hint("sold is what was paid, asked a price that nobody may have paid")
	}
	a.row.Asked = text == "asked"
	return nil
}

func (a *addition) setGrade(text string) error {
	a.row.Grade = strings.TrimSpace(text)
	return a.check()
}

func (a *addition) setLacking(text string) error {
	a.row.Lacking = strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' }), " ")
	return a.check()
}

// check holds the row against the family of its item.
func (a *addition) check() error {
	if a.item == nil {
		return nil
	}
	return a.item.CheckRow(a.row).Err()
}

func (a *addition) setPostage(text string) error {
	text = strings.Join(strings.Fields(text), " ")
	if text == "" {
		return nil
	}
	if !strings.Contains(text, " ") {
		text += " " + string(a.row.Currency)
	}
	amount, err := money.ParseAmount(text)
	if err != nil {
		return usagef("postage: %v", err).hint("expected an amount such as \"3.50 %s\"", a.row.Currency)
	}
	if amount.Currency != a.row.Currency {
		return usagef("postage: it is in %s, the price in %s", amount.Currency, a.row.Currency).hint("a row of the table has one currency: convert it")
	}
	a.row.Postage = amount.Value
	return nil
}

func (a *addition) setQty(text string) error {
	n, err := money.ParsePlain(strings.TrimSpace(text))
	if err != nil || !n.IsInteger() || n.Sign() <= 0 || len(n.String()) > 9 {
		return usagef("qty: %q is not a number of pieces", text).hint("expected a whole number from 1")
	}
	a.row.Qty = int(n.IntPart())
	return nil
}

func (a *addition) setSource(text string) error {
	a.row.Source = strings.Join(strings.Fields(text), " ")
	return nil
}

func (a *addition) setNote(text string) error {
	a.row.Note = strings.Join(strings.Fields(text), " ")
	return nil
}
