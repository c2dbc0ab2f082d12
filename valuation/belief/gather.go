package belief

// Gather turns findings into likelihoods, by the rules of the design
// ("Beliefs"). The order of the findings does not matter beyond the last bit.
//
// With trust t, K states, k options and V variants:
//
//	state r          state s by t where s = r, else by (1-t)/(K-1)
//	reading          state s by a mixture of the two, as far as it explains it
//	hidden           the first state by hidden.Sound, the others by hidden.Faulty
//	option           variant v by t where it is v's, else by (1-t)/(k-1)
//	option of point  the point's states by the table at seen
//	variant          variant v by t where it is the one, else by (1-t)/(V-1)
//	symptom          there by t and not there by 1-t, or the reverse
//
// Reports are independent given the truth, so they multiply, also where they
// are about the same thing (Pearl 1988, section 2.1).
//
// What the design leaves open is settled here:
//   - A finding about a point that variant v does not have must be mistaken
//     under v, so it weighs v by the chance of that very mistake,
//     (1-t)/(K-1), the same as any single wrong state or option. With trust 1
//     it rules v out, with trust 1/K it says nothing.
//   - A point that v does not have is certain not to be shown: hidden weighs v
//     by 1.
//   - A state that is not complete has nothing to show an option of, so an
//     option weighs it by 1/k, original or not.
//   - Where there is one answer only, the chance of a mistake is 1-t.
func Gather(m *Model, findings []Finding, hidden Hidden) *Evidence {
	e := NewEvidence(m)
	for _, f := range findings {
		switch f.Kind {
		case PointState, PointReading:
			e.addState(m, f)
		case PointOption:
			e.addOption(m, f)
		case PointHidden:
			e.addHidden(m, f.Subject, hidden)
		case SymptomHidden:
			e.Symptom[f.Subject][0] *= hidden.Faulty
			e.Symptom[f.Subject][1] *= hidden.Sound
		case FeatureOption:
			k := len(m.Features[f.Subject].Options)
			for v := range m.Variants {
				e.Variant[v] *= answer(m.Variants[v].Fit[f.Subject] == f.Value, f.Trust, k)
			}
		case VariantIs:
			for v := range m.Variants {
				e.Variant[v] *= answer(v == f.Value, f.Trust, len(m.Variants))
			}
		case SymptomIs:
			there := answer(f.Value == 1, f.Trust, 2)
			e.Symptom[f.Subject][0] *= there
			e.Symptom[f.Subject][1] *= 1 - there
		}
	}
	return e
}

// answer is the probability of an answer out of n that is right with
// probability trust, where it is right and where it is not: mistakes fall
// evenly on the n-1 others.
func answer(right bool, trust float64, n int) float64 {
	if right {
		return trust
	}
	return (1 - trust) / float64(max(n-1, 1))
}

// addState weighs the states of a point by a finding of one of them, or by a
// reading: that is right of a state as far as the state explains it.
func (e *Evidence) addState(m *Model, f Finding) {
	k := len(m.Points[f.Subject].States)
	right, wrong := answer(true, f.Trust, k), answer(false, f.Trust, k)
	e.weighPoint(m, f.Subject, wrong, func(_, s int) float64 {
		fits := m.explains(f, s)
		return float64(fits*right) + float64((1-fits)*wrong)
	})
}

// explains is how well state s explains a finding about the state of its point.
func (m *Model) explains(f Finding, s int) float64 {
	switch {
	case f.Kind == PointReading:
		return m.Readings[f.Value][s]
	case s == f.Value:
		return 1
	}
	return 0
}

// addOption weighs the states of a point by the option of its feature that
// was seen on it. A point that shows no feature cannot be seen so: no weight.
func (e *Evidence) addOption(m *Model, f Finding) {
	p := &m.Points[f.Subject]
	if p.Feature < 0 {
		return
	}
	k := len(m.Features[p.Feature].Options)
	e.weighPoint(m, f.Subject, answer(false, f.Trust, k), func(v, s int) float64 {
		return seen(&p.States[s], m.Variants[v].Fit[p.Feature] == f.Value, f.Trust, k)
	})
}

// seen is the probability that an option is reported of a point in the given
// state, where the option is the variant's own (fits) or another:
//
//	state                    own         another
//	original and complete    t           (1-t)/(k-1)
//	complete, not original   1-t         t/(k-1)
//	not complete             1/k         1/k
//
// Each row sums to one over the k options.
func seen(s *State, fits bool, trust float64, k int) float64 {
	switch {
	case !s.Complete:
		return 1 / float64(k)
	case s.Original:
		return answer(fits, trust, k)
	case fits:
		return 1 - trust
	default:
		return trust / float64(max(k-1, 1))
	}
}

// addHidden weighs the states of a point that was not shown.
func (e *Evidence) addHidden(m *Model, i int, hidden Hidden) {
	e.weighPoint(m, i, 1, func(_, s int) float64 {
		if s == 0 {
			return hidden.Sound
		}
		return hidden.Faulty
	})
}
