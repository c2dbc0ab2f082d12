package belief

// NotApplicable stands for the state of a point that the case's variant does
// not have.
const NotApplicable = 255

// Cases are weighted joint outcomes: all of them (Exact), or drawn, with equal
// weights. An expectation over the posterior is Σ weight·figure; given an
// answer, the weights are multiplied by the answer's probability in each case
// (1 or 0 for a state, SymptomChance for a symptom) and divided by their sum.
// No further inference is needed to price a question (Howard, Information
// value theory, IEEE Trans. Systems Science and Cybernetics 2, 1966, pp. 22-26).
type Cases struct {
	Exact   bool
	Weight  []float64 // sums to 1
	Variant []uint8
	State   [][]uint8 // [point][case]
}

// SymptomChance fills out, one entry per case, with the probability that
// symptom j is there given the states of the case and the reports about it.
func (p *Posterior) SymptomChance(j int, c *Cases, out []float64) {
	l := &p.f.links[j]
	out = out[:len(c.Weight)]
	for n := range out {
		out[n] = l.leak
	}
	absent := make([]float64, len(out))
	for n := range absent {
		absent[n] = 1 - l.leak
	}
	for _, i := range l.points {
		var strengths, spares [NotApplicable + 1]float64
		copy(strengths[:], l.p[p.f.off[i]:p.f.off[i+1]])
		for s := range spares {
			spares[s] = 1 - strengths[s]
		}
		for n, s := range c.State[i] {
			out[n] += float64((1 - out[n]) * strengths[s])
			absent[n] *= spares[s]
		}
	}
	for n, there := range out {
		out[n] = l.believed(there, absent[n])
	}
}

// believed is Bayes' rule for the symptom alone: the chance that the symptom is
// there given the reports, where it is there and absent with the given weights.
func (l *link) believed(there, absent float64) float64 {
	there = float64(there * l.there)
	if there == 0 {
		return 0
	}
	return there / (there + float64(absent*l.not))
}
