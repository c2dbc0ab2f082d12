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
	const some = 256 // cases at a time
	l := &p.f.links[j]
	brings := make([]strengths, len(l.points))
	for k, i := range l.points {
		brings[k].set(l.p[p.f.off[i]:p.f.off[i+1]])
	}
	var absent [some]float64
	for from := 0; from < len(c.Weight); from += some {
		there := out[from:min(from+some, len(c.Weight))]
		for n := range there {
			there[n], absent[n] = l.leak, 1-l.leak
		}
		for k, i := range l.points {
			brings[k].add(there, absent[:], c.State[i][from:])
		}
		for n, x := range there {
			there[n] = l.believed(x, absent[n])
		}
	}
}

// strengths are those with which the states of a point bring a symptom about,
// and what they leave of one; 0 for a point that is not there.
type strengths struct{ brings, leaves [NotApplicable + 1]float64 }

func (x *strengths) set(p []float64) {
	copy(x.brings[:], p)
	for s, strength := range x.brings {
		x.leaves[s] = 1 - strength
	}
}

// add lets the states of a point bring the symptom about, case by case.
func (x *strengths) add(there, absent []float64, states []uint8) {
	for n, t := range there {
		s := states[n]
		there[n] = t + float64((1-t)*x.brings[s])
		absent[n] *= x.leaves[s]
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
