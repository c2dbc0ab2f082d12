package belief

import (
	"fmt"
	"math/rand/v2"
)

// A dice makes random numbers: from a seed, or from the bytes of a fuzz input.
type dice interface{ n(below int) int }

type seeded struct{ *rand.Rand }

func (r seeded) n(below int) int { return r.IntN(below) }

func newDice(seed uint64) dice { return seeded{rand.New(rand.NewPCG(seed, 7))} }

// tape reads numbers off bytes, and zeros when they run out.
type tape struct{ bytes []byte }

func (t *tape) n(below int) int {
	if len(t.bytes) == 0 {
		return 0
	}
	x := t.bytes[0]
	t.bytes = t.bytes[1:]
	return int(x) % below
}

// pickOf returns one of xs.
func pickOf(d dice, xs ...float64) float64 { return xs[d.n(len(xs))] }

// randomModel makes a model small enough for plain enumeration: up to 4
// variants, 3 histories, 5 points, 5 symptoms. Zeros and ones are common.
func randomModel(d dice) *Model {
	m := &Model{}
	for f := range d.n(3) {
		m.Features = append(m.Features, Feature{ID: fmt.Sprint("feature", f), Options: make([]string, 1+d.n(3))})
	}
	for v := range 1 + d.n(4) {
		x := Variant{ID: fmt.Sprint("variant", v), Made: 1 + float64(d.n(9))}
		for _, f := range m.Features {
			x.Fit = append(x.Fit, d.n(len(f.Options)))
		}
		m.Variants = append(m.Variants, x)
	}
	for h := range 1 + d.n(3) {
		m.Histories = append(m.Histories, History{ID: fmt.Sprint("history", h), Odds: 1 + float64(d.n(5))})
	}
	for i := range d.n(6) {
		m.Points = append(m.Points, randomPoint(d, m, i))
	}
	for _, p := range m.Points {
		r := make(Reading, len(p.States))
		for s := range r {
			r[s] = pickOf(d, 0, 1, 0.3, 0.8)
		}
		m.Readings = append(m.Readings, r) // one for each point
	}
	for j := range d.n(6) {
		m.Symptoms = append(m.Symptoms, randomSymptom(d, m, j))
	}
	return m
}

func randomPoint(d dice, m *Model, i int) Point {
	p := Point{ID: fmt.Sprint("point", i), Feature: d.n(len(m.Features)+1) - 1}
	for range m.Variants {
		p.Applies = append(p.Applies, d.n(4) > 0)
	}
	for s := range 1 + d.n(4) {
		x := State{ID: fmt.Sprint("state", s), Original: d.n(3) > 0, Complete: d.n(3) > 0}
		for range m.Histories {
			odds := float64(1 + d.n(9))
			if s > 0 {
				odds = pickOf(d, 0, 0.1, 1, 3, odds)
			}
			x.Odds = append(x.Odds, odds)
		}
		p.States = append(p.States, x)
	}
	return p
}

func randomSymptom(d dice, m *Model, j int) Symptom {
	y := Symptom{ID: fmt.Sprint("symptom", j), Leak: pickOf(d, 0, 1e-5, 0.02, 0.3, 1)}
	if len(m.Points) == 0 {
		return y
	}
	for range d.n(6) {
		i := d.n(len(m.Points))
		y.Causes = append(y.Causes, Cause{i, d.n(len(m.Points[i].States)), pickOf(d, 0, 0.01, 0.4, 0.9, 1)})
	}
	return y
}

// randomFindings makes up to 8 findings that fit m.
func randomFindings(d dice, m *Model) []Finding {
	var out []Finding
	for k := range d.n(9) {
		f := Finding{Kind: Kind(1 + d.n(8)), Trust: pickOf(d, 1, 0.95, 0.75, 0.5, 0.2, 0), Label: fmt.Sprint("finding ", k)}
		if randomSubject(d, m, &f) {
			out = append(out, f)
		}
	}
	return out
}

// randomSubject fills what a finding is about; false if m has no such thing.
func randomSubject(d dice, m *Model, f *Finding) bool {
	switch f.Kind {
	case PointState, PointHidden, PointOption, PointReading:
		if len(m.Points) == 0 {
			return false
		}
		f.Subject = d.n(len(m.Points))
		p := m.Points[f.Subject]
		if f.Kind == PointReading {
			f.Value = f.Subject
			return true
		}
		if f.Kind != PointOption {
			f.Value = d.n(len(p.States))
			return true
		}
		if p.Feature < 0 {
			return false
		}
		f.Value = d.n(len(m.Features[p.Feature].Options))
	case FeatureOption:
		if len(m.Features) == 0 {
			return false
		}
		f.Subject = d.n(len(m.Features))
		f.Value = d.n(len(m.Features[f.Subject].Options))
	case VariantIs:
		f.Value = d.n(len(m.Variants))
	case SymptomIs, SymptomHidden:
		if len(m.Symptoms) == 0 {
			return false
		}
		f.Subject, f.Value = d.n(len(m.Symptoms)), d.n(2)
	}
	return true
}
