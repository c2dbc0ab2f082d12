package prices

import (
	"errors"
	"fmt"
	"math"

	"lotgauge/valuation/diag"
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
	reports := reports{file: t.file}
	places := t.of(item.ID)
	uses := make([]Use, 0, len(places))
	for _, i := range places {
		r := &t.rows[i]
		if r.day > until {
			continue
		}
		uses = append(uses, Use{Row: t.row(i), Weight: r.weight(rules, until)})
		if err := uses[len(uses)-1].observe(r, item, rules, rates); err != nil {
			reports.row(int(r.line), err)
			uses = uses[:len(uses)-1]
		}
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

// weight halves with each half-life since the day of a row.
func (r *record) weight(rules Rules, until day) float64 {
	w := math.Exp2(-float64(until-r.day) / rules.HalfLifeDays)
	if r.asked {
		w *= rules.AskedWeight
	}
	return w
}

// observe makes the row comparable, of which r is the record. The rate is that
// of the day of the row, not of the day asked about: that is what was paid.
// Price and postage are for all pieces together, and what was asked of either is
// scaled alike.
func (u *Use) observe(r *record, item Item, rules Rules, rates *Rates) error {
	rate, err := rates.float(u.Row.Currency, rules.Home, r.day)
	if err != nil {
		return err
	}
	scale := 1.0
	if r.asked {
		scale = rules.AskedFactor
	}
	if item.Factor != nil {
		factor, err := item.Factor(u.Row)
		if err != nil {
			return err
		}
		if !(factor >= leastFactor) || math.IsInf(factor, 1) {
			return fmt.Errorf("the price of one in this state says nothing of a sound one: its factor is %v", factor)
		}
		scale /= factor
	}
	perPiece := rate / float64(r.quantity)
	u.Reading = reading(r.price.float()*perPiece, scale)
	u.Buying = reading(r.price.floatWith(r.postage)*perPiece, scale)
	return nil
}

// reading is an observation of a price for one piece, in the home currency. Its
// logarithm is that of the price times scale.
func reading(home, scale float64) Reading {
	return Reading{Home: home, Log: round(math.Log(home*scale), logPlaces)}
}
