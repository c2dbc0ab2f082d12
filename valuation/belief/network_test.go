package belief

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
)

// The reference networks: full enumeration in 50-digit decimals (Python
// 3.11.2), which agrees with an independent inclusion-exclusion sum to 15
// digits or better. Each file names its source and layout.
const networks = "../../testdata/reference/networks"

// A network is the model of a file. Its classes are our histories, its clues
// points that cause nothing, and it has one variant.
type network struct {
	Classes []struct {
		ID    string
		Prior float64
	}
	Clues []struct {
		ID      string
		Answers []string
		P       map[string][]float64
	}
	Points []struct {
		ID     string
		States []string
		Prior  map[string][]float64
	}
	Symptoms []struct {
		ID     string
		Leak   float64
		Causes []struct {
			Point string
			P     []float64
		}
	}
}

// reports is the evidence of a file's case.
type reports struct {
	Clues           map[string]string
	ClueLikelihood  map[string][]float64 `json:"clue_likelihood"`
	Points          map[string]string
	PointLikelihood map[string][]float64 `json:"point_likelihood"`
	Symptoms        map[string]bool
	Symptom         map[string]struct{ Present, Absent float64 } `json:"symptom_likelihood"`
}

// model turns a network into ours: first its points, then its clues.
func (n *network) model() *Model {
	m := &Model{Variants: []Variant{{ID: "only", Made: 1}}}
	for _, c := range n.Classes {
		m.Histories = append(m.Histories, History{c.ID, c.Prior})
	}
	for _, p := range n.Points {
		m.Points = append(m.Points, n.point(p.ID, p.States, p.Prior))
	}
	for _, c := range n.Clues {
		m.Points = append(m.Points, n.point(c.ID, c.Answers, c.P))
	}
	for _, y := range n.Symptoms {
		out := Symptom{ID: y.ID, Leak: y.Leak}
		for _, c := range y.Causes {
			for s, p := range c.P {
				out.Causes = append(out.Causes, Cause{pointOf(m, c.Point), s, p})
			}
		}
		m.Symptoms = append(m.Symptoms, out)
	}
	return m
}

func (n *network) point(id string, states []string, prior map[string][]float64) Point {
	p := Point{ID: id, Feature: -1, Applies: []bool{true}}
	for s, name := range states {
		x := State{ID: name, Original: true, Complete: true}
		for _, c := range n.Classes {
			x.Odds = append(x.Odds, prior[c.ID][s])
		}
		p.States = append(p.States, x)
	}
	return p
}

// evidence turns a case's reports into likelihoods.
func (r *reports) evidence(m *Model) *Evidence {
	e := NewEvidence(m)
	for _, answers := range []map[string]string{r.Clues, r.Points} {
		for id, answer := range answers {
			i := pointOf(m, id)
			e.Point[0][i] = make([]float64, len(m.Points[i].States))
			e.Point[0][i][stateOf(&m.Points[i], answer)] = 1
		}
	}
	for _, likelihoods := range []map[string][]float64{r.ClueLikelihood, r.PointLikelihood} {
		for id, likelihood := range likelihoods {
			e.Point[0][pointOf(m, id)] = likelihood
		}
	}
	for id, there := range r.Symptoms {
		e.Symptom[symptomOf(m, id)] = [2]float64{0, 1}
		if there {
			e.Symptom[symptomOf(m, id)] = [2]float64{1, 0}
		}
	}
	for id, x := range r.Symptom {
		e.Symptom[symptomOf(m, id)] = [2]float64{x.Present, x.Absent}
	}
	return e
}

// pointOf, stateOf and symptomOf look ids up; an unknown one panics, since the
// file would be broken.
func pointOf(m *Model, id string) int {
	for i := range m.Points {
		if m.Points[i].ID == id {
			return i
		}
	}
	panic("no point " + id)
}

func stateOf(p *Point, id string) int {
	for s := range p.States {
		if p.States[s].ID == id {
			return s
		}
	}
	panic("no state " + id + " of " + p.ID)
}

func symptomOf(m *Model, id string) int {
	for j := range m.Symptoms {
		if m.Symptoms[j].ID == id {
			return j
		}
	}
	panic("no symptom " + id)
}

// readJSON reads a reference file into v.
func readJSON(t *testing.T, name string, v any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(networks, name))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, v); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}
