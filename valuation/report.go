package valuation

import (
	"math"

	"github.com/shopspring/decimal"
)

// report puts the figures into the published form.
func (a *appraiser) report() *Appraisal {
	f := a.family
	out := &Appraisal{
		Format: 1, Title: a.listing.Title, Family: f.ID, Date: a.on.Format(dayFormat),
		Currency: string(a.settings.Currency), Draws: a.draws, Seed: a.seed, Demonstration: a.demo,
		Variants:  a.variants(),
		Histories: chances(a.posterior.Histories(), func(i int) (string, string) { return f.Histories[i].ID, f.Histories[i].Title }),
		Points:    a.points(),
		Symptoms:  a.symptoms(),
		Score:     a.scores(),
		Parts:     a.partNeeds(),
		Unpriced:  []string{},
		Routes:    a.routeWorths(),
	}
	for _, m := range a.missing {
		out.Unpriced = append(out.Unpriced, m.id)
	}
	out.AllPartsFound = Share(a.expected.allFound)
	out.RepairShare = a.repairShare()
	out.Worth = a.worth()
	out.Purchase = a.purchaseReport()
	out.Questions = a.questions(out)
	out.Rules = a.facts(out).fired(f)
	out.Reading = a.reading(out)
	return out
}

// repairShare is what all remedies cost against what it is worth restored; nil
// where a price for that is missing.
func (a *appraiser) repairShare() *Share {
	if len(a.shut[sellRestored]) > 0 || a.expected.gross <= 0 {
		return nil
	}
	share := Share(a.expected.repairs / a.expected.gross)
	return &share
}

// whole tells whether every open route can be figured: else there is no worth
// and no bid.
func (a *appraiser) whole() bool { return len(a.missing) == 0 }

func (a *appraiser) home(f float64) Money { return estimate(f, a.settings.Currency) }

func (a *appraiser) homePtr(f float64) *Money {
	m := a.home(f)
	return &m
}

// routeWorths are the open routes. Means are exact where they can be summed:
// parts and keeping always, sales where the cases were enumerated.
func (a *appraiser) routeWorths() []RouteWorth {
	out := []RouteWorth{}
	for r, name := range RouteNames {
		if !a.ledger.open[r] {
			continue
		}
		w := RouteWorth{ID: name, Missing: a.shut[r]}
		if len(a.shut[r]) == 0 {
			mean := a.routeMean(r)
			q := quantiles7(a.drawn.route[r], 0.1, 0.9)
			w.Mean, w.P10, w.P90 = a.homePtr(mean), a.homePtr(q[0]), a.homePtr(q[1])
			w.BreakEven = a.bid(a.purchase.highest(mean))
		}
		if a.whole() {
			share := Share(float64(a.drawn.chosen[r]) / float64(a.draws))
			w.Chosen = &share
		}
		out = append(out, w)
	}
	return out
}

func (a *appraiser) routeMean(r int) float64 {
	if a.expected.cases.Exact || r != partOut && r != keepIt {
		return a.expected.route[r]
	}
	yields, repairs := 0.0, 0.0
	for v, chance := range a.posterior.Variants() {
		yields += float64(chance * a.ledger.accounts[v].sound.yieldNet)
	}
	a.eachCell(func(_, _, s int, chance float64, c *cell) {
		if s > 0 {
			yields += float64(chance * c.yieldNet)
			repairs += float64(chance * c.cost.total())
		}
	})
	if r == keepIt {
		return a.ledger.keep - repairs
	}
	return yields - a.ledger.takeDown
}

// bid is a bid in the sheet's currency, nil for none.
func (a *appraiser) bid(b *decimal.Decimal) *Money {
	if b == nil {
		return nil
	}
	return &Money{atUnit(*b, a.buy.Currency)}
}

func (a *appraiser) worth() *Worth {
	if !a.whole() {
		return nil
	}
	se := deviation(a.drawn.worth) / math.Sqrt(float64(a.draws))
	q := a.drawn.ranked().quantiles7(0.1, 0.5, 0.9)
	return &Worth{
		Mean: a.home(a.expected.worth), SE: a.home(se),
		P10: a.home(q[0]), P50: a.home(q[1]), P90: a.home(q[2]),
	}
}
