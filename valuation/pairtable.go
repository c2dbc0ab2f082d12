package valuation

import "math/bits"

// pairTable values pairs of inquiries, many over the same cases. Most cases have
// the usual answer to most of them: it looks only at those with an unusual answer
// to both, and works out the others from what each inquiry comes to by itself.
type pairTable struct {
	q       *asker
	about   []inquiry
	singles []unusual // nil where the quick way is not open
	all     [2]sums
}

// unusual is one inquiry by itself.
type unusual struct {
	usual  int         // its most frequent answer
	cases  []uint64    // the set of cases with another one, a bit each
	halves [2]*tallied // the cases by answer
}

// newPairTable takes the inquiries with the cases as they are grouped by each.
func (q *asker) newPairTable(about []inquiry, grouped [][2]*tallied) *pairTable {
	t := &pairTable{q: q, about: about}
	if len(q.values) > 1 {
		return t
	}
	for i := range about {
		if about[i].chance != nil {
			return t
		}
	}
	for k, w := range q.cases.Weight {
		t.all[k&1].add(sums{w, float64(w * q.values[0][k])})
	}
	t.singles = make([]unusual, len(about))
	for i := range about {
		t.singles[i] = newUnusual(&about[i], grouped[i])
	}
	return t
}

func newUnusual(x *inquiry, halves [2]*tallied) unusual {
	u := unusual{halves: halves, cases: make([]uint64, (len(x.answers)+63)/64)}
	most := 0.0
	for answer := range x.count {
		if w := u.halves[0].weight[answer] + u.halves[1].weight[answer]; w > most {
			most, u.usual = w, answer
		}
	}
	for k := range x.answers {
		if x.answer(k) != u.usual {
			u.cases[k/64] |= 1 << (k % 64)
		}
	}
	return u
}

// worth is what the answers to inquiries a and b together are worth.
func (t *pairTable) worth(a, b int) float64 {
	if t.singles == nil {
		return t.q.worth(&t.about[a], &t.about[b])
	}
	one, other := t.group(a, b)
	return t.q.value(one, other)
}

// group books the cases under their answers to a and b.
func (t *pairTable) group(a, b int) (one, other *tallied) {
	x, y := &t.about[a], &t.about[b]
	halves := [2]*tallied{newTallied(x.count*y.count, 1), newTallied(x.count*y.count, 1)}
	value, weight := t.q.values[0], t.q.cases.Weight
	for i, set := range t.singles[a].cases {
		for both := set & t.singles[b].cases[i]; both != 0; both &= both - 1 {
			k := i*64 + bits.TrailingZeros64(both)
			halves[k&1].book(x.answer(k)*y.count+y.answer(k), sums{weight[k], float64(weight[k] * value[k])})
		}
	}
	for half, into := range halves {
		t.fill(into, half, a, b)
	}
	return halves[0], halves[1]
}

// fill books the cases with the usual answer to a or to b or to both: what those
// with unusual ones to both leave.
func (t *pairTable) fill(into *tallied, half, a, b int) {
	x, y := &t.singles[a], &t.singles[b]
	rows, columns := t.about[a].count, t.about[b].count
	left := t.all[half]
	rest := func(from *tallied, answer, to int, cell func(n int) int, others, usual int) {
		r := from.at(answer)
		for n := range others {
			if n != usual {
				r.take(into.at(cell(n)))
			}
		}
		into.book(to, r.swept())
	}
	for i := range rows {
		if i != x.usual {
			left.take(x.halves[half].at(i))
			rest(x.halves[half], i, i*columns+y.usual, func(n int) int { return i*columns + n }, columns, y.usual)
		}
	}
	for j := range columns {
		if j != y.usual {
			rest(y.halves[half], j, x.usual*columns+j, func(n int) int { return n*columns + j }, rows, x.usual)
			left.take(into.at(x.usual*columns + j))
		}
	}
	into.book(x.usual*columns+y.usual, left.swept())
}
