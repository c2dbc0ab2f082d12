package belief

import (
	"math"
	"testing"
)

// expectation is what a reference file expects of a case.
type expectation struct {
	Impossible  bool
	PEvidence   float64              `json:"p_evidence"`
	LogEvidence float64              `json:"log_evidence"`
	Classes     map[string]float64   `json:"class_posterior"`
	Points      map[string][]float64 `json:"point_posterior"`
	Symptoms    map[string]float64   `json:"symptom_posterior"`
	Clues       map[string][]float64 `json:"clue_posterior"`
	Unsound     float64              `json:"expected_number_of_unsound_points"`
	World       struct {
		Class     string
		States    []string
		Posterior float64
	} `json:"most_probable_world"`
	Pair struct {
		Points []string
		P      [][]float64
	} `json:"joint_pair"`
}

type networkFile struct {
	Network network
	Cases   []struct {
		Case     string
		Evidence reports
		Expected expectation
	}
}

// Tolerance: the files ask for 1e-12, absolute for probabilities and relative
// for the evidence. net05 is the one on which plain inclusion-exclusion keeps
// three digits.
func TestReferenceNetworks(t *testing.T) {
	for _, name := range []string{"net01", "net02", "net03", "net04", "net05", "net06", "edge_cases"} {
		var file networkFile
		readJSON(t, name+".json", &file)
		m := file.Network.model()
		if err := m.Check(); err != nil {
			t.Fatal(err)
		}
		for _, c := range file.Cases {
			t.Run(name+"/"+c.Case, func(t *testing.T) {
				p, ok := Infer(m, c.Evidence.evidence(m))
				if ok == c.Expected.Impossible {
					t.Fatalf("possible: %v", ok)
				}
				if ok {
					c.Expected.check(t, m, p, len(file.Network.Points))
				}
			})
		}
	}
}

// check holds p against the expectation; the first points of m are the file's
// points, the others its clues.
func (x *expectation) check(t *testing.T, m *Model, p *Posterior, points int) {
	t.Helper()
	if math.Abs(math.Expm1(p.LogEvidence()-math.Log(x.PEvidence))) > 1e-12 || far(p.LogEvidence(), x.LogEvidence, 1e-12) {
		t.Errorf("log evidence %.16g, want %.16g", p.LogEvidence(), x.LogEvidence)
	}
	histories := p.Histories()
	for h := range m.Histories {
		near(t, m.Histories[h].ID, histories[h:h+1], []float64{x.Classes[m.Histories[h].ID]})
	}
	unsound := 0.0
	for i := range m.Points {
		id := m.Points[i].ID
		if i < points {
			near(t, id, p.Point(i), x.Points[id])
			unsound += 1 - p.Point(i)[0]
		} else if want := x.Clues[id]; want != nil { // clues with a hard answer are left out
			near(t, id, p.Point(i), want)
		}
	}
	for j := range m.Symptoms {
		near(t, m.Symptoms[j].ID, []float64{p.Symptom(j)}, []float64{x.Symptoms[m.Symptoms[j].ID]})
	}
	near(t, "unsound points", []float64{unsound}, []float64{x.Unsound})
	x.checkJoint(t, m, p)
}

// checkJoint holds the joint distribution against the pair and the most
// probable world of the file, over enumerated cases.
func (x *expectation) checkJoint(t *testing.T, m *Model, p *Posterior) {
	t.Helper()
	c, ok := p.Enumerate(1 << 20)
	if !ok {
		t.Fatal("too many outcomes")
	}
	a, b := pointOf(m, x.Pair.Points[0]), pointOf(m, x.Pair.Points[1])
	got := make([][]float64, len(x.Pair.P))
	for s := range got {
		got[s] = make([]float64, len(x.Pair.P[s]))
	}
	world := 0.0
	for n, w := range c.Weight {
		got[c.State[a][n]][c.State[b][n]] += w
		same := true
		for i, id := range x.World.States {
			same = same && m.Points[i].States[c.State[i][n]].ID == id
		}
		if same {
			world += w
		}
	}
	for s := range got {
		near(t, "joint pair", got[s], x.Pair.P[s])
	}
	// The file's world has its class in it; ours has histories summed out.
	if world < x.World.Posterior-1e-12 {
		t.Errorf("most probable world: %.16g, want at least %.16g", world, x.World.Posterior)
	}
}

