package belief

// indirect fills the chance of the symptoms that nobody reported, and of those
// that are certainly absent.
func (w *walker) indirect(g *group, c *cell) {
	for j := range w.f.links {
		l := &w.f.links[j]
		switch {
		case !l.reported():
			c.sign[j] = w.unreported(g, c, j)
		case l.there == 0:
			c.sign[j] = 0
		}
	}
}

// unreported is the chance of a symptom of which nothing is known by itself.
// Points off the walk are independent, each adding to the chance that it is
// there; those on the walk are not, and their chance to leave it absent is the
// expectation of a product.
func (w *walker) unreported(g *group, c *cell, j int) float64 {
	l := &w.f.links[j]
	there := l.leak
	first, last := -1, -1
	for _, i := range l.points {
		if !g.applies[i] {
			continue
		}
		if k := g.plan.step(i); k >= 0 {
			if first < 0 || k < first {
				first = k
			}
			last = max(last, k)
			continue
		}
		there += float64((1 - there) * dot(c.marg[w.f.off[i]:w.f.off[i+1]], l.p[w.f.off[i]:]))
	}
	switch {
	case first < 0:
	case first == last:
		i := g.plan.steps[first].point
		there += float64((1 - there) * dot(c.marg[w.f.off[i]:w.f.off[i+1]], l.p[w.f.off[i]:]))
	default:
		there += float64((1 - there) * (1 - w.spared(g.plan, c, l, first, last)))
	}
	return there
}

// step returns the step that weighs point i, -1 where it is not walked.
func (p *plan) step(i int) int {
	for k := range p.steps {
		if p.steps[k].kind == weighing && p.steps[k].point == i {
			return k
		}
	}
	return -1
}

// spared is the posterior expectation, over the points walked between two
// steps, of Π (1-strength) for one symptom: the walk is taken again from first
// to last with the weights so reduced.
func (w *walker) spared(p *plan, c *cell, l *link, first, last int) float64 {
	in := w.tmp2[:p.at[first+1]-p.at[first]]
	copy(in, w.alpha[p.at[first]:])
	q := make([]float64, len(c.q))
	copy(q, c.q)
	for _, i := range l.points {
		for at := w.f.off[i]; at < w.f.off[i+1]; at++ {
			q[at] *= 1 - l.p[at]
		}
	}
	out := make([]float64, 1<<p.wide)
	for k := first; k <= last; k++ {
		out = out[:p.at[k+2]-p.at[k+1]]
		w.ahead(&p.steps[k], out, in, q)
		lower(out, w.shift[k])
		in, out = out, in[:cap(in)]
	}
	beta := w.beta[p.at[last+1]:p.at[last+2]]
	left := dot(in, beta)
	if left == 0 {
		return 0
	}
	return left / dot(w.alpha[p.at[last+1]:p.at[last+2]], beta)
}
