package valuation

import (
	"math"

	"lotgauge/valuation/belief"
	"lotgauge/valuation/prices"
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
	cases     *belief.Cases
	value     []float64 // worth of each case
	worth     float64
	route     [routes]float64
	column    column  // how worth comes about
	repairs   float64 // cost of all remedies
	gross     float64 // price once restored
	allFound  float64 // chance that all parts needed are found
	scarce    float64 // chance that a scarce part is needed
	needed    []float64
	condition float64
}

// throw appraises every draw.
func (l *ledger) throw(c *belief.Cases, seed uint64) *drawn {
	n := len(c.Weight)
	d := &drawn{worth: make([]float64, n)}
	for r := range d.route {
		if l.open[r] {
			d.route[r] = make([]float64, n)
		}
	}
	for _, col := range []*[]float64{&d.condition, &d.originality, &d.completeness} {
		*col = make([]float64, n)
	}
	var t tally
	for k := range n {
		l.tally(c, k, &t)
		d.score(l, c.Variant[k], k, &t)
		l.realise(c, k, &t, dice{seed}, d)
	}
	return d
}

func (d *drawn) score(l *ledger, v uint8, k int, t *tally) {
	d.condition[k] = l.outOf100(v, t.found.score)
	d.originality[k] = l.outOf100(v, t.original)
	d.completeness[k] = l.outOf100(v, t.complete)
}

// realise chooses the route at mean prices and takes it at the drawn ones.
func (l *ledger) realise(c *belief.Cases, k int, t *tally, dice dice, d *drawn) {
	v := c.Variant[k]
	atMean := l.worths(v, t, l.meanBill(v, t))
	best := l.best(&atMean)
	w := l.worths(v, t, l.drawnBill(c, k, dice))
	for r := range w {
		if l.open[r] {
			d.route[r][k] = w[r]
		}
	}
	d.chosen[best]++
	d.worth[k] = w[best]
}

// expect takes the mean over the cases. With realised worths given (draws under
// selling charges that are not straight) those count; otherwise worths at mean
// prices, whose mean is the same and varies less.
func (l *ledger) expect(c *belief.Cases, realised *drawn) *expected {
	e := &expected{cases: c, value: make([]float64, len(c.Weight)), needed: make([]float64, len(l.family.Parts))}
	seen := make([]int, len(l.family.Parts))
	var t tally
	for k, weight := range c.Weight {
		l.tally(c, k, &t)
		v := c.Variant[k]
		b := l.meanBill(v, &t)
		w := l.worths(v, &t, b)
		best := l.best(&w)
		e.column.add(l, v, &t, b, w[best], best, weight)
		if realised != nil {
			for r := range w {
				if l.open[r] {
					w[r] = realised.route[r][k]
				}
			}
		}
		e.take(k, weight, &w, best)
		e.repairs += float64(weight * t.allCost.total())
		e.gross += float64(weight * l.gross(v, t.restored, b.base))
		e.condition += float64(weight * l.outOf100(v, t.found.score))
		e.find(l, k, weight, seen)
	}
	return e
}

func (e *expected) take(k int, weight float64, w *[routes]float64, best int) {
	for r := range w {
		e.route[r] += float64(weight * w[r])
	}
	e.value[k] = w[best]
	e.worth += float64(weight * w[best])
}

// find counts the different parts that case k needs.
func (e *expected) find(l *ledger, k int, weight float64, seen []int) {
	chance, scarce := 1.0, false
	cells := l.cells[e.cases.Variant[k]]
	for i, col := range e.cases.State {
		s := col[k]
		if s == belief.NotApplicable {
			continue
		}
		for _, n := range cells[i][s].needs {
			if seen[n.part] == k+1 {
				continue
			}
			seen[n.part] = k + 1
			find := &l.market.finds[n.part]
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

// deviation is the standard deviation of xs, with n−1.
func deviation(xs []float64) float64 {
	n := float64(len(xs))
	if n < 2 {
		return 0
	}
	mean := 0.0
	for _, x := range xs {
		mean += x
	}
	mean /= n
	sum := 0.0
	for _, x := range xs {
		sum += float64((x - mean) * (x - mean))
	}
	return math.Sqrt(sum / (n - 1))
}

// tenths are the 10%, 50% and 90% points of xs (type 7), which it reorders.
func tenths(xs []float64) (p10, p50, p90 float64) {
	return quantile7(xs, 0.1), quantile7(xs, 0.5), quantile7(xs, 0.9)
}

// quantile7 is Hyndman and Fan's type 7 without sorting all of xs, which it
// reorders. It agrees with prices.Quantile7, which wants them sorted.
func quantile7(xs []float64, p float64) float64 {
	h := float64(len(xs)-1) * p
	j := int(h)
	lo := nth(xs, j)
	if j+1 >= len(xs) {
		return lo
	}
	next := xs[j+1]
	for _, x := range xs[j+2:] {
		next = min(next, x)
	}
	return prices.Quantile7([]float64{lo, next}, h-float64(j))
}

// nth is the n-th smallest of xs, n from 0. It partitions xs around it (Hoare,
// Algorithm 65: Find, Communications of the ACM 4, 1961).
func nth(xs []float64, n int) float64 {
	lo, hi := 0, len(xs)-1
	for lo < hi {
		pivot := xs[lo+(hi-lo)/2]
		i, j := lo, hi
		for i <= j {
			for xs[i] < pivot {
				i++
			}
			for xs[j] > pivot {
				j--
			}
			if i <= j {
				xs[i], xs[j] = xs[j], xs[i]
				i++
				j--
			}
		}
		switch {
		case n <= j:
			hi = j
		case n >= i:
			lo = i
		default:
			return xs[n]
		}
	}
	return xs[n]
}
