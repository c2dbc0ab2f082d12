package belief

import "strings"

// A Contradiction is an error: findings that cannot all be right. Without any
// of them the others can. Findings is empty where the model itself allows
// nothing.
type Contradiction struct{ Findings []Finding }

// Error names the findings by their labels.
func (c *Contradiction) Error() string {
	switch len(c.Findings) {
	case 0:
		return "the checklist itself allows no variant, history and states together"
	case 1:
		return "impossible: " + c.Findings[0].Label
	}
	labels := make([]string, len(c.Findings))
	for i, f := range c.Findings {
		labels[i] = f.Label
	}
	return "these contradict each other: " + strings.Join(labels, "; ")
}

// InferFindings is Infer on what the findings come down to. The error is a
// *Contradiction where they have probability zero together.
func InferFindings(m *Model, f []Finding, hidden Hidden) (*Posterior, error) {
	if p, ok := Infer(m, Gather(m, f, hidden)); ok {
		return p, nil
	}
	return nil, &Contradiction{culprits(m, f, hidden)}
}

// culprits drops findings one by one as long as the rest stay impossible: what
// remains is a contradiction of which none can be spared (the deletion filter
// of Chinneck and Dravnieks, Locating minimal infeasible constraint sets in
// linear programs, ORSA J. Computing 3, 1991).
func culprits(m *Model, all []Finding, hidden Hidden) []Finding {
	left := append([]Finding(nil), all...)
	for k := 0; k < len(left); {
		without := append(append([]Finding(nil), left[:k]...), left[k+1:]...)
		if _, ok := Infer(m, Gather(m, without, hidden)); ok {
			k++
		} else {
			left = without
		}
	}
	return left
}
