package valuation

import (
	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// line is the bid at which to stop as a straight line of the worth, through two
// bids of the ladder.
type line struct{ bid, worth, slope float64 }

// newLine is the line through the bids at two worths. Where no bid will do, or
// both are the same, the bid stays at the first.
func newLine(p *purchase, low, high float64) line {
	at := func(worth float64) (bid, landed float64) {
		if b := p.highest(worth); b != nil {
			return money.Float(*b), money.Float(p.landed(*b))
		}
		return 0, money.Float(p.landed(decimal.Zero))
	}
	bid, landed := at(low)
	l := line{bid: bid, worth: landed}
	if top, above := at(high); above > landed {
		l.slope = (top - bid) / (above - landed)
	}
	return l
}

// at is the bid that goes with a worth.
func (l line) at(worth float64) float64 { return l.bid + float64(l.slope*(worth-l.worth)) }

// figure is a worth with its bid, none below zero.
func (r *reckoning) figure(worth float64) Figure {
	return Figure{Worth: r.n.a.home(worth), Bid: estimate(max(0, r.line.at(worth)), r.n.a.buy.Currency)}
}

// change is a change of a worth, with that of the bid.
func (r *reckoning) change(worth float64) Figure {
	return Figure{Worth: r.n.a.home(worth), Bid: estimate(r.line.slope*worth, r.n.a.buy.Currency)}
}
