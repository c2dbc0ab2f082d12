package valuation

import (
	"cmp"
	"slices"

	"lotgauge/valuation/belief"
)

// pairShare: a pair is shown where the best single question is worth less than
// this share of it.
const pairShare = 0.1

// pair is the best pair of inquiries, where it beats the best single one by so
// much that asking one at a time would miss it. noise is what a value must
// exceed to count.
func (q *asker) pair(about []inquiry, bestSingle, noise float64) (i, j int, worth float64, ok bool) {
	if bestSingle >= pairShare*q.everything() {
		return 0, 0, 0, false
	}
	i, j, _ = q.bestPair(about, len(about), func(_, _ int, worth float64) float64 { return worth }, 0)
	if i < 0 {
		return 0, 0, 0, false
	}
	worth = q.worth(&about[i], &about[j])
	return i, j, worth, worth > noise && bestSingle < pairShare*worth
}

// bestPair is the two inquiries whose worth together scores highest, above a
// floor; i is negative where none does. They are looked for among those, so many,
// that move the expected worth most, and compared over some of the draws only,
// and so best valued again. How far the answers to each inquiry move the expected
// worth comes along.
func (q *asker) bestPair(about []inquiry, among int, score func(i, j int, worth float64) float64, floor float64) (i, j int, moves []float64) {
	few, asked := q, about
	if !q.cases.Exact {
		few, asked = q.thinned(about)
	}
	grouped := few.groupEach(asked)
	moves = movesOf(grouped)
	most := movers(moves, among)
	table := few.newPairTable(asked, grouped)
	i, j = -1, -1
	for n, a := range most {
		for _, b := range most[n+1:] {
			if s := score(a, b, table.worth(a, b)); s > floor {
				floor, i, j = s, a, b
			}
		}
	}
	return i, j, moves
}

// movers are the indices of the largest moves, at most so many, in ascending
// order.
func movers(moves []float64, most int) []int {
	order := make([]int, len(moves))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(moves[b], moves[a]) })
	order = order[:min(len(order), most)]
	slices.Sort(order)
	return order
}

// groupEach groups the cases by the answers to each inquiry by itself.
func (q *asker) groupEach(about []inquiry) [][2]*tallied {
	out := make([][2]*tallied, len(about))
	for i := range about {
		out[i][0], out[i][1] = q.group([]*inquiry{&about[i]})
	}
	return out
}

// movesOf is how far the answers to each inquiry move the expected worth.
func movesOf(grouped [][2]*tallied) []float64 {
	out := make([]float64, len(grouped))
	for i, halves := range grouped {
		all := halves[0].clone()
		all.merge(halves[1])
		out[i] = all.moved()
	}
	return out
}

// moved is the mean square of what the answers add to the expected worth, by the
// first action.
func (t *tallied) moved() float64 {
	all, weight, sum := 0.0, 0.0, 0.0
	for i, w := range t.weight {
		all += t.worth[i*t.actions]
		weight += w
	}
	for i, w := range t.weight {
		if w > 0 {
			move := t.worth[i*t.actions]/w - all/weight
			sum += float64(w * move * move)
		}
	}
	return sum
}

// screened is over how many draws pairs are compared.
const screened = 2000

// thinned is the asker over a small part of the draws, evenly spread, with every
// answer made definite: a symptom is there in as many of them as its chances
// add up to.
func (q *asker) thinned(about []inquiry) (*asker, []inquiry) {
	stride := max(1, len(q.cases.Weight)/screened)
	few := &asker{cases: &belief.Cases{}, values: make([][]float64, len(q.values)), g: q.g}
	asked := make([]inquiry, len(about))
	owed := make([]float64, len(about))
	for k := 0; k < len(q.cases.Weight); k += stride {
		few.cases.Weight = append(few.cases.Weight, q.cases.Weight[k])
		for a := range q.values {
			few.values[a] = append(few.values[a], q.values[a][k])
		}
		for i := range about {
			asked[i].count = about[i].count
			asked[i].answers = append(asked[i].answers, about[i].definite(k, &owed[i]))
		}
	}
	return few, asked
}

// definite is the answer of case k; of chances it hands out a yes whenever they
// have added up to another one.
func (x *inquiry) definite(k int, owed *float64) uint8 {
	if x.chance == nil {
		return uint8(x.answer(k))
	}
	*owed += x.chance[k]
	if *owed >= 0.5 {
		*owed--
		return 1
	}
	return 0
}
