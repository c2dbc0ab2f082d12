package belief

import "slices"

// walk draws the states of the points on the walk: the steps forward, each
// weighed by the backward message of what follows it, so that a draw never runs
// into a dead end and needs no correction afterwards (forward filtering, backward
// sampling the other way round; Rabiner 1989, section III.B, pp. 263-264, has the
// messages). All masks are 0 before.
func (d *drawer) walk(p *plan, c *cell, spans []span) {
	if len(p.steps) == 0 {
		return
	}
	d.c.q, d.c.leak = c.q, c.leak
	d.w.room(p)
	d.w.forward(p, c)
	d.w.backward(p, &d.c)
	for n := range p.steps {
		s := &p.steps[n]
		after := d.w.beta[p.at[n+1]:p.at[n+2]]
		switch s.kind {
		case opening:
			d.open(after, c.leak[s.symptom])
		case weighing:
			d.weigh(s, c.q[d.p.f.off[s.point]:], after)
			d.deal(s.point, spans)
		case closing:
			squeezeAll(d.mask, s.bit)
		}
	}
}

// open draws whether a symptom is there without any cause: P(set) ∝
// leak·after(set), P(unset) ∝ (1-leak)·after(unset).
func (d *drawer) open(after []float64, leak float64) {
	top := len(after) / 2
	d.inv.draw(d.column, d.mask, top, 2, func(m int) []float64 {
		d.weight = append(d.weight[:0], float64(after[m]*(1-leak)), float64(after[m+top]*leak))
		return d.weight
	})
	mask := d.mask[:len(d.column)]
	for k, set := range d.column {
		mask[k] += int(set) * top
	}
}

// weigh draws the state of a point for each case, and which symptoms the state
// explains: together, where they are few and many cases share a mask.
func (d *drawer) weigh(s *step, q, after []float64) {
	if !guided(len(d.column), len(after), maxOutcomes) || !d.ends.list(s.moves) {
		d.weighApart(s, q, after)
		return
	}
	d.inv.draw(d.column, d.mask, len(after), len(d.ends.state), func(m int) []float64 {
		return d.ends.weights(s.moves, q, after, m)
	})
	state, set, mask := d.ends.state, d.ends.set, d.mask[:len(d.column)]
	for k, end := range d.column {
		d.column[k] = state[end]
		mask[k] |= set[end]
	}
}

// weighApart draws the states first, and then what they explain.
func (d *drawer) weighApart(s *step, q, after []float64) {
	d.stage.make(s.moves, after)
	d.inv.draw(d.column, d.mask, len(after), len(s.moves), func(m int) []float64 {
		d.weight = d.weight[:0]
		for x := range s.moves {
			d.weight = append(d.weight, float64(q[x]*d.stage.before(x)[m]))
		}
		return d.weight
	})
	for k, x := range d.column {
		if len(s.moves[x]) > 0 {
			d.explain(s, k)
		}
	}
}

// explain draws which of its symptoms the state of a case brings about, one by
// one, by the same rule as open. What is explained already stays so.
func (d *drawer) explain(s *step, k int) {
	x, m := d.column[k], d.mask[k]
	stage := d.stage.of[x]
	for l, x := range s.moves[x] {
		if m&x.bit == 0 && unit(d.src)*stage[l][m] < x.p*stage[l+1][m|x.bit] {
			m |= x.bit
		}
	}
	d.mask[k] = m
}

// stages holds, for each state of a point, the message after it taken back
// through the state's moves one by one: of[state][l] is before move l, and the
// last one is the message itself.
type stages struct {
	of   [][][]float64
	pool []float64
}

// before is the message before any move of a state.
func (s *stages) before(state int) []float64 { return s.of[state][0] }

// make fills the stages for a point with the given moves; earlier ones are lost.
func (s *stages) make(moves [][]move, after []float64) {
	n := 0
	for _, mv := range moves {
		n += len(mv) * len(after)
	}
	if len(s.pool) < n {
		s.pool = make([]float64, n)
	}
	s.of = slices.Grow(s.of[:0], len(moves))[:len(moves)]
	pool := s.pool
	for x, mv := range moves {
		of := slices.Grow(s.of[x][:0], len(mv)+1)[:len(mv)+1]
		of[len(mv)] = after
		for l := len(mv) - 1; l >= 0; l-- {
			of[l], pool = pool[:len(after)], pool[len(after):]
			copy(of[l], of[l+1])
			setBack(of[l], mv[l].bit, mv[l].p)
		}
		s.of[x] = of
	}
}
