package charges

import (
	"testing"

	"github.com/shopspring/decimal"
)

// The numbered ladder is the valid bids up to the limit, each once and in
// order: those that a count of minor units finds one by one.
func TestLadder(t *testing.T) {
	m := newMaker(8, 400)
	for n := range 1000 {
		s := m.sheet(0)
		if n%5 > 0 {
			m.ladder(s)
		}
		unit, limit := s.Currency.Unit(), m.units(s, 600)
		bids, k := s.ladder(limit), int64(0)
		for bid := unit; bid.LessThanOrEqual(limit); bid = bid.Add(unit) {
			if !s.OnLadder(bid) {
				continue
			}
			if k >= bids.len() || !bids.bid(k).Equal(bid) {
				t.Fatalf("ladder %d: %v up to %s: bid number %d is not %s", n, s.Increment, limit, k, bid)
			}
			k++
		}
		if k != bids.len() {
			t.Fatalf("ladder %d: %v up to %s: %d bids, want %d", n, s.Increment, limit, bids.len(), k)
		}
	}
}

// A ladder without end is cut, and its last bids can still be reached.
func TestLadderEnd(t *testing.T) {
	s := &Sheet{Side: Buy, Currency: "GBP", Increment: []Rung{{Step: decimal.New(1, 0)}, {From: decimal.New(10, 0), Step: decimal.New(1, -2)}}}
	bids := s.ladder(decimal.New(1, 40))
	if bids.len() != maxRungs {
		t.Errorf("%d bids, want %d", bids.len(), int64(maxRungs))
	}
	// Nine of 1 to 9, then 10 and a cent more each.
	want := decimal.NewFromInt(maxRungs - 10).Shift(-2).Add(decimal.NewFromInt(10))
	if got := bids.bid(maxRungs - 1); !got.Equal(want) {
		t.Errorf("the last bid is %s, want %s", got, want)
	}
	if bids := s.ladder(decimal.New(5, -1)); bids.len() != 0 {
		t.Errorf("%d bids below the first", bids.len())
	}
}
