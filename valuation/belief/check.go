package belief

import (
	"fmt"
	"math"
	"slices"
)

// Check says what in the model is out of range: indices, lengths, weights that
// are negative or not finite, probabilities outside 0 to 1, more than 256
// variants or 255 states. The other functions expect a model that passes.
func (m *Model) Check() error {
	if len(m.Variants) == 0 || len(m.Variants) > 256 || len(m.Histories) == 0 {
		return fmt.Errorf("%d variants and %d histories: expected 1 to 256 and at least 1", len(m.Variants), len(m.Histories))
	}
	for _, h := range m.Histories {
		if !weight(h.Odds) {
			return fmt.Errorf("history %s: odds %g", h.ID, h.Odds)
		}
	}
	for _, v := range m.Variants {
		if err := m.checkVariant(v); err != nil {
			return fmt.Errorf("variant %s: %w", v.ID, err)
		}
	}
	for _, p := range m.Points {
		if err := m.checkPoint(p); err != nil {
			return fmt.Errorf("point %s: %w", p.ID, err)
		}
	}
	for k, r := range m.Readings {
		if slices.ContainsFunc(r, func(x float64) bool { return !probability(x) }) {
			return fmt.Errorf("reading %d: %v", k, r)
		}
	}
	for _, y := range m.Symptoms {
		if err := m.checkSymptom(y); err != nil {
			return fmt.Errorf("symptom %s: %w", y.ID, err)
		}
	}
	return nil
}

// checkVariant says what is wrong with v.
func (m *Model) checkVariant(v Variant) error {
	if !weight(v.Made) {
		return fmt.Errorf("made %g", v.Made)
	}
	if len(v.Fit) != len(m.Features) {
		return fmt.Errorf("%d options for %d features", len(v.Fit), len(m.Features))
	}
	for f, o := range v.Fit {
		if !below(o, len(m.Features[f].Options)) {
			return fmt.Errorf("feature %s has no option %d", m.Features[f].ID, o)
		}
	}
	return nil
}

// checkPoint says what is wrong with p.
func (m *Model) checkPoint(p Point) error {
	switch {
	case p.Feature != -1 && !below(p.Feature, len(m.Features)):
		return fmt.Errorf("no feature %d", p.Feature)
	case len(p.Applies) != len(m.Variants):
		return fmt.Errorf("applies says %d variants of %d", len(p.Applies), len(m.Variants))
	case len(p.States) == 0 || len(p.States) > NotApplicable:
		return fmt.Errorf("%d states: expected 1 to %d", len(p.States), NotApplicable)
	}
	for _, s := range p.States {
		if len(s.Odds) != len(m.Histories) {
			return fmt.Errorf("state %s: odds for %d histories of %d", s.ID, len(s.Odds), len(m.Histories))
		}
		for _, x := range s.Odds {
			if !weight(x) {
				return fmt.Errorf("state %s: odds %g", s.ID, x)
			}
		}
	}
	return nil
}

// checkSymptom says what is wrong with y.
func (m *Model) checkSymptom(y Symptom) error {
	if !probability(y.Leak) {
		return fmt.Errorf("leak %g", y.Leak)
	}
	for _, c := range y.Causes {
		if !below(c.Point, len(m.Points)) || !below(c.State, len(m.Points[c.Point].States)) {
			return fmt.Errorf("no point %d or no state %d of it", c.Point, c.State)
		}
		if !probability(c.Strength) {
			return fmt.Errorf("strength %g", c.Strength)
		}
	}
	return nil
}

// CheckFinding says whether a finding is about something m has, with a trust
// from 0 to 1.
func (m *Model) CheckFinding(f Finding) error {
	subjects, values := m.scope(f)
	switch {
	case subjects == 0:
		return fmt.Errorf("%s: no kind %d, or nothing of this kind", f.Label, f.Kind)
	case f.Kind != VariantIs && !below(f.Subject, subjects):
		return fmt.Errorf("%s: subject %d of %d", f.Label, f.Subject, subjects)
	case f.Kind.hides():
		return nil
	case !below(f.Value, values):
		return fmt.Errorf("%s: value %d of %d", f.Label, f.Value, values)
	case !probability(f.Trust):
		return fmt.Errorf("%s: trust %g", f.Label, f.Trust)
	case f.Kind == PointReading && len(m.Readings[f.Value]) != len(m.Points[f.Subject].States):
		return fmt.Errorf("%s: a reading for %d states of %d", f.Label, len(m.Readings[f.Value]), len(m.Points[f.Subject].States))
	}
	return nil
}

// scope says how far the indices of a finding may go: it counts the subjects
// that a finding of this kind may have, and the values for its subject.
func (m *Model) scope(f Finding) (subjects, values int) {
	switch f.Kind {
	case PointState, PointHidden, PointOption:
		if !below(f.Subject, len(m.Points)) {
			return len(m.Points), 0
		}
		p := &m.Points[f.Subject]
		switch {
		case f.Kind != PointOption:
			values = len(p.States)
		case p.Feature >= 0:
			values = len(m.Features[p.Feature].Options)
		}
		return len(m.Points), values
	case FeatureOption:
		if below(f.Subject, len(m.Features)) {
			values = len(m.Features[f.Subject].Options)
		}
		return len(m.Features), values
	case PointReading:
		return len(m.Points), len(m.Readings)
	case VariantIs:
		return 1, len(m.Variants)
	case SymptomIs, SymptomHidden:
		return len(m.Symptoms), 2
	}
	return 0, 0
}

// below says whether i is an index into something of length n; weight and
// probability, whether x is in their range. NaN is in neither.
func below(i, n int) bool        { return i >= 0 && i < n }
func weight(x float64) bool      { return x >= 0 && !math.IsInf(x, 1) }
func probability(x float64) bool { return x >= 0 && x <= 1 }
