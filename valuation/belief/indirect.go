package belief

// indirect fills the chance of the symptoms on which the reports say nothing,
// or which they exclude.
func (w *walker) indirect(g *group, c *cell) {
	w.less = append(w.less[:0], c.q...)
	for j := range w.f.links {
		l := &w.f.links[j]
		switch {
		case !l.reported():
			c.sign[j] = w.unreported(g, c, l)
		case l.there == 0:
			c.sign[j] = 0
		}
	}
}

// unreported is the chance of a symptom of which nothing is known by itself.
// Points off the walk are independent, each adding to the chance that it is
// there. Those on the walk are not: unless there is only one of them, their
// chance to leave it absent is the expectation of a product.
func (w *walker) unreported(g *group, c *cell, l *link) float64 {
	there := l.leak
	first, last := len(g.plan.steps), -1
	for _, i := range l.points {
		if k := g.plan.step[i]; k >= 0 {
			first, last = min(first, k), max(last, k)
		} else if g.applies[i] {
			there += float64((1 - there) * w.brings(c, l, i))
		}
	}
	switch {
	case first == last:
		there += float64((1 - there) * w.brings(c, l, g.plan.steps[first].point))
	case first < last:
		there += float64((1 - there) * (1 - w.spared(g.plan, c, l, first, last)))
	}
	return there
}

// brings is the chance that point i by itself brings the symptom about.
func (w *walker) brings(c *cell, l *link, i int) float64 {
	return dot(c.marg[w.f.off[i]:w.f.off[i+1]], l.p[w.f.off[i]:])
}

// spared is the posterior expectation, over the points walked from step first
// to step last, of Π (1-strength) for one symptom: the walk is taken again
// between the two with the weights so reduced, from the message that is there
// before to the one that is there after, and compared with what it brought the
// first time. All terms are positive.
func (w *walker) spared(p *plan, c *cell, l *link, first, last int) float64 {
	for _, i := range l.points {
		for at := w.f.off[i]; at < w.f.off[i+1]; at++ {
			w.less[at] *= 1 - l.p[at]
		}
	}
	in := w.alpha[p.at[first]:p.at[first+1]]
	for k := first; k <= last; k++ {
		out := w.again[k&1][:p.at[k+2]-p.at[k+1]]
		w.ahead(&p.steps[k], out, in, w.less, c.leak)
		lower(out, w.shift[k])
		in = out
	}
	for _, i := range l.points {
		copy(w.less[w.f.off[i]:w.f.off[i+1]], c.q[w.f.off[i]:])
	}
	beta := w.beta[p.at[last+1]:p.at[last+2]]
	left := dot(in, beta)
	if left == 0 {
		return 0
	}
	return left / dot(w.alpha[p.at[last+1]:p.at[last+2]], beta)
}
