package valuation

// group books every stride-th case under its answers, by turns into two halves.
func (q *asker) group(stride int, about []*inquiry) (one, other *tallied) {
	count := 1
	for _, x := range about {
		count *= x.count
	}
	one, other = newTallied(count, len(q.values)), newTallied(count, len(q.values))
	switch {
	case len(q.values) > 1:
		q.groupAny(stride, about, one, other)
	case len(about) == 1 && about[0].chance == nil:
		q.groupOne(stride, about[0], one, other)
	case len(about) == 1:
		q.groupChance(stride, about[0], one, other)
	case len(about) == 2 && about[0].chance == nil && about[1].chance == nil:
		q.groupPair(stride, about[0], about[1], one, other)
	default:
		q.groupAny(stride, about, one, other)
	}
	return one, other
}

// groupAny is group for any number of actions and inquiries.
func (q *asker) groupAny(stride int, about []*inquiry, one, other *tallied) {
	halves := [2]*tallied{one, other}
	for k := 0; k < len(q.cases.Weight); k += stride {
		q.split(halves[k/stride&1], k, q.cases.Weight[k], 0, about)
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
		q.split(into, k, weight, cell+min(int(x.answers[k]), x.count-1), rest)
		return
	}
	yes := float64(weight * x.chance[k])
	q.split(into, k, yes, cell+1, rest)
	q.split(into, k, weight-yes, cell, rest)
}

// sums are what the cases of one answer come to.
type sums struct{ weight, worth float64 }

// turns is how many pages the quick ways below write on, one after the other:
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
		half.weight[at%count] += e.weight
		half.worth[at%count] += e.worth
	}
}

// groupOne is group for the usual case, one action and one inquiry with definite
// answers, without the detours.
func (q *asker) groupOne(stride int, x *inquiry, one, other *tallied) {
	pages, page, last := q.blank(x.count), 0, x.count-1
	value, weight, answers := q.values[0], q.cases.Weight, x.answers
	for k := 0; k < len(weight); k += stride {
		e := &pages[page+min(int(answers[k]), last)]
		e.weight += weight[k]
		e.worth += float64(weight[k] * value[k])
		if page += x.count; page == len(pages) {
			page = 0
		}
	}
	bind(pages, one, other)
}

// groupPair is group for one action and two inquiries with definite answers.
func (q *asker) groupPair(stride int, x, y *inquiry, one, other *tallied) {
	count := x.count * y.count
	pages, page := q.blank(count), 0
	value, weight := q.values[0], q.cases.Weight
	for k := 0; k < len(weight); k += stride {
		e := &pages[page+min(int(x.answers[k]), x.count-1)*y.count+min(int(y.answers[k]), y.count-1)]
		e.weight += weight[k]
		e.worth += float64(weight[k] * value[k])
		if page += count; page == len(pages) {
			page = 0
		}
	}
	bind(pages, one, other)
}

// groupChance is group for one action and one inquiry whose answer is a chance:
// a case counts under yes by it, under no by the rest.
func (q *asker) groupChance(stride int, x *inquiry, one, other *tallied) {
	value, weight := q.values[0], q.cases.Weight
	for half, into := range []*tallied{one, other} {
		var yes, no sums
		for k := half * stride; k < len(weight); k += 2 * stride {
			w := float64(weight[k] * x.chance[k])
			yes.weight += w
			yes.worth += float64(w * value[k])
			w = weight[k] - w
			no.weight += w
			no.worth += float64(w * value[k])
		}
		into.weight[0], into.worth[0] = no.weight, no.worth
		into.weight[1], into.worth[1] = yes.weight, yes.worth
	}
}
