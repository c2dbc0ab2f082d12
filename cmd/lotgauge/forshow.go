package main

import (
	"slices"

	"lotgauge/valuation"
)

// forShow readies an appraisal for people, who read a column better without
// lines of a cent.
func forShow(a *valuation.Appraisal) { a.Reading.Steps = gathered(a.Reading.Steps) }

// gathered are the steps of a column with those too small to tell anything, if
// there are several up to a sum, as one line before it. The sums stay.
func gathered(steps []valuation.Step) []valuation.Step {
	var out []valuation.Step
	for len(steps) > 0 {
		n := slices.IndexFunc(steps, func(s valuation.Step) bool { return s.Sum })
		if n < 0 {
			n = len(steps)
		}
		out = append(out, together(steps[:n])...)
		end := min(n+1, len(steps))
		out, steps = append(out, steps[n:end]...), steps[end:]
	}
	return out
}

// together are the steps up to a sum, the small ones in the last of them.
func together(steps []valuation.Step) []valuation.Step {
	small := valuation.Step{ID: "small", Title: "small change"}
	var out []valuation.Step
	for _, s := range steps {
		if tiny(s) {
			small.Amount.Decimal = small.Amount.Add(s.Amount.Decimal)
		} else {
			out = append(out, s)
		}
	}
	if len(steps)-len(out) < 2 {
		return steps
	}
	return append(out, small)
}

// tiny tells a line of less than 0.05.
func tiny(s valuation.Step) bool { return s.Currency == "" && s.Amount.Round(1).IsZero() }
