package valuation

import (
	"fmt"
	"math"
	"slices"

	"lotgauge/valuation/prices"
)

// bins is how many bars the spread of the worth is shown in.
const bins = 40

// spreadOf counts xs into equally wide bins from the 0.5% to the 99.5% point;
// what lies outside counts in the outermost ones.
func spreadOf(r *ranking) []Bin {
	ends := r.quantiles7(0.005, 0.995)
	low, high := ends[0], ends[1]
	if high <= low {
		return []Bin{{From: low, To: low, Share: 1}}
	}
	out := make([]Bin, bins)
	width := (high - low) / bins
	for i := range out {
		out[i].From = low + float64(float64(i)*width)
		out[i].To = low + float64(float64(i+1)*width)
	}
	var count [bins]int
	for _, x := range r.xs {
		i := int((x - low) / width)
		count[min(max(i, 0), bins-1)]++
	}
	for i, n := range count {
		out[i].Share = float64(n) / float64(len(r.xs))
	}
	return out
}

// sightings are the rows of an estimate, oldest first: the price of one piece as
// it was asked or paid, in the state it was in; for parts postage in.
func (a *appraiser) sightings(e *prices.Estimate, side func(*prices.Use) *prices.Reading) []Sighting {
	out := make([]Sighting, 0, len(e.Uses))
	for i := range e.Uses {
		u := &e.Uses[i]
		r := side(u)
		out = append(out, Sighting{
			Line: u.Row.Line, Day: u.Row.Day, Price: a.home(r.Home), Counts: a.home(math.Exp(r.Log)),
			Grade: u.Row.Grade, Lacking: u.Row.Lacking,
			Asked: u.Row.Asked, SetAside: r.SetAside, Weight: u.Weight,
		})
	}
	slices.SortStableFunc(out, func(x, y Sighting) int { return x.Day.Compare(y.Day) })
	return out
}

// selling and buying are the two sides that a price row counts on.
func selling(u *prices.Use) *prices.Reading { return &u.Reading }
func buying(u *prices.Use) *prices.Reading  { return &u.Buying }

// models are the prices of a sound one, in the order of out's variants.
func (a *appraiser) models(variants []Chance) []Model {
	var out []Model
	for _, c := range variants {
		v := a.family.VariantIndex(c.ID)
		e := &a.market.models[v]
		if !e.Priced {
			continue
		}
		out = append(out, Model{
			ID: c.ID, Title: c.Title, Chance: c.Chance, Price: a.priceRange(&e.Sell),
			Guide: a.family.Variants[v].Guide != nil, Seen: a.sightings(e, selling), SetAside: e.SetAside,
		})
	}
	return out
}

func (a *appraiser) priceRange(q *prices.Quote) PriceRange {
	return PriceRange{
		Mean: a.home(q.Mean), P10: a.home(q.Quantile(0.1)),
		P50: a.home(q.Quantile(0.5)), P90: a.home(q.Quantile(0.9)),
	}
}

// rests is what the appraisal rests on.
func (a *appraiser) rests() []Input {
	out := []Input{
		{"Listing", a.listing.File},
		{"Family", a.family.File},
		{"Prices", fmt.Sprintf("%s, %d rows", a.table.File(), a.table.Len())},
		{"Bought by", a.buy.Title},
		{"Sold by", a.sell.Title},
		{"Parts sold by", a.parts.Title},
		{"As of", a.on.Format(dayFormat)},
		{"Draws", fmt.Sprintf("%d, seed %d", a.draws, a.seed)},
	}
	if a.buy.Currency != a.settings.Currency {
		rate, day, err := a.rates.Rate(a.buy.Currency, a.settings.Currency, a.on)
		if err == nil {
			out = append(out, Input{"Exchange rate", fmt.Sprintf("1 %s = %.4f %s on %s",
				a.buy.Currency, rate.Float(), a.settings.Currency, day.Format(dayFormat))})
		}
	}
	return out
}
