package belief

// Evidence is likelihoods: what findings come down to (virtual evidence; Pearl,
// Probabilistic Reasoning in Intelligent Systems, 1988, section 2.2.2,
// pp. 44-47). All are weights of any scale, finite and not negative: the
// posterior depends on their ratios only. Ones say nothing, a zero rules out.
// They are not probabilities to be reached, which would be Jeffrey's rule.
type Evidence struct {
	Variant []float64     // one per variant
	Point   [][][]float64 // [variant][point]: nil, or one per state
	Symptom [][2]float64  // P(reports|there), P(reports|not there)
}

// NewEvidence returns evidence that says nothing about m.
func NewEvidence(m *Model) *Evidence {
	e := &Evidence{
		Variant: make([]float64, len(m.Variants)),
		Point:   make([][][]float64, len(m.Variants)),
		Symptom: make([][2]float64, len(m.Symptoms)),
	}
	for v := range e.Variant {
		e.Variant[v] = 1
		e.Point[v] = make([][]float64, len(m.Points))
	}
	for j := range e.Symptom {
		e.Symptom[j] = [2]float64{1, 1}
	}
	return e
}

// weighPoint multiplies the likelihoods of point i: by factor(v, s) for state s
// under a variant v that has the point, by lacking for variants that do not.
func (e *Evidence) weighPoint(m *Model, i int, lacking float64, factor func(v, s int) float64) {
	p := &m.Points[i]
	for v := range m.Variants {
		if !p.Applies[v] {
			e.Variant[v] *= lacking
			continue
		}
		if e.Point[v][i] == nil {
			e.Point[v][i] = make([]float64, len(p.States))
			for s := range p.States {
				e.Point[v][i][s] = 1
			}
		}
		for s := range p.States {
			e.Point[v][i][s] *= factor(v, s)
		}
	}
}
