package valuation

import "lotgauge/valuation/checklist"

// grading is the price factor by condition score: linear between the grades,
// flat outside.
type grading []gradeStep

// gradeStep is the line that ends at a grade: factor + slope·(score − upTo).
type gradeStep struct{ upTo, factor, slope float64 }

func newGrading(grades []checklist.Grade) grading {
	out := make(grading, len(grades))
	for i, hi := range grades {
		out[i] = gradeStep{upTo: hi.Score, factor: hi.Factor}
		if i > 0 {
			lo := grades[i-1]
			out[i].slope = (hi.Factor - lo.Factor) / (hi.Score - lo.Score)
		}
	}
	return out
}

// at is the factor at a condition score of 0 to 100; without grades it is 1.
func (g grading) at(score float64) float64 {
	for i := range g {
		if x := &g[i]; score <= x.upTo {
			return x.factor + float64(x.slope*(score-x.upTo))
		}
	}
	if len(g) == 0 {
		return 1
	}
	return g[len(g)-1].factor
}
