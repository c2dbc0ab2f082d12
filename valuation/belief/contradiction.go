package belief

import (
	"slices"
	"strings"
)

// A Contradiction is an error: findings that cannot all be right, while
// without any one of them the others can. Findings is empty where the model
// itself allows nothing.
type Contradiction struct{ Findings []Finding }

// Error names the findings by their labels.
func (c *Contradiction) Error() string {
	labels := make([]string, len(c.Findings))
	for i, f := range c.Findings {
		labels[i] = f.Label
	}
	switch len(labels) {
	case 0:
		return "the checklist leaves no variant, history and states possible, whatever was found"
	case 1:
		return "this cannot be, by the checklist: " + labels[0]
	}
	return "these contradict each other: " + strings.Join(labels, "; ")
}

// InferFindings checks model and findings and infers from what the findings
// come down to. The error is a *Contradiction where they have probability zero
// together, and a *Tangle where they are too many.
func InferFindings(m *Model, f []Finding, hidden Hidden) (*Posterior, error) {
	if err := m.Check(); err != nil {
		return nil, err
	}
	for _, x := range f {
		if err := m.CheckFinding(x); err != nil {
			return nil, err
		}
	}
	p, err := infer(m, Gather(m, f, hidden), cheap)
	if _, ok := err.(*Contradiction); ok {
		return nil, &Contradiction{culprits(m, f, hidden)}
	}
	return p, err
}

// patience is how many sets of findings culprits tries for a smaller answer.
const patience = 1000

// culprits finds the findings to name. Dropping findings one by one, as long
// as the rest stay impossible, leaves a contradiction of which none can be
// spared (the deletion filter of Chinneck and Dravnieks, Locating minimal
// infeasible constraint sets in linear programs, ORSA J. Computing 3, 1991,
// pp. 157-168, doi:10.1287/ijoc.3.2.157). Smaller sets are then tried outright,
// so that the answer is a smallest one unless there are too many to try: a
// buyer who must look again wants the shortest list.
func culprits(m *Model, all []Finding, hidden Hidden) []Finding {
	impossible := func(f []Finding) bool {
		_, err := infer(m, Gather(m, f, hidden), cheap)
		_, ok := err.(*Contradiction)
		return ok
	}
	left := slices.Clone(all)
	for k := 0; k < len(left); {
		if without := slices.Delete(slices.Clone(left), k, k+1); impossible(without) {
			left = without
		} else {
			k++
		}
	}
	s := subsets{all: slices.DeleteFunc(slices.Clone(all), func(f Finding) bool { return !f.certain(hidden) }), tries: patience, hit: impossible}
	for size := 1; size < len(left); size++ {
		if s.search(nil, 0, size) {
			return s.found
		}
	}
	return left
}

// certain says whether a finding can rule anything out. Only such a finding can
// be part of a contradiction of which none can be spared.
func (f *Finding) certain(hidden Hidden) bool {
	if f.Kind.hides() {
		return hidden.Sound == 0 || hidden.Faulty == 0
	}
	return f.Trust == 0 || f.Trust == 1
}

// subsets looks for a subset of findings that is a hit.
type subsets struct {
	all   []Finding
	tries int
	hit   func([]Finding) bool
	found []Finding
}

// search adds size more findings, from the given one on, to those chosen.
func (s *subsets) search(chosen []Finding, from, size int) bool {
	if size == 0 {
		s.tries--
		s.found = chosen
		return s.hit(chosen)
	}
	for k := from; k+size <= len(s.all) && s.tries > 0; k++ {
		if s.search(append(slices.Clone(chosen), s.all[k]), k+1, size-1) {
			return true
		}
	}
	return false
}
