package valuation

import "lotgauge/valuation/checklist"

// books are the cases of an expectation by what is found in them, in two halves
// that take turns. They are kept along the way, since a case has few faults and
// grouping it by every point anew takes a look at all of its states.
type books [2]book

// book is one half: by variant all cases, and those of each state that is not
// sound, in the order of account.all.
type book struct {
	all    []sums
	states [][]sums
}

// sums are what some cases come to: their weight and their weighted worth.
type sums struct{ weight, worth float64 }

func (s *sums) add(x sums) {
	s.weight += x.weight
	s.worth += x.worth
}

// take takes away cases that are among these.
func (s *sums) take(x sums) {
	s.weight -= x.weight
	s.worth -= x.worth
}

// dust is so little weight that it is only the rounding of a difference.
const dust = 1e-12

// swept are none where there is only dust.
func (s sums) swept() sums {
	if s.weight <= dust {
		return sums{}
	}
	return s
}

func (l *ledger) newBooks() (b books) {
	for half := range b {
		b[half] = book{make([]sums, len(l.accounts)), make([][]sums, len(l.accounts))}
		for v := range l.accounts {
			b[half].states[v] = make([]sums, len(l.accounts[v].all))
		}
	}
	return b
}

// kept tells whether there are any.
func (b *books) kept() bool { return b[0].all != nil }

// add books a handful with what the chosen routes are worth.
func (b *books) add(h *deal, best *choice) {
	var x [handful]sums
	for k, weight := range h.weights() {
		x[k] = sums{weight, float64(weight * best.worth[k])}
		b[(h.from+k)&1].all[h.variant].add(x[k])
	}
	for _, f := range h.faults {
		halves := [2]*sums{&b[h.from&1].states[h.variant][f], &b[1-h.from&1].states[h.variant][f]}
		for _, k := range h.with(f) {
			halves[k&1].add(x[k%handful])
		}
	}
}

// of are the cases by the state of a point; the last answer is that the variant
// has no such point. A sound point is what the faults leave.
func (b *book) of(l *ledger, point int, p *checklist.Point) *tallied {
	last := len(p.States)
	out := newTallied(last+1, 1)
	for v := range l.accounts {
		m, left := &l.accounts[v], b.all[v]
		if !p.Applies[v] {
			out.book(last, left)
			continue
		}
		if len(m.all) == 0 { // it cannot be this one
			continue
		}
		for s := 1; s < last; s++ {
			x := b.states[v][m.first[point]+s]
			out.book(s, x)
			left.take(x)
		}
		out.book(0, left.swept())
	}
	return out
}
