package valuation

import "testing"

// TestBegun: a check begun in time is finished, one that takes no time is made.
func TestBegun(t *testing.T) {
	w := &walk{minutes: []float64{0, 1, 3, 3, 5}}
	for _, row := range []struct {
		limit float64
		want  int
	}{{0, 0}, {0.5, 1}, {1, 1}, {1.5, 2}, {2.9, 2}, {3, 2}, {3.5, 4}, {5, 4}, {99, 4}} {
		if got := w.begun(row.limit); got != row.want {
			t.Errorf("in %v minutes: %d, want %d", row.limit, got, row.want)
		}
	}
}

func TestRegret(t *testing.T) {
	for _, row := range []struct {
		f           find
		buys        bool
		mean, drawn float64
	}{
		{find{value: 50, drawn: 60, landed: 40}, true, 0, 0},
		{find{value: 50, drawn: 60, landed: 40}, false, 10, 20},
		{find{value: 50, drawn: 30, landed: 40}, false, 10, -10},
		{find{value: 30, drawn: 25, landed: 40}, true, 10, 15},
		{find{value: 30, drawn: 25, landed: 40}, false, 0, 0},
		{find{value: 40, drawn: 25, landed: 40}, true, 0, 15},
	} {
		if mean, drawn := row.f.regret(row.buys); mean != row.mean || drawn != row.drawn {
			t.Errorf("%+v bought %v: %v and %v", row.f, row.buys, mean, drawn)
		}
	}
}

// TestShortest: the minutes to a regret are those under the shortest limit that
// brings it about, and a regret that is never brought about is said to be so.
func TestShortest(t *testing.T) {
	s := &simulator{finds: []find{{value: 50, landed: 40}, {value: 30, landed: 50}}}
	walks := []walk{
		{minutes: []float64{0, 2, 3}, buys: []bool{false, false, true}}, // regrets 10, 10, 0
		{minutes: []float64{0, 1}, buys: []bool{true, false}},           // regrets 20, 0
	}
	for _, row := range []struct {
		target, minutes float64
		ok              bool
	}{{15, 0, true}, {5, 1.5, true}, {4, 2, true}, {0, 2, true}, {-1, 2, false}} {
		at, ok := s.shortest(walks, func(at spot) bool { return at.regret <= row.target })
		if at.minutes != row.minutes || ok != row.ok {
			t.Errorf("to %v: %+v, %v", row.target, at, ok)
		}
	}
	if at := s.limited(walks, 0); at != (spot{0, 15}) {
		t.Errorf("without a look %+v", at)
	}
	if at := s.limited(walks, -1); at != (spot{2, 0}) {
		t.Errorf("without a limit %+v", at)
	}
}
