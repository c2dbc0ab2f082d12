package table

import (
	"cmp"

	"lotgauge/valuation"
)

// A Lot is what a ranking says of one listing. Bids are in the currency of the
// place of sale, Margin and Worth in Home.
type Lot struct {
	Listing  string // its file
	Title    string
	Family   string
	Date     string
	Verdict  valuation.Verdict
	Reason   string // why to walk away, or what has no price
	Fixed    bool   // a fixed price, not an auction
	Margin   *valuation.Margin
	Worth    *valuation.Money
	Home     string
	Ask      *valuation.Money
	Careful  *valuation.Money
	Stop     *valuation.Money
	Currency string
	Loss     *valuation.Share // at the ask
	Coverage valuation.Share
	Question *valuation.Question // the one most worth asking, if any is
	Unpriced []string
}

// group is where a lot stands in a ranking.
type group uint8

const (
	ranked group = iota
	unranked
	avoided
	unknown
)

// CompareLots is the order of a ranking: first what may be bought, by what there
// is to gain; then what has no price to hold the worth against, what to walk
// away from, and what has no figure.
func CompareLots(x, y Lot) int {
	if c := cmp.Compare(x.group(), y.group()); c != 0 {
		return c
	}
	if x.Margin != nil && y.Margin != nil {
		if c := y.Gain().Cmp(x.Gain().Decimal); c != 0 {
			return c
		}
	}
	return cmp.Compare(x.Listing, y.Listing)
}

// Gain is what there is to gain on average, nil where no price is known: at the
// price asked, or at an auction by bidding up to the stop and no further.
func (l *Lot) Gain() *valuation.Money {
	switch {
	case l.Margin == nil:
		return nil
	case l.Margin.Bidding != nil:
		return l.Margin.Bidding
	}
	return &l.Margin.Amount
}

func (l *Lot) group() group {
	switch {
	case l.Verdict == valuation.Unpriceable:
		return unknown
	case l.Verdict == valuation.WalkAway:
		return avoided
	case l.Margin == nil:
		return unranked
	}
	return ranked
}
