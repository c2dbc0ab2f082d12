package belief

import "math"

// A cell is the belief under one group of variants and one scene.
type cell struct {
	z    scaled    // P(evidence on points and symptoms)
	walk scaled    // that part of z that the walk found
	q    []float64 // flat: state weights of each point by itself, summing to one
	marg []float64 // flat: posterior of each state
	sign []float64 // per symptom: P(there|evidence)
	leak []float64 // per symptom: leak, with what the cut points bring about
}

// A walker runs plans: it holds the messages of one cell at a time, alpha
// forward and beta backward, one after the other as the plan's at says; its
// buffers serve one cell after the other.
type walker struct {
	f           *frame
	alpha, beta []float64
	tmp         []float64
	again       [2][]float64
	shift       []int     // per step: power of two taken out of the forward message
	less        []float64 // weights that spare a symptom
}

// room makes the buffers large enough for a plan. They only ever grow.
func (w *walker) room(p *plan) {
	if n := p.at[len(p.at)-1]; len(w.alpha) < n {
		w.alpha, w.beta = make([]float64, n), make([]float64, n)
	}
	if n := 1 << p.wide; len(w.tmp) < n {
		w.tmp = make([]float64, n)
		w.again = [2][]float64{make([]float64, n), make([]float64, n)}
	}
	if len(w.shift) < len(p.steps) {
		w.shift = make([]int, len(p.steps))
	}
}

// run fills c for group g and a scene:
//
//	z = Π Σ q(point) · P(cut states) · (what the walk finds)
//
// It reports false, and leaves c unfinished, where the evidence is impossible.
func (w *walker) run(g *group, x scene, c *cell) bool {
	c.z = one
	for i, applies := range g.applies {
		if applies && !w.f.point(g, x.history, i, c) {
			return false
		}
	}
	if !w.f.fix(g.plan.cut, x.state, c) {
		return false
	}
	w.room(g.plan)
	c.walk = w.forward(g.plan, c)
	if c.walk.m == 0 {
		return false
	}
	c.z = c.z.mul(c.walk)
	copy(c.marg, c.q)
	w.backward(g.plan, c)
	w.indirect(g, c)
	return true
}

// point fills the weights of point i, P(state|history)·likelihood, and takes
// their sum into z. It reports false where no state is possible.
func (f *frame) point(g *group, h, i int, c *cell) bool {
	q, prior, like := c.q[f.off[i]:f.off[i+1]], f.prior[h][f.off[i]:], g.like[f.off[i]:]
	sum := 0.0
	for s := range q {
		q[s] = float64(prior[s] * like[s])
		sum += q[s]
	}
	if !(sum > 0) {
		return false
	}
	for s := range q {
		q[s] /= sum
	}
	c.z = c.z.times(sum)
	return true
}

// fix gives the cut points their states, and fills leak with what these bring
// about. It reports false where a state is impossible.
func (f *frame) fix(cut, states []int, c *cell) bool {
	for j := range c.leak {
		c.leak[j] = f.links[j].leak
	}
	for k, i := range cut {
		q, at := c.q[f.off[i]:f.off[i+1]], f.off[i]+states[k]
		if c.q[at] == 0 {
			return false
		}
		c.z = c.z.times(c.q[at])
		clear(q)
		c.q[at] = 1
		for _, j := range f.open {
			c.leak[j] += float64((1 - c.leak[j]) * f.links[j].p[at])
		}
	}
	return true
}

// forward fills alpha and shift and returns the sum over everything. Only a
// closing makes messages smaller, all other steps move probability about, so
// that is where they are scaled (Rabiner 1989, section V.A, pp. 272-273, but by
// powers of two).
func (w *walker) forward(p *plan, c *cell) scaled {
	w.alpha[0] = 1
	z := one
	for k := range p.steps {
		in, out := w.alpha[p.at[k]:p.at[k+1]], w.alpha[p.at[k+1]:p.at[k+2]]
		w.ahead(&p.steps[k], out, in, c.q, c.leak)
		w.shift[k] = 0
		if p.steps[k].kind == closing {
			w.shift[k] = normalise(out)
			z.e += w.shift[k]
		}
	}
	return z.times(w.alpha[p.at[len(p.steps)]])
}

// ahead takes one step forward, with the given weights of states and leaks.
func (w *walker) ahead(s *step, out, in, q, leak []float64) {
	l := &w.f.links[s.symptom]
	switch s.kind {
	case opening:
		open(out, in, leak[s.symptom])
	case weighing:
		weigh(out, in, w.tmp, q[w.f.off[s.point]:], s.moves)
	case closing:
		shut(out, in, s.bit, l.there, l.not)
	}
}

// backward fills beta, and with it the posterior of the points walked and of
// the symptoms explained. Every beta is scaled by itself, since only ratios
// matter: the posterior of a state is its share of alpha·beta, and that of a
// symptom being there is the share of the masks that have its bit (the variable
// gamma of Rabiner 1989, section III.B, equation 27, p. 263).
func (w *walker) backward(p *plan, c *cell) {
	n := len(p.steps)
	w.beta[p.at[n]] = 1
	for k := n - 1; k >= 0; k-- {
		s := &p.steps[k]
		alpha, out, in := w.alpha[p.at[k]:p.at[k+1]], w.beta[p.at[k]:p.at[k+1]], w.beta[p.at[k+1]:p.at[k+2]]
		l := &w.f.links[s.symptom]
		switch s.kind {
		case opening:
			openBack(out, in, c.leak[s.symptom])
		case weighing:
			marg := c.marg[w.f.off[s.point]:w.f.off[s.point+1]]
			weighBack(out, in, alpha, w.tmp, c.q[w.f.off[s.point]:], marg, s.moves)
			share(marg)
		case closing:
			shutBack(out, in, s.bit, l.there, l.not)
			c.sign[s.symptom] = explained(alpha, out, s.bit)
			normalise(out)
		}
	}
}

// explained is the posterior weight of the masks that have the bit, beta having
// the reports on it weighed in.
func explained(alpha, beta []float64, bit int) float64 {
	var with, without float64
	for m, a := range alpha {
		if m&bit != 0 {
			with += float64(a * beta[m])
		} else {
			without += float64(a * beta[m])
		}
	}
	if with == 0 {
		return 0
	}
	return with / (with + without)
}

// normalise scales a by a power of two so that its largest entry is in
// [1/2, 1), and returns the exponent taken out. Zeros stay.
func normalise(a []float64) int {
	top := 0.0
	for _, x := range a {
		top = max(top, x)
	}
	if top == 0 {
		return 0
	}
	_, e := math.Frexp(top)
	lower(a, e)
	return e
}

// lower divides a by 2^e.
func lower(a []float64, e int) {
	if e == 0 {
		return
	}
	for m := range a {
		a[m] = math.Ldexp(a[m], -e)
	}
}
