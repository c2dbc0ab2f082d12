package valuation

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

// unchanged is what a state adds to a lane in which it is put right.
var unchanged = lane{0, 1}

func (l *lane) take(x lane) {
	l.score += x.score
	l.factor *= x.factor
}

// tally is what the states of one case add up to.
type tally struct {
	found, running, restored lane
	original, complete       float64
	runCost, allCost         cost
	yields                   float64
	faults                   []int32 // the states that are not sound, by their place in account.all
}

// sum adds the faults to a sound one. The sums stay out of memory until the end,
// where most of the time of an appraisal would go otherwise.
func (t *tally) sum(m *account) {
	sound := &m.sound
	found, running, restored := sound.found, sound.found, sound.found
	original, complete, yields := sound.original, sound.complete, sound.yieldNet
	var all, run cost
	for _, f := range t.faults {
		x := &m.all[f]
		found.take(x.found)
		running.take(x.run)
		restored.take(x.restored)
		original += x.original
		complete += x.complete
		yields += x.yieldNet
		all.add(&x.cost)
		run.add(&x.runCost)
	}
	t.found, t.running, t.restored = found, running, restored
	t.original, t.complete, t.yields = original, complete, yields
	t.allCost, t.runCost = all, run
}

// gross is the price of variant v in a lane's shape, where a sound one at the
// reference grade brings base.
func (l *ledger) gross(v uint8, at lane, base float64) float64 {
	return base * l.grading.at(l.outOf100(v, at.score)) * at.factor
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
	w[sellRunning] = l.sell.net(l.gross(v, t.running, b.base)) - (b.run + t.runCost.spend + t.runCost.time)
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
