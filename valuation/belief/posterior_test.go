package belief

import (
	"math"
	"testing"
)

var usual = Hidden{Sound: 0.4, Faulty: 0.6}

// The posterior equals plain enumeration, whatever the model and findings.
func TestPosteriorEqualsEnumeration(t *testing.T) {
	impossible := 0
	for seed := range uint64(3000) {
		d := newDice(seed)
		m := randomModel(d)
		findings := randomFindings(d, m)
		if !agrees(t, m, findings) {
			impossible++
		}
		if t.Failed() {
			t.Fatalf("seed %d: model %+v findings %+v", seed, m, findings)
		}
	}
	t.Logf("%d of 3000 impossible", impossible)
	if impossible < 50 || impossible > 1500 {
		t.Errorf("%d of 3000 impossible: the generator is lopsided", impossible)
	}
}

// agrees holds a posterior against the oracle; false if both say impossible.
func agrees(t *testing.T, m *Model, findings []Finding) bool {
	t.Helper()
	o := enumerateFindings(m, findings, usual)
	p, err := InferFindings(m, findings, usual)
	if (err == nil) != (o.total > 0) {
		t.Errorf("evidence %g, got error %v", o.total, err)
		return false
	}
	if err != nil {
		return false
	}
	posteriorAgrees(t, m, o, p)
	return true
}

// posteriorAgrees holds every answer of p against the oracle.
func posteriorAgrees(t *testing.T, m *Model, o *oracle, p *Posterior) {
	t.Helper()
	if far(p.LogEvidence(), math.Log(o.total), 1e-11) {
		t.Errorf("log evidence %.15g, want %.15g", p.LogEvidence(), math.Log(o.total))
	}
	same := func(what string, got, want float64) {
		t.Helper()
		if far(got, want, 1e-12) {
			t.Errorf("%s: %.15g, want %.15g", what, got, want)
		}
	}
	for v, got := range p.Variants() {
		same(m.Variants[v].ID, got, o.chance(func(w *world) bool { return w.v == v }))
	}
	for h, got := range p.Histories() {
		same(m.Histories[h].ID, got, o.chance(func(w *world) bool { return w.h == h }))
	}
	for i := range m.Points {
		for s, got := range p.Point(i) {
			same(m.Points[i].ID+m.Points[i].States[s].ID, got, o.chance(func(w *world) bool { return w.state[i] == s }))
		}
		same(m.Points[i].ID+" applies", p.Applies(i), o.chance(func(w *world) bool { return w.state[i] >= 0 }))
		givenAgrees(t, m, p, o, i)
	}
	for j := range m.Symptoms {
		same(m.Symptoms[j].ID, p.Symptom(j), o.mean(func(w *world) float64 { return w.there[j] }))
	}
}

// givenAgrees holds PointGiven against the oracle.
func givenAgrees(t *testing.T, m *Model, p *Posterior, o *oracle, i int) {
	t.Helper()
	for v, chance := range p.Variants() {
		for s, got := range p.PointGiven(v, i) {
			want := 0.0
			if chance > 0 && m.Points[i].Applies[v] {
				want = o.chance(func(w *world) bool { return w.v == v && w.state[i] == s }) / o.chance(func(w *world) bool { return w.v == v })
			}
			if far(got, want, 1e-10) {
				t.Errorf("point %d state %d given variant %d: %.15g, want %.15g", i, s, v, got, want)
			}
		}
	}
}
