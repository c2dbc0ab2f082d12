package prices

import (
	"math"
	"time"
)

// Scarcity is how hard it is to find one of an item.
type Scarcity struct {
	Sightings  int     // rows of the item, sold and asked
	Days       float64 // that the table has been kept, at least 365
	FindChance float64 // chance to see one within Rules.FindWithinDays
	Scarce     bool    // the chance is under a half
}

// leastDays is the span that a younger table is taken to have: a part seen in
// a table's first week is not seen every week.
const leastDays = 365

// Scarcity counts the rows of an item up to the day on, over the days since the
// first row of the whole table. Sightings are a Poisson process whose rate has
// the prior Gamma(½, 0) of Jeffreys, An Invariant Form for the Prior
// Probability in Estimation Problems, 1946, doi 10.1098/rspa.1946.0056, so
// after n of them in T days the rate is Gamma(n+½, T) and none comes in the
// next H days with probability (T/(T+H))^(n+½): Gelman et al., Bayesian Data
// Analysis, section 2.6 (prior and posterior from memory). An item never seen
// keeps a chance that way, which shrinks as the table grows older. A row counts
// once whatever its quantity.
func (t *Table) Scarcity(item string, rules Rules, on time.Time) Scarcity {
	s := Scarcity{Days: leastDays}
	until := dayOf(on)
	for _, i := range t.of(item) {
		if t.rows[i].day <= until {
			s.Sightings++
		}
	}
	if len(t.rows) > 0 {
		s.Days = max(leastDays, float64(until-t.firstDay))
	}
	s.FindChance = chanceOfOne(float64(s.Sightings)+0.5, s.Days, float64(rules.FindWithinDays))
	s.Scarce = s.FindChance < 0.5
	return s
}

// chanceOfOne is the chance of at least one event within a horizon, if their
// rate is Gamma(shape, rate): 1 − (rate/(rate+horizon))^shape. The power is
// taken by math.Log and math.Exp2, which agree between platforms.
func chanceOfOne(shape, rate, horizon float64) float64 {
	if horizon <= 0 {
		return 0
	}
	return 1 - exp(shape*math.Log(rate/(rate+horizon)))
}
