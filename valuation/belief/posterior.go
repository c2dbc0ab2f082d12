package belief

// LogEvidence is the natural logarithm of the probability of the evidence,
// under priors that sum to one. Scaling a likelihood scales it too.
func (p *Posterior) LogEvidence() float64 { return p.log }

// Variants returns the probability of each variant. The slice is the caller's,
// here and below.
func (p *Posterior) Variants() []float64 { return append([]float64(nil), p.variants...) }

// Histories returns the probability of each history, variants summed out.
func (p *Posterior) Histories() []float64 {
	out := make([]float64, len(p.f.odds))
	for v, g := range p.of {
		if g >= 0 {
			for k, x := range p.kept[g] {
				out[p.groups[g].scenes[k].history] += float64(p.variants[v] * x)
			}
		}
	}
	return out
}

// Point returns the probability of each state of point i. The sum is
// Applies(i).
func (p *Posterior) Point(i int) []float64 {
	out := make([]float64, len(p.f.m.Points[i].States))
	for g := range p.groups {
		p.addPoint(out, g, i, p.chance(g))
	}
	return out
}

// PointGiven returns the probability of each state of point i under variant
// v: zeros where v is ruled out or has no such point.
func (p *Posterior) PointGiven(v, i int) []float64 {
	out := make([]float64, len(p.f.m.Points[i].States))
	if g := p.of[v]; g >= 0 && p.variants[v] > 0 {
		p.addPoint(out, g, i, 1)
	}
	return out
}

// Applies is the probability that the model has point i.
func (p *Posterior) Applies(i int) float64 {
	sum := 0.0
	for v, x := range p.variants {
		if p.f.m.Points[i].Applies[v] {
			sum += x
		}
	}
	return sum
}

// Symptom is the probability that symptom j is there, all reports considered,
// those on the symptom itself too.
func (p *Posterior) Symptom(j int) float64 {
	sum := 0.0
	for g := range p.groups {
		chance := p.chance(g)
		for k, x := range p.kept[g] {
			sum += float64(chance * x * p.cells[g][k].sign[j])
		}
	}
	return sum
}

// chance is the probability of a group.
func (p *Posterior) chance(g int) float64 {
	sum := 0.0
	for v, x := range p.variants {
		if p.of[v] == g {
			sum += x
		}
	}
	return sum
}

// addPoint adds weight times the posterior of point i under group g.
func (p *Posterior) addPoint(out []float64, g, i int, weight float64) {
	if !p.groups[g].applies[i] {
		return
	}
	for k, x := range p.kept[g] {
		for s := range out {
			out[s] += float64(weight * x * p.cells[g][k].marg[p.f.off[i]+s])
		}
	}
}
