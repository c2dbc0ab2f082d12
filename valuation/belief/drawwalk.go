package belief

import "slices"

// walk draws the states of the points on the walk, for the cases from..to: the
// steps forward, each weighed by the backward message of what follows it, so
// that a draw never runs into a dead end and needs no correction afterwards
// (forward filtering, backward sampling the other way round; Rabiner 1989,
// section III.B, pp. 263-264, has the messages).
func (d *drawer) walk(p *plan, c *cell, from, to int) {
	if len(p.steps) == 0 {
		return
	}
	d.c.q, d.c.leak = c.q, c.leak
	d.w.room(p)
	d.w.forward(p, c)
	d.w.backward(p, &d.c)
	d.mask = slices.Grow(d.mask[:0], to-from)[:to-from]
	clear(d.mask)
	for n := range p.steps {
		s := &p.steps[n]
		after := d.w.beta[p.at[n+1]:p.at[n+2]]
		switch s.kind {
		case opening:
			d.open(after, c.leak[s.symptom])
		case weighing:
			d.weigh(s, c.q[d.p.f.off[s.point]:], after, d.out.State[s.point][from:to])
		case closing:
			for k, m := range d.mask {
				d.mask[k] = squeeze(m, s.bit)
			}
		}
	}
}

// open draws whether a symptom is there without any cause: P(set) ∝
// leak·after(set), P(unset) ∝ (1-leak)·after(unset).
func (d *drawer) open(after []float64, leak float64) {
	top := len(after) / 2
	for k, m := range d.mask {
		yes := float64(after[m+top] * leak)
		if unit(d.src)*(yes+float64(after[m]*(1-leak))) < yes {
			d.mask[k] = m + top
		}
	}
}

// weigh draws the state of a point for each case, and then which symptoms the
// state explains. The thresholds for a mask are made when it first turns up.
func (d *drawer) weigh(s *step, q, after []float64, column []uint8) {
	d.stage.make(s.moves, after)
	states := len(s.moves)
	width := max(states, quick)
	d.t = slices.Grow(d.t[:0], len(after)*width)[:len(after)*width]
	clear(d.t)
	w := make([]float64, states)
	for k, m := range d.mask {
		t := d.t[m*width:][:width]
		if t[width-1] == 0 { // the last one of those that are made is not
			for x := range w {
				w[x] = float64(q[x] * d.stage.before(x)[m])
			}
			pad(thresholds(t[:0], w), width)
		}
		var x int
		if draw := d.src.Uint64() >> 1; width == quick {
			x = reached(draw, (*[quick]uint64)(t))
		} else {
			x = reachedOf(draw, t)
		}
		column[k] = uint8(x)
		if len(s.moves[x]) > 0 {
			d.mask[k] = d.explain(s.moves[x], d.stage.of[x], m)
		}
	}
}

// explain draws which of its symptoms a state brings about, one by one, by the
// same rule as open. What is explained already stays so.
func (d *drawer) explain(moves []move, stage [][]float64, m int) int {
	for l, x := range moves {
		if m&x.bit == 0 && unit(d.src)*stage[l][m] < x.p*stage[l+1][m|x.bit] {
			m |= x.bit
		}
	}
	return m
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
	pool := s.pool
	s.of = s.of[:0]
	for _, mv := range moves {
		of := make([][]float64, len(mv)+1)
		of[len(mv)] = after
		for l := len(mv) - 1; l >= 0; l-- {
			of[l], pool = pool[:len(after)], pool[len(after):]
			copy(of[l], of[l+1])
			setBack(of[l], mv[l].bit, mv[l].p)
		}
		s.of = append(s.of, of)
	}
}
