package valuation

import (
	"math"

	"lotgauge/valuation/belief"
)

// walk is one find looked at in one order: minutes spent and whether it would be
// bought, at the start and after each check.
type walk struct {
	minutes []float64
	buys    []bool
}

// walk looks at a find in the given order until the rule stops it. After each
// check the beliefs are inferred anew and cases drawn from them, as an inspection
// does: conditioning one large sample instead would run out of cases after a few
// checks, each of which leaves only a share of them.
func (s *simulator) walk(k int, order string) (walk, error) {
	var out walk
	var known []belief.Finding
	done := map[subject]bool{}
	spent := 0.0
	for {
		at, err := s.given(known, k)
		if err != nil {
			return out, err
		}
		out.minutes = append(out.minutes, spent)
		out.buys = append(out.buys, at.a.expected.worth > s.finds[k].landed)
		p := s.plan(at, k, done, s.patience(order))
		if p.best < 0 {
			return out, nil
		}
		i := s.pick(p, order)
		x := p.subjects[i]
		done[x] = true
		spent += p.minutes[i]
		known = s.learn(known, k, x)
	}
}

// given is the inspection once so much is known of find k. Every find has draws
// of its own, so that their noise averages out over the finds.
func (s *simulator) given(known []belief.Finding, k int) (*Inspection, error) {
	at := s.start
	a := at.a
	p, err := belief.InferFindings(a.model, known, a.settings.Hidden)
	if err != nil {
		return nil, err
	}
	cases := p.Draw(a.draws, a.seed+uint64(k))
	at.a = a.given(p, cases, a.ledger.values(cases))
	return &at, nil
}

// patience is what time counts for in an order.
func (s *simulator) patience(order string) stall {
	at := s.start.stall()
	if order == OrderPatient {
		at.perMinute /= 10
	}
	return at
}

// plan weighs what is left to check of find k.
func (s *simulator) plan(at *Inspection, k int, done map[subject]bool, time stall) *plan {
	var left []subject
	var about []inquiry
	for _, x := range s.subjects {
		if !done[x] && at.open(x) {
			left = append(left, x)
			about = append(about, at.inquiry(x))
		}
	}
	q := &asker{cases: at.a.expected.cases, values: [][]float64{at.a.expected.value}, g: fixedPrice(s.finds[k].landed)}
	return newPlan(q, left, about, time)
}

// pick is the next check of an order, an index into the plan.
func (s *simulator) pick(p *plan, order string) int {
	rank, ok := s.rank[order]
	if !ok {
		return p.best
	}
	first := 0
	for i, x := range p.subjects {
		if rank[x] < rank[p.subjects[first]] {
			first = i
		}
	}
	return first
}

// learn adds what find k answers to a check.
func (s *simulator) learn(known []belief.Finding, k int, x subject) []belief.Finding {
	for n, y := range s.subjects {
		if x == y {
			if f, ok := s.told(n, s.finds[k].answers[n]); ok {
				known = append(known, f)
			}
		}
	}
	return known
}

// full makes every check of find k.
func (s *simulator) full(k int) (minutes float64, buys bool, err error) {
	var known []belief.Finding
	for n, x := range s.subjects {
		f, ok := s.told(n, s.finds[k].answers[n])
		if !ok || x.kind == CheckFeature || !s.start.open(x) { // the catalogue number tells features
			continue
		}
		known = append(known, f)
		minutes += s.start.question(x).Minutes
	}
	at, err := s.given(known, k)
	if err != nil {
		return 0, false, err
	}
	return minutes, at.a.expected.worth > s.finds[k].landed, nil
}

// regret is what a decision loses against the right one, at mean prices and at
// those drawn.
func (f *find) regret(buys bool) (mean, drawn float64) {
	switch right := f.value > f.landed; {
	case buys == right:
		return 0, 0
	case right:
		return f.value - f.landed, f.drawn - f.landed
	}
	return f.landed - f.value, f.landed - f.drawn
}

// begun is how far a walk gets in so many minutes: the index of the last check
// begun in time.
func (w *walk) begun(limit float64) int {
	i := 0
	for i+1 < len(w.minutes) && w.minutes[i] < limit {
		i++
	}
	return i
}

// standardError is that of the mean of xs.
func standardError(xs []float64) float64 { return deviation(xs) / math.Sqrt(float64(len(xs))) }
