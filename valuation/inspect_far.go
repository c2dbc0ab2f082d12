package valuation

import (
	"cmp"
	"slices"
)

// lookFar looks at ever larger sets of checks, those first that tell most of the
// worth in a minute, until one of them pays. It is for the case that no check
// and no two do: at a fixed price it may take many small faults to turn the
// decision, and to stop then would leave regret behind that no cheap look would
// ever take away.
//
// What a set is worth is not the worth of knowing its answers but a little less:
// that of deciding by a sum, the expected worth plus one effect for each answer.
// That is a rule somebody could decide by, so the value of the set is no
// smaller; and a sum can be taken over many checks, while a table of their joint
// answers cannot.
func (p *plan) lookFar(q *asker, about []inquiry, s stall) {
	order := p.tellingOrder()
	r := newSumRule(q)
	minutes, next := 0.0, 3
	for n, i := range order {
		r.add(&about[i])
		minutes += p.minutes[i]
		if n+1 < next && n+1 < len(order) {
			continue
		}
		next += 1 + next/2 // sets of 3, 5, 8, 13 …
		if worth := r.worth(); s.net(worth, minutes) > s.trifle {
			p.best, p.with = order[0], -1
			p.together, p.both, p.time = n+1, worth, minutes
			return
		}
	}
}

// tellingOrder is the checks by how far they move the expected worth in a minute,
// the farthest first. None takes less than half a minute.
func (p *plan) tellingOrder() []int {
	order := make([]int, len(p.subjects))
	for i := range order {
		order[i] = i
	}
	by := func(i int) float64 { return p.moves[i] / max(p.minutes[i], 0.5) }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(by(b), by(a)) })
	return order
}

// sumRule decides by a sum over answers.
type sumRule struct {
	q     *asker
	mean  float64
	score []float64 // by case: the sum so far
}

func newSumRule(q *asker) *sumRule {
	r := &sumRule{q: q, score: make([]float64, len(q.cases.Weight))}
	total := 0.0
	for k, w := range q.cases.Weight {
		r.mean += float64(w * q.values[0][k])
		total += w
	}
	r.mean /= total
	for k := range r.score {
		r.score[k] = r.mean
	}
	return r
}

// add adds the effects of one more inquiry: by how much the expected worth given
// an answer differs from that without. In draws each half takes the effects of
// the other half, so that luck is not taken for knowledge; where cases are exact
// there is no luck.
func (r *sumRule) add(x *inquiry) {
	answers, owed := make([]uint8, len(r.score)), 0.0
	for k := range answers {
		answers[k] = x.definite(k, &owed)
	}
	one, other := r.q.group([]*inquiry{{answers: answers, count: x.count}})
	if r.q.cases.Exact {
		one.merge(other)
		other = one
	}
	effects := [2][]float64{r.effects(other), r.effects(one)}
	for k, a := range answers {
		r.score[k] += effects[k&1][a]
	}
}

// effects are those of the answers in a group of cases; one that no case of them
// has has none.
func (r *sumRule) effects(t *tallied) []float64 {
	out := make([]float64, len(t.weight))
	for a, w := range t.weight {
		if w > 0 {
			out[a] = t.worth[a]/w - r.mean
		}
	}
	return out
}

// worth is what deciding by the sum gains against deciding at once: the gain that
// the sum promises, put right by what the worths turn out to be.
func (r *sumRule) worth() float64 {
	at, slope := []float64{r.mean}, make([]float64, 1)
	now, sum, total := r.q.g(at, slope), 0.0, 0.0
	for k, w := range r.q.cases.Weight {
		at[0] = r.score[k]
		gain := r.q.g(at, slope)
		sum += float64(w * (gain + float64(slope[0]*(r.q.values[0][k]-r.score[k]))))
		total += w
	}
	return sum/total - now
}
