package main

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"time"

	"lotgauge/valuation"
	"lotgauge/valuation/money"
	"lotgauge/valuation/prices"
)

// A vetter looks at new rows for what a price table may hold and estimates
// cannot use.
type vetter struct {
	library *valuation.Library
	today   time.Time
	newItem bool // items that no family knows may go in

	items map[string]known
}

// known is what is known of an item.
type known struct {
	item *valuation.Item
	err  error // why there is none
}

func newVetter(library *valuation.Library, today time.Time, newItem bool) *vetter {
	return &vetter{library: library, today: today, newItem: newItem, items: map[string]known{}}
}

// sort moves the rows that cannot be used to those that failed.
func (v *vetter) sort(in *prices.Imported) {
	in.Rows = slices.DeleteFunc(in.Rows, func(r prices.Row) bool {
		reason := v.objection(r)
		if reason != "" {
			in.Failed = append(in.Failed, prices.Failure{Line: r.Line, Reason: reason, Text: rowText(r)})
		}
		return reason != ""
	})
	slices.SortStableFunc(in.Failed, func(a, b prices.Failure) int { return cmp.Compare(a.Line, b.Line) })
}

// objection is why a row is not to go in, "" if it may.
func (v *vetter) objection(r prices.Row) string {
	if r.Day.After(v.today) {
		return "date: " + r.Day.Format(time.DateOnly) + " has not come yet"
	}
	k, seen := v.items[r.Item]
	if !seen {
		x, diags := v.library.Item(r.Item)
		k = known{x, diags.Err()}
		v.items[r.Item] = k
	}
	switch {
	case k.item != nil:
		if err := k.item.CheckRow(r).Err(); err != nil {
			return err.Error()
		}
		return ""
	case v.newItem:
		return ""
	}
	return "item: " + k.err.Error()
}

// remarks says what may be wanted to know of rows that have gone in.
func (v *vetter) remarks(e *environment, rows []prices.Row) {
	formula := 0
	for _, r := range rows {
		if formulas(r) {
			formula++
		}
	}
	if formula > 0 {
		e.note("note: a spreadsheet would take the text of " + counted(formula, "row") +
			" for a formula: open what lotgauge prices export writes")
	}
	v.rates(e, rows)
}

// rates says which rates are wanting for the rows, once a currency.
func (v *vetter) rates(e *environment, rows []prices.Row) {
	settings, diags := v.library.Settings()
	if diags.HasErrors() || len(rows) == 0 {
		return // which every appraisal says
	}
	rates, _ := v.library.Rates()
	count := map[money.Currency]int{}
	first := map[money.Currency]error{}
	for _, r := range rows {
		if r.Currency == settings.Currency {
			continue
		}
		if _, _, err := rates.Rate(r.Currency, settings.Currency, r.Day); err != nil {
			if count[r.Currency]++; count[r.Currency] == 1 {
				first[r.Currency] = err
			}
		}
	}
	var codes []money.Currency
	for c := range count {
		codes = append(codes, c)
	}
	slices.Sort(codes)
	for _, c := range codes {
		what := first[c].Error()
		if n := count[c]; n > 1 {
			what += fmt.Sprintf(" (and so for %d more)", n-1)
		}
		var missing *prices.RateError
		if errors.As(first[c], &missing) {
			what += "; lotgauge rates update FILE brings it"
		}
		e.note("note: " + what)
	}
}
