package prices

import (
	"errors"
	"fmt"
	"math"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// Use is how a row was used. What is said of the price is said twice: by itself
// for the selling side, and with postage in for the buying side. A slip in the
// postage sets a row aside for buying alone.
type Use struct {
	Row     Row
	Weight  float64
	Reading         // the price
	Buying  Reading // price and postage
}

// Reading is an observation made comparable.
type Reading struct {
	Home     float64 // for one piece, in the home currency
	Log      float64 // logarithm of Home, times AskedFactor if asked, over the item's factor
	Score    float64 // modified z-score of Log; 0 with fewer than 5 rows
	SetAside bool    // the score is over 3.5: not used
}

// leastFactor is the smallest factor that a price is divided by.
const leastFactor = 1e-6

// observe makes the rows of an item up to a day comparable.
func (t *Table) observe(item Item, rules Rules, rates *Rates, until day) ([]Use, error) {
	var uses []Use
	reports := reports{file: t.file}
	for _, i := range t.of(item.ID) {
		if t.rows[i].day > until {
			continue
		}
		use, err := observation(t.row(i), item, rules, rates)
		if err != nil {
			reports.row(int(t.rows[i].line), err)
			continue
		}
		use.Weight = weightOf(use.Row, rules, until)
		uses = append(uses, use)
	}
	return uses, reports.list().Err()
}

// row adds why a row cannot be used: what Item.Factor found in its cells, or one
// error.
func (r *reports) row(line int, err error) {
	var list diag.List
	var one diag.Diagnostic
	switch {
	case errors.As(err, &list):
	case errors.As(err, &one):
		list = diag.List{one}
	default:
		r.error(line, 0, err.Error(), "", remedy(err))
	}
	for _, d := range list {
		d.Pos.Line = line
		r.add(d)
	}
}

// remedy is what to try about a row that cannot be used.
func remedy(err error) string {
	var missing *RateError
	switch {
	case !errors.As(err, &missing) || missing.File == "":
		return ""
	case missing.NoColumn:
		return "to add that column to " + missing.File
	case missing.NoFile:
		return "to make " + missing.File + ": lotgauge rates update FILE"
	}
	return "to bring " + missing.File + " up to date"
}

// weightOf halves the weight of a row with each half-life since.
func weightOf(row Row, rules Rules, until day) float64 {
	w := math.Exp2(-float64(until-dayOf(row.Day)) / rules.HalfLifeDays)
	if row.Asked {
		w *= rules.AskedWeight
	}
	return w
}

// observation makes one row comparable. The rate is that of the day of the row,
// not of the day asked about: that is what was paid. Price and postage are for
// all pieces together, and what was asked of either is scaled alike.
func observation(row Row, item Item, rules Rules, rates *Rates) (Use, error) {
	rate, _, err := rates.Rate(row.Currency, rules.Home, row.Day)
	if err != nil {
		return Use{}, err
	}
	scale := 1.0
	if row.Asked {
		scale = rules.AskedFactor
	}
	if item.Factor != nil {
		factor, err := item.Factor(row)
		if err != nil {
			return Use{}, err
		}
		if !(factor >= leastFactor) || math.IsInf(factor, 1) {
			return Use{}, fmt.Errorf("the price of one in this state says nothing of a sound one: its factor is %v", factor)
		}
		scale /= factor
	}
	perPiece := rate.Float() / float64(row.Qty)
	reading := func(paid float64) Reading {
		home := paid * perPiece
		return Reading{Home: home, Log: round(math.Log(home*scale), logPlaces)}
	}
	return Use{Row: row, Reading: reading(money.Float(row.Price)),
		Buying: reading(money.Float(row.Price.Add(row.Postage)))}, nil
}
