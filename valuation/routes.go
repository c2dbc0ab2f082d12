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

// outOf100 is a weighted score as a share of all weight, 100 for a family
// without weights.
func (l *ledger) outOf100(v uint8, score float64) float64 {
	w := l.accounts[v].weight
	if w == 0 {
		return 100
	}
	return 100 * score / w
}

// bill is what the prices of the parts come to in a handful of cases, and what a
// sound one at the reference grade brings.
type bill struct{ base, run, all, yields figures }

// atMeanPrices are the bill, the worths and the choice at mean prices. They hold
// until the next handful.
func (d *deal) atMeanPrices() (*bill, *worths, *choice) {
	m := &d.mean
	m.bill.base.fill(d.l.market.models[d.variant].Sell.Mean)
	m.bill.run, m.bill.all, m.bill.yields = d.tally[runParts], d.tally[allParts], d.tally[yielded]
	d.worths(&m.bill, &m.all)
	m.best.choose(d, &m.all)
	return &m.bill, &m.all, &m.best
}

// gross is the price of case k in a lane's shape.
func (d *deal) gross(lane, k int, b *bill) float64 {
	return float64(b.base[k] * d.graded[lane][k] * d.tally[factors+lane][k])
}

// worths are the net worths of a handful by each open route.
type worths [routes]figures

// worths fills out at the prices of a bill.
func (d *deal) worths(b *bill, out *worths) {
	l, t := d.l, &d.tally
	for r := range out {
		if !l.open[r] {
			continue
		}
		w := out[r][:d.size()]
		switch r {
		case sellRestored:
			d.sold(w, laneRestored, b)
			spend(w, &b.all, &t[allSpend], &t[allTime])
		case sellRunning:
			d.sold(w, laneRunning, b)
			spend(w, &b.run, &t[runSpend], &t[runTime])
		case sellAsFound:
			d.sold(w, laneFound, b)
		case partOut:
			for k := range w {
				w[k] = b.yields[k] - l.takeDown
			}
		case keepIt:
			out[r].fill(l.keep)
			spend(w, &b.all, &t[allSpend], &t[allTime])
		}
	}
}

// sold fills w with what a sale in a lane's shape brings net.
func (d *deal) sold(w []float64, lane int, b *bill) {
	for k := range w {
		w[k] = d.l.sell.net(d.gross(lane, k, b))
	}
}

// spend takes what a remedy costs from w.
func spend(w []float64, parts, consumables, time *figures) {
	for k := range w {
		w[k] -= parts[k] + consumables[k] + time[k]
	}
}

// choice is the best route of each case of a handful, and its worth.
type choice struct {
	route [handful]uint8
	worth figures
}

// choose takes the open route with the largest worth; of equals the first.
func (c *choice) choose(d *deal, w *worths) {
	none := true
	for r := range w {
		switch {
		case !d.l.open[r]:
		case none:
			none = false
			c.worth = w[r]
			for k := range c.route {
				c.route[k] = uint8(r)
			}
		default:
			for k, x := range w[r][:d.size()] {
				if x > c.worth[k] {
					c.route[k], c.worth[k] = uint8(r), x
				}
			}
		}
	}
}

// at are the worths by the routes of a choice.
func (w *worths) at(c *choice) (out figures) {
	for k, r := range c.route {
		out[k] = w[r][k]
	}
	return out
}