// Inhibition probabilities of Russell and Norvig's fever table (Artificial
// Intelligence: A Modern Approach, chapter on Bayesian networks): cold 0.6,
// flu 0.2, malaria 0.1, no leak.
func TestTextbookFever(t *testing.T) {
	var file struct {
		Fever struct {
			Rows []struct {
				Cold, Flu, Malaria bool
				Fever              float64 `json:"p_fever"`
				NoFever            float64 `json:"p_no_fever"`
			}
		}
	}
	readJSON(t, "textbook.json", &file)
	m := &Model{Variants: []Variant{{Made: 1}}, Histories: []History{{Odds: 1}}}
	for i, inhibition := range []float64{0.6, 0.2, 0.1} {
		states := []State{{Odds: []float64{1}}, {Odds: []float64{1}}}
		m.Points = append(m.Points, Point{Feature: -1, Applies: []bool{true}, States: states})
		if i == 0 {
			m.Symptoms = []Symptom{{ID: "fever"}}
		}
		m.Symptoms[0].Causes = append(m.Symptoms[0].Causes, Cause{i, 1, 1 - inhibition})
	}
	for _, row := range file.Fever.Rows {
		e := NewEvidence(m)
		for i, ill := range []bool{row.Cold, row.Flu, row.Malaria} {
			e.Point[0][i] = []float64{1, 0}
			if ill {
				e.Point[0][i] = []float64{0, 1}
			}
		}
		p, _ := Infer(m, e)
		near(t, "fever", []float64{p.Symptom(0), 1 - p.Symptom(0)}, []float64{row.Fever, row.NoFever})
	}
}

// The burglary network (same book, after Pearl 1988). Its alarm is no
// noisy-OR: with leak 0.001 the rows for one cause give 0.957 for both, not
// 0.95. So burglary and earthquake are four histories, the alarm is a point,
// and only the calls are symptoms.
func TestTextbookBurglary(t *testing.T) {
	var file struct {
		Burglary struct {
			B     float64            `json:"p_burglary"`
			E     float64            `json:"p_earthquake"`
			Alarm map[string]float64 `json:"p_alarm"`
			John  []float64          `json:"p_john_given_alarm"`
			Mary  []float64          `json:"p_mary_given_alarm"`
			Want  float64            `json:"p_burglary_given_john_and_mary"`
			Joint float64            `json:"p_j_m_a_not_b_not_e"`
		}
	}
	readJSON(t, "textbook.json", &file)
	x := file.Burglary
	m := &Model{
		Variants: []Variant{{Made: 1}},
		Histories: []History{
			{"b_e", x.B * x.E}, {"b_not_e", x.B * (1 - x.E)}, {"not_b_e", (1 - x.B) * x.E}, {"neither", (1 - x.B) * (1 - x.E)},
		},
	}
	var quiet, rings State
	for _, h := range m.Histories {
		rings.Odds = append(rings.Odds, x.Alarm[h.ID])
		quiet.Odds = append(quiet.Odds, 1-x.Alarm[h.ID])
	}
	m.Points = []Point{{ID: "alarm", Feature: -1, Applies: []bool{true}, States: []State{quiet, rings}}}
	for _, call := range [][]float64{x.John, x.Mary} {
		strength := 1 - (1-call[0])/(1-call[1])
		m.Symptoms = append(m.Symptoms, Symptom{Leak: call[1], Causes: []Cause{{0, 1, strength}}})
	}
	e := NewEvidence(m)
	e.Symptom[0], e.Symptom[1] = [2]float64{1, 0}, [2]float64{1, 0}
	p, ok := Infer(m, e)
	if !ok {
		t.Fatal("impossible")
	}
	h := p.Histories()
	near(t, "burglary", []float64{h[0] + h[1]}, []float64{x.Want})
	e.Point[0][0] = []float64{0, 1}
	if p, ok = Infer(m, e); !ok {
		t.Fatal("impossible")
	}
	near(t, "joint", []float64{math.Exp(p.LogEvidence()) * p.Histories()[3]}, []float64{x.Joint})
}
