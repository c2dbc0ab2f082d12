package valuation

import (
	"math/bits"

	"lotgauge/valuation/belief"
	"lotgauge/valuation/prices"
)

// The routes: what to do with the model once it is here.
const (
	sellRestored = iota
	sellRunning
	sellAsFound
	partOut
	keepIt
	routes
)

// RouteNames are the routes' names in listings and in the JSON form.
var RouteNames = [routes]string{"sell-restored", "sell-running", "sell-as-found", "part-out", "keep"}

func routeByName(name string) (int, bool) {
	for r, n := range RouteNames {
		if n == name {
			return r, true
		}
	}
	return 0, false
}

// lane is the model on its way to one sale: the weighted score and the product
// of the factors that it would have then.
type lane struct{ score, factor float64 }

func (l *lane) take(c *cell) {
	l.score += c.score
	l.factor *= c.factor
}

// tally is what the states of one case add up to.
type tally struct {
	found, running, restored lane
	original, complete       float64
	runCost, allCost         cost
	yields                   float64
	faults                   []*cell // the states that are not sound
}

// tally adds up case k, at mean prices.
func (l *ledger) tally(c *belief.Cases, k int, t *tally) {
	m := &l.accounts[c.Variant[k]]
	sound := lane{m.sound.score, m.sound.factor}
	*t = tally{
		found: sound, running: sound, restored: sound,
		original: m.sound.original, complete: m.sound.complete, yields: m.sound.yieldNet,
		faults: t.faults[:0],
	}
	for i, col := range c.State {
		if s := col[k]; s != 0 && s != belief.NotApplicable {
			t.fault(&m.cells[i][s])
		}
	}
}

// fault adds a state that is not sound.
func (t *tally) fault(x *cell) {
	t.faults = append(t.faults, x)
	t.original += x.original
	t.complete += x.complete
	t.yields += x.yieldNet
	t.found.take(x)
	if x.cure {
		t.allCost.add(&x.cost)
	} else {
		t.restored.take(x)
	}
	if x.running {
		t.runCost.add(&x.cost)
	} else {
		t.running.take(x)
	}
}

// gross is the price of variant v in a lane's shape, where a sound one at the
// reference grade brings base.
func (l *ledger) gross(v uint8, at lane, base float64) float64 {
	return base * gradeAt(l.family.Grades, l.outOf100(v, at.score)) * at.factor
}

// outOf100 is a weighted score as a share of all weight, 100 for a family
// without weights.
func (l *ledger) outOf100(v uint8, score float64) float64 {
	w := l.accounts[v].weight
	if w == 0 {
		return 100
	}
	return 100 * score / w
}

// bill is what the prices of the parts come to in one case.
type bill struct{ base, run, all, yields float64 }

// meanBill is the bill of a tally at mean prices.
func (l *ledger) meanBill(v uint8, t *tally) bill {
	return bill{
		base: l.market.models[v].Sell.Mean,
		run:  t.runCost.parts, all: t.allCost.parts, yields: t.yields,
	}
}

// worths are the net worths of the routes at the prices of a bill; those that
// are not open are meaningless.
func (l *ledger) worths(v uint8, t *tally, b bill) (w [routes]float64) {
	all := b.all + t.allCost.spend + t.allCost.time
	w[sellRestored] = l.sell.net(l.gross(v, t.restored, b.base)) - all
	w[sellRunning] = l.sell.net(l.gross(v, t.running, b.base)) - b.run - t.runCost.spend - t.runCost.time
	w[sellAsFound] = l.sell.net(l.gross(v, t.found, b.base))
	w[partOut] = b.yields - l.takeDown
	w[keepIt] = l.keep - all
	return w
}

// best is the open route with the largest worth; of equals the first.
func (l *ledger) best(w *[routes]float64) int {
	best := -1
	for r := range w {
		if l.open[r] && (best < 0 || w[r] > w[best]) {
			best = r
		}
	}
	return best
}

// dice throws the prices: for each draw and item one of the 41 values, however
// often the item is used. It needs no state: the value follows from seed, item
// and draw by the finaliser of SplitMix64 (Steele, Lea and Flood, Fast
// splittable pseudorandom number generators, OOPSLA 2014; constants from
// memory).
type dice struct{ seed uint64 }

func (d dice) index(item, draw, sides int) int {
	z := d.seed*0xd1342543de82ef95 + uint64(item)*0x9e3779b97f4a7c15 + uint64(draw)*0xbf58476d1ce4e5b9 + 1
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	hi, _ := bits.Mul64(z^z>>31, uint64(sides))
	return int(hi)
}

// drawnBill is the bill of draw k of variant v at the prices of that draw.
func (l *ledger) drawnBill(v uint8, k int, t *tally, d dice) bill {
	var b bill
	b.base = l.market.models[v].Sell.Values[d.index(len(l.market.parts)+int(v), k, prices.Values)]
	for _, x := range t.faults {
		for _, n := range x.needs {
			price := float64(n.qty * l.market.parts[n.part].Buy.Values[d.index(n.part, k, prices.Values)])
			b.all += price
			if x.running {
				b.run += price
			}
		}
	}
	if l.open[partOut] {
		b.yields = l.drawnYields(l.accounts[v].sound.yields, k, d)
		for _, x := range t.faults {
			b.yields += l.drawnYields(x.yields, k, d)
		}
	}
	return b
}

func (l *ledger) drawnYields(yields []supply, k int, d dice) float64 {
	sum := 0.0
	for _, y := range yields {
		sum += float64(y.qty * l.piece[y.part][d.index(y.part, k, prices.Values)])
	}
	return sum
}
