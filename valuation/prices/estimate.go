package prices

import (
	"errors"
	"fmt"
	"math"
	"time"

	"lotgauge/valuation/money"
)

// Rules are the settings that estimates rest on.
type Rules struct {
	Home           money.Currency // that estimates are in
	HalfLifeDays   float64        // after which a price counts half; above 0
	AskedFactor    float64        // what is paid of a price asked; above 0
	AskedWeight    float64        // how much a price asked counts; at least 0
	Spread         float64        // of prices of one item, relative, before any is seen; above 0
	FindWithinDays int            // for scarcity
}

// Item is what an estimate is wanted of.
type Item struct {
	ID       string
	Guide    float64 // a price in the home currency that counts as one observation; above 0
	HasGuide bool
	// Factor is what the price of a row is divided by, to be that of a sound
	// one at the reference grade: above 0. An error refuses the row; a diag.List
	// is reported one by one, at the row's line. Nil: 1.
	Factor func(Row) (float64, error)
}

// Estimate is what the rows of an item and its guide say it costs and brings.
type Estimate struct {
	Priced       bool  // false: no guide and no row that counts, and no quotes
	Sell         Quote // of one piece
	Buy          Quote // of one piece, postage in
	Observations int   // rows dated up to the day, those set aside included
	SetAside     int   // rows set aside for either quote
	Uses         []Use // in the order of the table
}

// What the method takes as given, besides the rules.
const (
	// priorAlpha takes the spread as known as well as from ten observations.
	priorAlpha = 5
	// minScored is the number of rows from which one can be told to be odd.
	minScored = 5
)

// Estimate says what an item costs and brings on a day, from the rows up to
// that day. Each price, for one piece, in the home currency by the rate of the
// row's day, scaled and weighted by the rules, is one observation of the
// logarithm of the price; a row that does not fit the others is set aside. The
// guide is an observation of weight 1. See [Belief] for the update, [Student]
// for what is predicted from it.
//
// Where rows cannot be used the error is a diag.List with their lines: a rate
// that is missing or too old, a grade or state that Item.Factor does not know.
// Nil rates will do where all rows are in the home currency.
func (t *Table) Estimate(item Item, rules Rules, rates *Rates, on time.Time) (Estimate, error) {
	if err := check(item, rules); err != nil {
		return Estimate{}, err
	}
	uses, err := t.observe(item, rules, rates, dayOf(on))
	if err != nil {
		return Estimate{}, err
	}
	e := Estimate{Observations: len(uses), Uses: uses}
	prior := priorOf(item, rules)
	if sell, buy, ok := quotesOf(believe(prior, uses, selling), believe(prior, uses, buying)); ok {
		e.Priced, e.Sell, e.Buy = true, sell, buy
	}
	for i := range uses {
		if uses[i].SetAside || uses[i].Buying.SetAside {
			e.SetAside++
		}
	}
	return e, nil
}

// The two sides of a use.
func selling(u *Use) *Reading { return &u.Reading }
func buying(u *Use) *Reading  { return &u.Buying }

// check refuses rules and items that no file may hold.
func check(item Item, rules Rules) error {
	positive := func(v float64) bool { return v > 0 && !math.IsInf(v, 1) }
	switch {
	case rules.Home == "":
		return errors.New("estimate: no home currency")
	case !positive(rules.HalfLifeDays), !positive(rules.AskedFactor), !positive(rules.Spread):
		return errors.New("estimate: half-life, factor of prices asked and spread must be above 0")
	case rules.AskedWeight != 0 && !positive(rules.AskedWeight):
		return errors.New("estimate: the weight of prices asked must not be below 0")
	case item.HasGuide && !positive(item.Guide):
		return fmt.Errorf("estimate: the guide of %s must be above 0", item.ID)
	}
	return nil
}

// priorOf is the belief before any row. The mean of the inverse gamma for the
// variance, Beta/(Alpha−1), is the square of the spread. A guide counts as one
// observation; without one the first row decides where the prices lie.
func priorOf(item Item, rules Rules) Belief {
	b := Belief{Alpha: priorAlpha, Beta: (priorAlpha - 1) * float64(rules.Spread*rules.Spread)}
	if item.HasGuide {
		b.Mu, b.Kappa = math.Log(item.Guide), 1
	}
	return b
}

// believe sets aside the readings of one side that do not fit and is the prior
// updated by the others. Each side decides by the prices it uses: a slip in the
// postage must not reach what an item costs, and one sum split into a low price
// and a high postage is not odd to who pays both.
func believe(prior Belief, uses []Use, side func(*Use) *Reading) Belief {
	logs := make([]float64, len(uses))
	for i := range uses {
		logs[i] = side(&uses[i]).Log
	}
	if len(logs) >= minScored {
		for i, z := range ModifiedZ(logs) {
			r := side(&uses[i])
			r.Score, r.SetAside = z, math.Abs(z) > maxZ
		}
	}
	kept, weights := logs[:0], make([]float64, 0, len(uses))
	for i := range uses {
		if r := side(&uses[i]); !r.SetAside {
			kept, weights = append(kept, r.Log), append(weights, uses[i].Weight)
		}
	}
	return prior.Update(kept, weights)
}
