package valuation

import (
	"cmp"
	"lotgauge/valuation/money"
	"math"
	"slices"
)

// questions are what is worth finding out, the most valuable first.
func (a *appraiser) questions(out *Appraisal) []Question {
	if !a.whole() {
		return []Question{}
	}
	q := &asker{cases: a.expected.cases, values: [][]float64{a.expected.value}, g: a.prospect(out)}
	about := a.inquiries()
	worth := q.rank(about)
	qs := []Question{}
	if len(about) > 1 {
		noise := 0.0
		if !q.cases.Exact {
			noise = money.Float(out.Worth.SE.Decimal)
		}
		if i, j, w, ok := q.pair(about, worth[0], noise); ok {
			both := paired(&about[i], &about[j])
			both.Worth = a.home(w)
			qs = append(qs, both)
		}
	}
	found := a.foundIDs()
	for i := range about {
		one := about[i].Question
		one.Worth, one.Found = a.home(worth[i]), found[one.ID]
		if i < withEffects {
			one.Effects = a.effects(q, &about[i])
		}
		qs = append(qs, one)
	}
	return qs
}

// withEffects is for how many questions it is worked out what each answer would
// do.
const withEffects = 10

// effects are what the answers of an inquiry would do to the break-even bid, the
// likeliest first.
func (a *appraiser) effects(q *asker, x *inquiry) []Effect {
	one, other := q.group([]*inquiry{x})
	one.merge(other)
	var out []Effect
	for i, weight := range one.weight {
		if weight < 0.005 { // too few draws to say
			continue
		}
		e := Effect{Title: x.titles[i], Chance: Share(weight)}
		e.Stop = a.bid(a.purchase.highest(one.worth[i] / weight))
		out = append(out, e)
	}
	slices.SortStableFunc(out, func(x, y Effect) int { return cmp.Compare(y.Chance, x.Chance) })
	return out
}

// foundIDs are the points and symptoms with a finding other than hidden.
func (a *appraiser) foundIDs() map[string]bool {
	out := map[string]bool{}
	for _, f := range a.listing.Findings {
		if f.By != ByHidden {
			out[f.Point+f.Symptom] = true
		}
	}
	return out
}

// hammers is how many equally likely hammer prices stand for the auction.
const hammers = 41

// prospect is what an expected worth is worth to this bidder: against the price
// asked, or against where the hammer may fall.
func (a *appraiser) prospect(out *Appraisal) prospect {
	if a.listing.Fixed {
		return fixedPrice(money.Float(a.purchase.landed(a.listing.Ask.Value)))
	}
	low, high := a.hammerRange(out)
	var landed []float64
	for _, x := range lognormal(low, high, hammers) {
		landed = append(landed, money.Float(a.purchase.landed(money.Decimal(x))))
	}
	return auction(landed)
}

// hammerRatio is the 90% over the 10% hammer price where the listing gives none.
const hammerRatio = 2.5

// hammerRange is the 10% and 90% hammer price: the listing's, else around the
// break-even bid, else around the ask or the lowest bid.
func (a *appraiser) hammerRange(out *Appraisal) (low, high float64) {
	if h := a.listing.Hammer; h != nil {
		return money.Float(h.Low.Value), money.Float(h.High.Value)
	}
	middle := 1.0
	switch {
	case out.Purchase.BreakEvenBid != nil:
		middle = money.Float(out.Purchase.BreakEvenBid.Decimal)
	case out.Purchase.Ask != nil && out.Purchase.Ask.IsPositive():
		middle = money.Float(out.Purchase.Ask.Decimal)
	}
	return middle / math.Sqrt(hammerRatio), middle * math.Sqrt(hammerRatio)
}

// lognormal are n equally likely values of a log-normal with the given 10% and
// 90% points: its quantiles (i−½)/n.
func lognormal(low, high float64, n int) []float64 {
	const z90 = 1.2815515655446004 // 90% point of the standard normal
	middle, spread := math.Log2(low)+math.Log2(high), math.Log2(high)-math.Log2(low)
	out := make([]float64, n)
	for i := range out {
		p := (float64(i) + 0.5) / float64(n)
		z := math.Sqrt2 * math.Erfinv(float64(2*p)-1)
		out[i] = round9(math.Exp2(float64(middle/2) + float64(spread/2*z/z90)))
	}
	return out
}
