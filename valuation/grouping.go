package valuation

import "math"

// group books the cases under their answers, by turns into two halves.
func (q *asker) group(about []*inquiry) (one, other *tallied) {
	if len(about) == 1 && about[0].booked != nil {
		return about[0].booked[0].clone(), about[0].booked[1].clone()
	}
	count := 1
	for _, x := range about {
		count *= x.count
	}
	one, other = newTallied(count, len(q.values)), newTallied(count, len(q.values))
	switch {
	case len(q.values) > 1:
		q.groupAny(about, one, other)
	case len(about) == 1 && about[0].chance == nil:
		q.groupOne(about[0], one, other)
	case len(about) == 1:
		q.groupChance(about[0], one, other)
	case len(about) == 2 && about[0].chance == nil && about[1].chance == nil && count <= math.MaxUint8+1:
		q.groupOne(both(about[0], about[1]), one, other)
	default:
		q.groupAny(about, one, other)
	}
	return one, other
}

// groupAny is group for any number of actions and inquiries.
func (q *asker) groupAny(about []*inquiry, one, other *tallied) {
	halves := [2]*tallied{one, other}
	for k := 0; k < len(q.cases.Weight); k++ {
		q.split(halves[k&1], k, q.cases.Weight[k], 0, about)
	}
}

// split books case k under its answers; where an answer is a chance the case
// counts under both.
func (q *asker) split(into *tallied, k int, weight float64, cell int, about []*inquiry) {
	if len(about) == 0 {
		into.add(cell, weight, q.values, k)
		return
	}
	x, rest := about[0], about[1:]
	cell *= x.count
	if x.chance == nil {
		q.split(into, k, weight, cell+x.answer(k), rest)
		return
	}
	yes := float64(weight * x.chance[k])
	q.split(into, k, yes, cell+1, rest)
	q.split(into, k, weight-yes, cell, rest)
}

// turns is how many pages [asker.groupOne] writes on, one after the other:
// adding to a number has to wait until the addition before it is done, and most
// cases have the same answer. The even pages are one half, the odd ones the other.
const turns = 4

// blank are empty pages for so many answers, one page after the other.
func (q *asker) blank(count int) []sums {
	if len(q.pages) < turns*count {
		q.pages = make([]sums, turns*count)
	}
	pages := q.pages[:turns*count]
	clear(pages)
	return pages
}

// bind adds the pages to the two halves.
func bind(pages []sums, one, other *tallied) {
	count := len(pages) / turns
	for at, e := range pages {
		half := one
		if at/count&1 == 1 {
			half = other
		}
		half.book(at%count, e)
	}
}

// groupOne is group for the usual case, one action and one inquiry with definite
// answers, without the detours.
func (q *asker) groupOne(x *inquiry, one, other *tallied) {
	pages, page := q.blank(x.count), 0
	value, weight := q.values[0], q.cases.Weight
	for k := 0; k < len(weight); k++ {
		pages[page+x.answer(k)].add(sums{weight[k], float64(weight[k] * value[k])})
		if page += x.count; page == len(pages) {
			page = 0
		}
	}
	bind(pages, one, other)
}

// both are two inquiries with definite answers as one; their joint answers must fit
// into bytes.
func both(x, y *inquiry) *inquiry {
	out := &inquiry{answers: make([]uint8, len(x.answers)), count: x.count * y.count}
	for k := range out.answers {
		out.answers[k] = uint8(x.answer(k)*y.count + y.answer(k))
	}
	return out
}

// groupChance is group for one action and one inquiry whose answer is a chance:
// a case counts under yes by it, under no by the rest.
func (q *asker) groupChance(x *inquiry, one, other *tallied) {
	value, weight := q.values[0], q.cases.Weight
	for half, into := range []*tallied{one, other} {
		var yes, no sums
		for k := half; k < len(weight); k += 2 {
			w := float64(weight[k] * x.chance[k])
			yes.add(sums{w, float64(w * value[k])})
			w = weight[k] - w
			no.add(sums{w, float64(w * value[k])})
		}
		into.book(0, no)
		into.book(1, yes)
	}
}
