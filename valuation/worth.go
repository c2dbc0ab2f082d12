package valuation

import (
	"lotgauge/valuation/belief"
)

// drawn is what came of the draws, one entry a draw.
type drawn struct {
	route  [routes][]float64 // worth by each open route, at the drawn prices
	worth  []float64         // worth by the route chosen at mean prices
	chosen [routes]int       // how often each was

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
	seen     []int     // by part: the last case that needed it, counted from 1
}

func (l *ledger) newDrawn(n int) *drawn {
	d := &drawn{
		worth:     make([]float64, n),
		condition: make([]float64, n), originality: make([]float64, n), completeness: make([]float64, n),
	}
	for r := range d.route {
		if l.open[r] {
			d.route[r] = make([]float64, n)
		}
	}
	return d
}

func (l *ledger) newExpected(c *belief.Cases) *expected {
	parts := len(l.family.Parts)
	return &expected{
		cases: c, value: make([]float64, len(c.Weight)), books: l.newBooks(),
		needed: make([]float64, parts), seen: make([]int, parts),
	}
}

// throw appraises every draw at the prices drawn with it. The expectation over
// the same draws comes along: at mean prices where the selling charges are
// straight, since that has the same mean and varies less, else as realised.
func (l *ledger) throw(c *belief.Cases, seed uint64) (*drawn, *expected) {
	d, e, p := l.newDrawn(len(c.Weight)), l.newExpected(c), l.newThrown(seed)
	for h := l.deal(c); h.next(); {
		p.throw(h.variant, h.from, h.to)
		for k := h.from; k < h.to; k++ {
			v, t := h.variant, h.tally(k)
			d.score(l, v, k, t)
			b := l.meanBill(v, t)
			w := l.worths(v, t, b)
			best := l.best(&w)
			realised := l.worths(v, t, p.bill(k-h.from, t))
			d.take(k, &realised, best)
			if !l.sell.straight {
				w = realised
			}
			e.add(l, k, t, b, &w, best)
		}
	}
	return d, e
}

// expect takes the mean over enumerated cases, at mean prices.
func (l *ledger) expect(c *belief.Cases) *expected {
	e := l.newExpected(c)
	for h := l.deal(c); h.next(); {
		for k := h.from; k < h.to; k++ {
			t := h.tally(k)
			b := l.meanBill(h.variant, t)
			w := l.worths(h.variant, t, b)
			e.add(l, k, t, b, &w, l.best(&w))
		}
	}
	return e
}

// takeStates takes over what does not depend on the selling charges.
func (e *expected) takeStates(exact *expected) {
	e.repairs, e.gross, e.allFound, e.scarce, e.needed = exact.repairs, exact.gross, exact.allFound, exact.scarce, exact.needed
}

func (d *drawn) score(l *ledger, v uint8, k int, t *tally) {
	d.condition[k] = l.outOf100(v, t.found.score)
	d.originality[k] = l.outOf100(v, t.original)
	d.completeness[k] = l.outOf100(v, t.complete)
}

func (d *drawn) take(k int, w *[routes]float64, best int) {
	for r := range w {
		if d.route[r] != nil {
			d.route[r][k] = w[r]
		}
	}
	d.chosen[best]++
	d.worth[k] = w[best]
}

// add counts case k, with the worths of its routes and the chosen one.
func (e *expected) add(l *ledger, k int, t *tally, b bill, w *[routes]float64, best int) {
	weight, v := e.cases.Weight[k], e.cases.Variant[k]
	for r := range w {
		e.route[r] += float64(weight * w[r])
	}
	e.value[k] = w[best]
	e.books.add(k, v, t.faults, sums{weight, float64(weight * w[best])})
	e.worth += float64(weight * w[best])
	e.column.add(l, v, t, b, w[best], best, weight)
	e.repairs += float64(weight * t.allCost.total())
	e.gross += float64(weight * l.gross(v, t.restored, b.base))
	e.find(l, k, weight, t)
}

// find counts the different parts that case k needs.
func (e *expected) find(l *ledger, k int, weight float64, t *tally) {
	chance, scarce, goods, finds := 1.0, false, l.accounts[e.cases.Variant[k]].goods, l.market.finds
	for _, f := range t.faults {
		for _, n := range goods[f].needs {
			if e.seen[n.part] == k+1 {
				continue
			}
			e.seen[n.part] = k + 1
			find := &finds[n.part]
			chance *= find.FindChance
			scarce = scarce || find.Scarce
			e.needed[n.part] += weight
		}
	}
	e.allFound += float64(weight * chance)
	if scarce {
		e.scarce += weight
	}
}
