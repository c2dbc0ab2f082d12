package valuation

import (
	"lotgauge/valuation/belief"
	"lotgauge/valuation/checklist"
)

// newModel is the family as the belief room sees it. With a variant named (not
// -1) all of the prior is on that one.
func newModel(f *checklist.Family, variant int) *belief.Model {
	m := &belief.Model{}
	for i, v := range f.Variants {
		made := v.Made
		if variant >= 0 {
			made = float64(bit(i == variant))
		}
		m.Variants = append(m.Variants, belief.Variant{ID: v.ID, Made: made, Fit: v.Fit})
	}
	for _, x := range f.Features {
		m.Features = append(m.Features, belief.Feature{ID: x.ID, Options: x.Options})
	}
	for _, h := range f.Histories {
		m.Histories = append(m.Histories, belief.History{ID: h.ID, Odds: h.Odds})
	}
	for i := range f.Points {
		m.Points = append(m.Points, modelPoint(&f.Points[i]))
	}
	for _, s := range f.Symptoms {
		m.Symptoms = append(m.Symptoms, modelSymptom(s))
	}
	return m
}

func modelPoint(p *checklist.Point) belief.Point {
	q := belief.Point{ID: p.ID, Feature: p.Feature, Applies: p.Applies}
	for _, s := range p.States {
		q.States = append(q.States, belief.State{ID: s.ID, Odds: s.Odds, Original: s.Original, Complete: s.Complete})
	}
	return q
}

func modelSymptom(s checklist.Symptom) belief.Symptom {
	t := belief.Symptom{ID: s.ID, Leak: s.Leak}
	for _, c := range s.Causes {
		t.Causes = append(t.Causes, belief.Cause{Point: c.Point, State: c.State, Strength: c.Strength})
	}
	return t
}
