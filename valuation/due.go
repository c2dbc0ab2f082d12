package valuation

import (
	"cmp"
	"math"
	"slices"
	"time"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
	"lotgauge/valuation/prices"
)

// DuePrice is an item whose price is worth looking up, and what a better one
// would change.
type DuePrice struct {
	Item     string    `json:"item"`
	Title    string    `json:"title"`
	Gain     Money     `json:"gain"`     // expected value of knowing the price, over the listings, home currency
	Listings int       `json:"listings"` // in how many of them it matters at all
	Rows     int       `json:"rows"`
	Newest   time.Time `json:"newest"` // day of the newest row; zero without rows
	Unpriced bool      `json:"unpriced"`

	gain float64
}

// Due ranks the prices that the listings rest on by what it would be worth to
// know them before bidding: the expected value of perfect information (Raiffa
// and Schlaifer, Applied Statistical Decision Theory, 1961) summed over the
// listings. The way out of each case is held as chosen at mean prices, so the
// worth is straight in every price. A price that is missing comes first: no bid
// can be given without it.
func (l *Library) Due(listings []*Listing, o Options) ([]DuePrice, diag.List) {
	due := map[string]*DuePrice{}
	var diags diag.List
	for _, x := range listings {
		a, ds := l.run(x, o)
		diags = append(diags, ds...)
		if a != nil {
			a.due(due)
		}
	}
	out := make([]DuePrice, 0, len(due))
	for _, d := range due {
		out = append(out, *d)
	}
	slices.SortFunc(out, func(x, y DuePrice) int {
		if x.Unpriced != y.Unpriced {
			return bit(y.Unpriced) - bit(x.Unpriced)
		}
		return cmp.Or(cmp.Compare(y.gain, x.gain), cmp.Compare(x.Item, y.Item))
	})
	return out, diags.Sorted()
}

// slopes are how the expected worth moves with the prices: by the buying price
// of each part, by what a harvested piece brings, by the price of each variant.
type slopes struct{ buy, piece, model []float64 }

func (a *appraiser) due(into map[string]*DuePrice) {
	for _, m := range a.missing {
		d := entry(into, a.settings.Currency, m.id, m.title)
		d.Unpriced = true
		d.Listings++
	}
	if !a.whole() {
		return
	}
	out := &Appraisal{}
	out.Purchase = a.purchaseReport()
	g, s := a.prospect(out), a.slopes()
	for i := range a.family.Parts {
		e := &a.market.parts[i]
		worth := func(j int) float64 {
			return float64(s.buy[i]*(e.Buy.Values[j]-e.Buy.Mean)) + float64(s.piece[i]*(a.ledger.piece[i][j]-mean(a.ledger.piece[i][:])))
		}
		a.addDue(into, a.family.Parts[i].ID, a.family.Parts[i].Title, e, g, worth)
	}
	for v := range a.family.Variants {
		e := &a.market.models[v]
		worth := func(j int) float64 { return float64(s.model[v] * (e.Sell.Values[j] - e.Sell.Mean)) }
		a.addDue(into, modelID(a.family, v), a.family.Variants[v].Title, e, g, worth)
	}
}

// addDue adds what knowing one price is worth to this listing. worth is what the
// expected worth gains where the price is the j-th of its values.
func (a *appraiser) addDue(into map[string]*DuePrice, id, title string, e *prices.Estimate, g prospect, worth func(j int) float64) {
	if !e.Priced {
		return
	}
	informed, slope, moved := 0.0, make([]float64, 1), false
	now := g([]float64{a.expected.worth}, slope)
	for j := range prices.Values {
		step := worth(j)
		moved = moved || step != 0
		informed += g([]float64{a.expected.worth + step}, slope) / prices.Values
	}
	if !moved {
		return
	}
	d := entry(into, a.settings.Currency, id, title)
	d.Listings++
	d.Rows = e.Observations
	for _, u := range e.Uses {
		if u.Row.Day.After(d.Newest) {
			d.Newest = u.Row.Day
		}
	}
	d.gain += math.Max(0, informed-now)
	d.Gain = a.home(d.gain)
}

func entry(into map[string]*DuePrice, home money.Currency, id, title string) *DuePrice {
	d := into[id]
	if d == nil {
		d = &DuePrice{Item: id, Title: title, Gain: estimate(0, home)}
		into[id] = d
	}
	return d
}

// slopes adds up the slopes over the cases, each by the way out chosen in it.
func (a *appraiser) slopes() *slopes {
	l, parts := a.ledger, len(a.family.Parts)
	s := &slopes{buy: make([]float64, parts), piece: make([]float64, parts), model: make([]float64, len(a.family.Variants))}
	for h := l.deal(a.expected.cases); h.next(); {
		b, _, best := h.atMeanPrices()
		s.parts(h, best)
		for k, r := range best.route[:h.size()] {
			s.sold(h, int(r), k, b)
		}
	}
	return s
}

// parts adds the parts that a handful buys and sells.
func (s *slopes) parts(h *deal, best *choice) {
	weights := h.weights()
	for k, r := range best.route[:h.size()] {
		if r == partOut {
			s.sell(h.account.sound.yields, weights[k])
		}
	}
	for _, f := range h.faults {
		x := &h.account.goods[f]
		for _, k := range h.with(f) {
			switch r := best.route[k]; {
			case r == partOut:
				s.sell(x.yields, weights[k])
			case r == sellRestored, r == keepIt, r == sellRunning && x.running:
				for _, n := range x.needs {
					s.buy[n.part] -= float64(weights[k] * n.qty)
				}
			}
		}
	}
}

func (s *slopes) sell(pieces []supply, weight float64) {
	for _, y := range pieces {
		s.piece[y.part] += float64(weight * y.qty)
	}
}

// sold adds the sale of case k as a whole, where its route is one.
func (s *slopes) sold(h *deal, route, k int, b *bill) {
	lane, sold := laneOf(route)
	if !sold || b.base[k] <= 0 {
		return
	}
	const step = 0.01 // of the price: the selling charges may bend elsewhere
	gross, sell := h.gross(lane, k, b), h.l.sell
	s.model[h.variant] += float64(h.weights()[k] * (sell.net(gross*(1+step)) - sell.net(gross)) / (step * b.base[k]))
}
