package valuation

import (
	"cmp"
	"slices"
)

// plan is what to check next: of the checks still open, the one with the largest
// worth of knowing less the time it takes. Where two together are worth more
// than the best one by itself, both their times taken off, the better of the two
// comes first. Where no two pay either, larger sets are tried.
//
// Looking one step ahead stops too early: at a fixed price a single answer often
// cannot turn the decision, while two can, and each is then worth nothing by
// itself. Looking at sets of checks is the remedy of Heckerman, Horvitz and
// Middleton (An approximate nonmyopic computation for value of information, IEEE
// Transactions on Pattern Analysis and Machine Intelligence 15, 1993; from
// memory). Over 500 simulated finds of each built-in family sets of two took off
// a fifth to a third of what looking one step ahead costs in regret and time, and
// larger sets another twentieth.
type plan struct {
	// subjects are the checks, the best by itself first, with what knowing each
	// is worth and how long it takes.
	subjects []subject
	worth    []float64
	minutes  []float64
	// moves is how far each moves the expected worth, whether it can turn the
	// decision or not.
	moves []float64
	// best is the index of the check to make, -1 where none pays. It pays together
	// with others where together is more than 1: with, where it is 2. Both is what
	// knowing all of them is worth, time the minutes that takes.
	best, with int
	together   int
	both, time float64
}

// stall is what time is worth there, home currency.
type stall struct {
	perMinute float64
	// trifle is so little that what brings no more does not pay.
	trifle float64
}

// net is worth less the time it takes.
func (s stall) net(worth, minutes float64) float64 { return worth - float64(minutes*s.perMinute) }

// net is what a check brings by itself.
func (p *plan) net(i int, s stall) float64 { return s.net(p.worth[i], p.minutes[i]) }

// newPlan weighs checks, subjects and questions in the same order, against the
// time they take.
func newPlan(q *asker, subjects []subject, about []inquiry, s stall) *plan {
	p := &plan{best: -1, with: -1, together: 1}
	order := make([]int, len(about))
	worth := make([]float64, len(about))
	net := make([]float64, len(about))
	for i := range about {
		order[i] = i
		worth[i] = round9(q.worth(&about[i]))
		net[i] = s.net(worth[i], about[i].Minutes)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(net[b], net[a]) })
	sorted := make([]inquiry, len(about))
	for to, from := range order {
		sorted[to] = about[from]
		p.subjects = append(p.subjects, subjects[from])
		p.worth = append(p.worth, worth[from])
		p.minutes = append(p.minutes, about[from].Minutes)
	}
	if len(order) > 0 && net[order[0]] > s.trifle {
		p.best = 0
	}
	p.lookAhead(q, sorted, s)
	if p.best < 0 && len(order) > 2 {
		p.lookFar(q, sorted, s)
	}
	return p
}

// among is how many checks pairs are looked for among at a stall, where the
// answer is waited for.
const among = 16

// lookAhead looks for two checks that together beat the best one.
func (p *plan) lookAhead(q *asker, about []inquiry, s stall) {
	target := s.trifle
	if p.best >= 0 {
		target = p.net(p.best, s)
	}
	net := func(i, j int, worth float64) float64 { return s.net(worth, p.minutes[i]+p.minutes[j]) }
	i, j, moves := q.bestPair(about, among, net, target)
	p.moves = moves
	if i < 0 {
		return
	}
	both, time := round9(q.worth(&about[i], &about[j])), p.minutes[i]+p.minutes[j]
	if s.net(both, time) > target {
		p.best, p.with = i, j
		p.together, p.both, p.time = 2, both, time
	}
}
