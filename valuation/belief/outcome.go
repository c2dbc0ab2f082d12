package belief

// maxOutcomes is how many outcomes of a point are drawn in one go at most.
const maxOutcomes = 64

// outcomes are what weighing a point can come to: a state, and which of its
// symptoms it brings about. Drawn in one go they take one draw, and not one for
// the state and others for the symptoms.
type outcomes struct {
	state  []uint8   // by outcome
	set    []int     // by outcome: the bits of the symptoms
	weight []float64 // scratch, by outcome
}

// list lists the outcomes of a point, or reports false where they are too many.
// Each move of a state doubles its outcomes: first those without it, then those
// with it.
func (x *outcomes) list(moves [][]move) bool {
	x.state, x.set = x.state[:0], x.set[:0]
	for s, mv := range moves {
		own := len(x.set)
		x.set = append(x.set, 0)
		for _, v := range mv {
			for _, set := range x.set[own:] {
				x.set = append(x.set, set|v.bit)
			}
			if len(x.set) > maxOutcomes {
				return false
			}
		}
		for len(x.state) < len(x.set) {
			x.state = append(x.state, uint8(s))
		}
	}
	return len(x.set) <= maxOutcomes
}

// weights are those of the outcomes that were listed, where the mask before is
// m: P(state)·P(symptoms|state, mask)·after. What is explained already is not
// brought about again.
func (x *outcomes) weights(moves [][]move, q, after []float64, m int) []float64 {
	w := x.weight[:0]
	for s, mv := range moves {
		own := len(w)
		w = append(w, q[s])
		for _, v := range mv {
			p := v.p
			if m&v.bit != 0 {
				p = 0
			}
			for k := range w[own:] {
				all := w[own+k]
				w[own+k] = float64(all * (1 - p))
				w = append(w, float64(all*p))
			}
		}
	}
	for k, set := range x.set {
		w[k] *= after[m|set]
	}
	x.weight = w
	return w
}
