package belief

// Evidence is what findings come down to: likelihoods. All are weights of any
// scale, finite and not negative; ones say nothing.
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

// weigh multiplies the likelihood of state s of point i under variant v.
func (e *Evidence) weigh(v, i, s, states int, factor float64) {
	if e.Point[v][i] == nil {
		ones := make([]float64, states)
		for k := range ones {
			ones[k] = 1
		}
		e.Point[v][i] = ones
	}
	e.Point[v][i][s] *= factor
}
