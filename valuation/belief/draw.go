package belief

import (
	"math/rand/v2"
)

// stream keeps these draws apart from others made with the same seed.
const stream = 0x6c6f7467617567 // "lotgaug"

// Draw draws n independent joint outcomes from the posterior, exactly. They
// come grouped by variant and history. The same seed gives the same draws on
// every platform.
func (p *Posterior) Draw(n int, seed uint64) *Cases {
	d := newDrawer(p, n, seed)
	from := 0
	for k, count := range d.counts(n) {
		v, h := k/len(p.f.odds), k%len(p.f.odds)
		for i := from; i < from+count; i++ {
			d.out.Variant[i] = uint8(v)
		}
		if count > 0 {
			d.cell(p.of[v], h, from, from+count)
		}
		from += count
	}
	return d.out
}

// A drawer fills cases.
type drawer struct {
	p    *Posterior
	src  *rand.PCG
	out  *Cases
	w    walker
	mask []int
}

func newDrawer(p *Posterior, n int, seed uint64) *drawer {
	out := &Cases{Weight: make([]float64, n), Variant: make([]uint8, n), State: make([][]uint8, len(p.f.m.Points))}
	for k := range out.Weight {
		out.Weight[k] = 1 / float64(n)
	}
	flat := make([]uint8, n*len(out.State))
	for i := range out.State {
		out.State[i] = flat[i*n : (i+1)*n]
	}
	return &drawer{p: p, src: rand.NewPCG(seed, stream), out: out, w: walker{f: p.f}, mask: make([]int, n)}
}

// never is a threshold that no draw of 63 bits reaches.
const never = uint64(1) << 63

// thresholds turns weights into cumulative thresholds of 63-bit draws: the
// answer is the number of thresholds that the draw has reached.
func thresholds(out []uint64, w []float64) []uint64 {
	sum, last := 0.0, 0
	for i, x := range w {
		if x > 0 {
			sum += x
			last = i
		}
	}
	out = out[:0]
	cum := 0.0
	for i, x := range w[:last+1] {
		cum += x
		t := never
		if i < last {
			t = min(never, uint64(float64(cum/sum)*(1<<63)))
		}
		out = append(out, t)
	}
	return out
}

// pick draws one answer.
func (d *drawer) pick(t []uint64) int {
	u := d.src.Uint64() >> 1
	k := 0
	for u >= t[k] {
		k++
	}
	return k
}

// counts draws how many of n fall on each variant and history.
func (d *drawer) counts(n int) []int {
	var w []float64
	for v, g := range d.p.of {
		for h := range d.p.f.odds {
			x := 0.0
			if g >= 0 {
				x = d.p.variants[v] * d.p.kept[g][h]
			}
			w = append(w, x)
		}
	}
	t := thresholds(nil, w)
	counts := make([]int, len(w))
	for range n {
		counts[d.pick(t)]++
	}
	return counts
}

// cell draws the states of the cases from..to, all of one group and history.
func (d *drawer) cell(g, h, from, to int) {
	group, c := d.p.groups[g], &d.p.cells[g][h]
	var t []uint64
	for i, column := range d.out.State {
		if !group.applies[i] {
			for k := from; k < to; k++ {
				column[k] = NotApplicable
			}
			continue
		}
		if group.plan.step(i) >= 0 {
			continue
		}
		t = thresholds(t, c.q[d.p.f.off[i]:d.p.f.off[i+1]])
		for k := from; k < to; k++ {
			column[k] = uint8(d.pick(t))
		}
	}
	d.walk(group.plan, c, from, to)
}

// walk draws the states of the points on the walk: forward, each step weighed
// by the backward message of what follows.
func (d *drawer) walk(p *plan, c *cell, from, to int) {
	w := &d.w
	w.room(p)
	w.forward(p, c.q)
	scratch := cell{q: c.q, marg: make([]float64, len(c.q)), sign: make([]float64, len(c.sign))}
	w.backward(p, &scratch)
	for k := from; k < to; k++ {
		mask := 0
		for n := range p.steps {
			s := &p.steps[n]
			after := w.beta[p.at[n+1]:p.at[n+2]]
			switch s.kind {
			case opening:
				leak, size := d.p.f.links[s.symptom].leak, len(after)/2
				if d.bit(after[mask+size]*leak, after[mask]*(1-leak)) {
					mask += size
				}
			case weighing:
				state := 0
				state, mask = d.state(s, c.q[d.p.f.off[s.point]:], after, mask)
				d.out.State[s.point][k] = uint8(state)
			case closing:
				mask = squeeze(mask, s.bit)
			}
		}
	}
}

// bit draws yes or no with the given weights.
func (d *drawer) bit(yes, no float64) bool {
	var t [2]uint64
	return d.pick(thresholds(t[:], []float64{no, yes})) == 1
}

// state draws a state and the mask after it.
func (d *drawer) state(s *step, q, after []float64, mask int) (int, int) {
	var w []float64
	for k, moves := range s.moves {
		w = append(w, q[k]*reach(moves, after, mask))
	}
	k := d.pick(thresholds(nil, w))
	moves := s.moves[k]
	for n, x := range moves {
		if mask&x.bit != 0 {
			continue
		}
		if d.bit(x.p*reach(moves[n+1:], after, mask|x.bit), (1-x.p)*reach(moves[n+1:], after, mask)) {
			mask |= x.bit
		}
	}
	return k, mask
}

// reach is the expectation of after over what moves may do to a mask.
func reach(moves []move, after []float64, mask int) float64 {
	for n, x := range moves {
		if mask&x.bit == 0 {
			return float64(x.p*reach(moves[n+1:], after, mask|x.bit)) + float64((1-x.p)*reach(moves[n+1:], after, mask))
		}
	}
	return after[mask]
}
