package valuation

import (
	"lotgauge/valuation/belief"
	"lotgauge/valuation/prices"
)

// drawn is what came of the draws, one entry a draw.
type drawn struct {
	route  [routes][]float64 // worth by each open route, at the drawn prices
	worth  []float64         // worth by the route chosen at mean prices
	chosen [routes]int       // how often each was
	byRank *ranking          // of worth, once asked for

	condition, originality, completeness []float64
}

// expected is what the cases come to on average. Where the states could be
// summed and the selling charges are straight it is exact.
type expected struct {
	cases    *belief.Cases
	value    []float64 // worth of each case
	worth    float64
	route    [routes]float64
	column   column    // how worth comes about
	repairs  float64   // cost of all remedies
	gross    float64   // price once restored
	allFound float64   // chance that all parts needed are found
	scarce   float64   // chance that a scarce part is needed
	needed   []float64 // by part: chance that any piece is needed
	books    books     // the cases by what is found in them
	seen     []caseSet // by part: the cases of the handful that need it
}

func (l *ledger) newDrawn(n int) *drawn {
	column := l.loan.column
	d := &drawn{worth: column(n), condition: column(n), originality: column(n), completeness: column(n)}
	for r := range d.route {
		if l.open[r] {
			d.route[r] = column(n)
		}
	}
	return d
}

// ranked finds worths by their rank.
func (d *drawn) ranked() *ranking {
	if d.byRank == nil {
		d.byRank = newRanking(d.worth)
	}
	return d.byRank
}

func (l *ledger) newExpected(c *belief.Cases) *expected {
	parts := len(l.family.Parts)
	return &expected{
		cases: c, value: l.loan.column(len(c.Weight)), books: l.newBooks(),
		needed: make([]float64, parts), seen: make([]caseSet, parts),
	}
}

// throw appraises every draw at the prices drawn with it. The expectation over
// the same draws comes along: at mean prices where the selling charges are
// straight, since that has the same mean and varies less, else as realised.
func (l *ledger) throw(c *belief.Cases, seed uint64) (*drawn, *expected) {
	d, e, p := l.newDrawn(len(c.Weight)), l.newExpected(c), l.newThrown(seed)
	var realised worths
	for h := l.deal(c); h.next(); {
		b, w, best := h.atMeanPrices()
		h.worths(p.throw(h), &realised)
		d.take(h, &realised, best)
		if !l.sell.straight {
			w, best.worth = &realised, realised.at(best)
		}
		e.add(h, b, w, best)
	}
	return d, e
}

// expect takes the mean over enumerated cases, at mean prices.
func (l *ledger) expect(c *belief.Cases) *expected {
	e := l.newExpected(c)
	for h := l.deal(c); h.next(); {
		b, w, best := h.atMeanPrices()
		e.add(h, b, w, best)
	}
	return e
}

// values are the worths of cases at mean prices.
func (l *ledger) values(c *belief.Cases) []float64 {
	out := make([]float64, 0, len(c.Weight))
	for h := l.deal(c); h.next(); {
		_, _, best := h.atMeanPrices()
		out = append(out, best.worth[:h.size()]...)
	}
	return out
}

// takeStates takes over what does not depend on the selling charges.
func (e *expected) takeStates(exact *expected) {
	e.repairs, e.gross, e.allFound, e.scarce, e.needed = exact.repairs, exact.gross, exact.allFound, exact.scarce, exact.needed
}

// take takes a handful with the worths of its routes and the chosen ones.
func (d *drawn) take(h *deal, w *worths, best *choice) {
	for r, out := range d.route {
		if out != nil {
			copy(out[h.from:h.to], w[r][:])
		}
	}
	for k, r := range best.route[:h.size()] {
		d.chosen[r]++
		d.worth[h.from+k] = w[r][k]
	}
	h.outOf100(d.condition, scores+laneFound)
	h.outOf100(d.originality, originality)
	h.outOf100(d.completeness, completeness)
}

// outOf100 fills in the weighted scores of a figure as shares of all weight.
func (d *deal) outOf100(out []float64, figure int) {
	for k, score := range d.tally[figure][:d.size()] {
		out[d.from+k] = d.l.outOf100(d.variant, score)
	}
}

// add counts a handful, with the worths of its routes and the chosen ones.
func (e *expected) add(h *deal, b *bill, w *worths, best *choice) {
	weights := h.weights()
	for r := range w {
		if h.l.open[r] {
			e.route[r] = weighted(e.route[r], weights, w[r][:])
		}
	}
	copy(e.value[h.from:h.to], best.worth[:])
	e.worth = weighted(e.worth, weights, best.worth[:])
	e.books.add(h, best)
	e.column.add(h, b, best)
	for k, weight := range weights {
		e.repairs += float64(weight * (h.tally[allParts][k] + h.tally[allSpend][k] + h.tally[allTime][k]))
		e.gross += float64(weight * h.gross(laneRestored, k, b))
	}
	e.find(h)
}

// weighted adds weighted figures to a sum.
func weighted(sum float64, weights, xs []float64) float64 {
	for k, weight := range weights {
		sum += float64(weight * xs[k])
	}
	return sum
}

// find counts the different parts that each case needs.
func (e *expected) find(h *deal) {
	var chance figures
	chance.fill(1)
	var scarce caseSet
	for _, f := range h.faults {
		for _, n := range h.account.goods[f].needs {
			e.seek(n.part, &h.l.market.finds[n.part], h.with(f), &chance, &scarce)
		}
	}
	weights := h.weights()
	for _, part := range h.account.parts {
		e.needed[part] = e.seen[part].weigh(e.needed[part], weights)
		e.seen[part] = caseSet{}
	}
	e.scarce = scarce.weigh(e.scarce, weights)
	e.allFound = weighted(e.allFound, weights, chance[:])
}

// seek looks for a part in the cases that have not looked for it before.
func (e *expected) seek(part int, find *prices.Scarcity, cases []uint8, chance *figures, scarce *caseSet) {
	seen := &e.seen[part]
	for _, k := range cases {
		if seen.has(k) {
			continue
		}
		seen.put(k)
		chance[k%handful] *= find.FindChance
		if find.Scarce {
			scarce.put(k)
		}
	}
}
