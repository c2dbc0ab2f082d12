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
	x := p.newChances(j, c)
	for from := 0; from < len(c.Weight); from += chanceBlock {
		x.fill(out[from:min(from+chanceBlock, len(c.Weight))], from)
	}
}
