package valuation

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"lotgauge/valuation/belief"
)

// bestAction is the prospect of somebody who takes the action with the largest
// expected payoff.
func bestAction(worth, slope []float64) float64 {
	best := 0
	for a := range worth {
		slope[a] = 0
		if worth[a] > worth[best] {
			best = a
		}
	}
	slope[best] = 1
	return worth[best]
}

func readReference(t *testing.T, file string, into any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("../testdata/reference", file))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatal(err)
	}
}

// TestTextbookDecisions takes the oil wildcatter (Raiffa, Decision Analysis,
// 1968, as restated by Shenoy, Operations Research 40, 1992) and the land that
// may hold oil (Hillier and Lieberman, Introduction to Operations Research):
// the value of perfect information and of the test.
func TestTextbookDecisions(t *testing.T) {
	var file struct {
		Problems []struct {
			Name       string
			Prior      []float64
			Payoff     [][]float64 `json:"payoff_by_action"`
			Likelihood [][]float64 `json:"likelihood_by_state"`
			Solution   struct {
				EMV  float64 `json:"emv_without_information"`
				EVPI float64 `json:"evpi"`
				EVSI float64 `json:"evsi"`
			}
		}
	}
	readReference(t, "decisions.json", &file)
	if len(file.Problems) < 2 {
		t.Fatal("no problems read")
	}
	for _, p := range file.Problems {
		signals := len(p.Likelihood[0])
		q := &asker{cases: &belief.Cases{Exact: true}, values: make([][]float64, len(p.Payoff)), g: bestAction}
		state, signal := inquiry{count: len(p.Prior)}, inquiry{count: signals}
		for s, prior := range p.Prior {
			for z, l := range p.Likelihood[s] {
				q.cases.Weight = append(q.cases.Weight, prior*l)
				state.answers = append(state.answers, uint8(s))
				signal.answers = append(signal.answers, uint8(z))
				for a := range p.Payoff {
					q.values[a] = append(q.values[a], p.Payoff[a][s])
				}
			}
		}
		within(t, p.Name+" perfect information", q.worth(&state), p.Solution.EVPI, 1e-9)
		within(t, p.Name+" everything", q.everything(), p.Solution.EVPI, 1e-9)
		within(t, p.Name+" test", q.worth(&signal), p.Solution.EVSI, 1e-9)
		within(t, p.Name+" test and state", q.worth(&state, &signal), p.Solution.EVPI, 1e-9)
	}
}

func within(t *testing.T, what string, got, want, by float64) {
	t.Helper()
	if !(math.Abs(got-want) <= by) {
		t.Errorf("%s: got %v, want %v within %v", what, got, want, by)
	}
}

// voiFile is a network with actions and questions, solved by full enumeration
// in 50-digit decimals (computed; the file says how).
type voiFile struct {
	Network struct {
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
	Evidence struct {
		Symptoms map[string]bool
		Clues    map[string]string
		Points   map[string]string
	}
	Actions []struct {
		ID          string
		Base        float64
		PointValues map[string][]float64 `json:"point_values"`
	}
	Questions []struct {
		ID, Type, Symptom, Clue, Point string
		IfPresent                      *float64 `json:"p_yes_if_present"`
		IfAbsent                       *float64 `json:"p_yes_if_absent"`
		NoAnswer                       float64  `json:"p_no_answer"`
	}
	Expected struct {
		ValueNow  float64 `json:"value_now"`
		EVPI      float64 `json:"evpi_all_points"`
		Questions []struct {
			Question string
			Gain     float64
		}
		Pairs []struct {
			Questions []string
			Gain      float64
		}
	}
}

// model is the network as a belief model; a clue is a point that causes nothing.
func (f *voiFile) model() *belief.Model {
	m := &belief.Model{Variants: []belief.Variant{{ID: "only", Made: 1}}}
	for _, c := range f.Network.Classes {
		m.Histories = append(m.Histories, belief.History{ID: c.ID, Odds: c.Prior})
	}
	add := func(id string, states []string, p map[string][]float64) {
		pt := belief.Point{ID: id, Feature: -1, Applies: []bool{true}}
		for s, name := range states {
			st := belief.State{ID: name, Original: true, Complete: true}
			for _, c := range f.Network.Classes {
				st.Odds = append(st.Odds, p[c.ID][s])
			}
			pt.States = append(pt.States, st)
		}
		m.Points = append(m.Points, pt)
	}
	for _, p := range f.Network.Points {
		add(p.ID, p.States, p.Prior)
	}
	for _, c := range f.Network.Clues {
		add(c.ID, c.Answers, c.P)
	}
	for _, s := range f.Network.Symptoms {
		sym := belief.Symptom{ID: s.ID, Leak: s.Leak}
		for _, c := range s.Causes {
			for state, strength := range c.P {
				if strength > 0 {
					sym.Causes = append(sym.Causes, belief.Cause{Point: f.point(m, c.Point), State: state, Strength: strength})
				}
			}
		}
		m.Symptoms = append(m.Symptoms, sym)
	}
	return m
}

func (f *voiFile) point(m *belief.Model, id string) int {
	for i := range m.Points {
		if m.Points[i].ID == id {
			return i
		}
	}
	return -1
}

func (f *voiFile) symptom(id string) int {
	for j, s := range f.Network.Symptoms {
		if s.ID == id {
			return j
		}
	}
	return -1
}

// findings are the file's hard evidence.
func (f *voiFile) findings(t *testing.T, m *belief.Model) []belief.Finding {
	t.Helper()
	var out []belief.Finding
	for id, there := range f.Evidence.Symptoms {
		out = append(out, belief.Finding{Kind: belief.SymptomIs, Subject: f.symptom(id), Value: bit(there), Trust: 1})
	}
	for _, set := range []map[string]string{f.Evidence.Clues, f.Evidence.Points} {
		for id, state := range set {
			i := f.point(m, id)
			for s := range m.Points[i].States {
				if m.Points[i].States[s].ID == state {
					out = append(out, belief.Finding{Kind: belief.PointState, Subject: i, Value: s, Trust: 1})
				}
			}
		}
	}
	return out
}

// ask turns a question into an inquiry; an answer that may stay out scales its
// value by the chance that it comes.
func (f *voiFile) ask(i int, m *belief.Model, p *belief.Posterior, c *belief.Cases) (*inquiry, float64) {
	q := f.Questions[i]
	if q.Type == "symptom" {
		chance := make([]float64, len(c.Weight))
		p.SymptomChance(f.symptom(q.Symptom), c, chance)
		if q.IfPresent != nil {
			for k, there := range chance {
				chance[k] = there**q.IfPresent + (1-there)**q.IfAbsent
			}
		}
		return &inquiry{chance: chance, count: 2}, 1 - q.NoAnswer
	}
	at := f.point(m, q.Clue+q.Point)
	return &inquiry{answers: c.State[at], count: len(m.Points[at].States)}, 1
}

func TestValueOfQuestions(t *testing.T) {
	for _, name := range []string{"voi1", "voi2", "voi3"} {
		t.Run(name, func(t *testing.T) {
			var f voiFile
			readReference(t, "networks/"+name+".json", &f)
			m := f.model()
			p, err := belief.InferFindings(m, f.findings(t, m), belief.Hidden{})
			if err != nil {
				t.Fatal(err)
			}
			cases, ok := p.Enumerate(1 << 20)
			if !ok {
				t.Fatal("too many outcomes")
			}
			q := &asker{cases: cases, g: bestAction, values: f.payoffs(m, cases)}
			f.check(t, q, m, p)
		})
	}
}

func (f *voiFile) payoffs(m *belief.Model, c *belief.Cases) [][]float64 {
	values := make([][]float64, len(f.Actions))
	for a, act := range f.Actions {
		values[a] = make([]float64, len(c.Weight))
		for k := range values[a] {
			values[a][k] = act.Base
			for id, of := range act.PointValues {
				values[a][k] += of[c.State[f.point(m, id)][k]]
			}
		}
	}
	return values
}

func (f *voiFile) check(t *testing.T, q *asker, m *belief.Model, p *belief.Posterior) {
	about := map[string]*inquiry{}
	answered := map[string]float64{}
	for i := range f.Questions {
		about[f.Questions[i].ID], answered[f.Questions[i].ID] = f.ask(i, m, p, q.cases)
	}
	if len(f.Expected.Questions) != len(f.Questions) {
		t.Fatalf("%d questions, %d expected", len(f.Questions), len(f.Expected.Questions))
	}
	for _, want := range f.Expected.Questions {
		within(t, want.Question, q.worth(about[want.Question])*answered[want.Question], want.Gain, 1e-10)
	}
	for _, want := range f.Expected.Pairs {
		a, b := want.Questions[0], want.Questions[1]
		if answered[a]*answered[b] < 1 {
			continue // the file's pairs are of questions that are always answered
		}
		within(t, a+" and "+b, q.worth(about[a], about[b]), want.Gain, 1e-10)
	}
	var points []*inquiry
	for i := range f.Network.Points {
		points = append(points, &inquiry{answers: q.cases.State[i], count: len(m.Points[i].States)})
	}
	within(t, "all points", q.worth(points...), f.Expected.EVPI, 1e-10)
}

// TestPairBeatsSingles: in voi1 every single question is worth nothing, and one
// pair is worth 0.3236; it is the pair that has to be shown.
func TestPairBeatsSingles(t *testing.T) {
	var f voiFile
	readReference(t, "networks/voi1.json", &f)
	m := f.model()
	p, err := belief.InferFindings(m, f.findings(t, m), belief.Hidden{})
	if err != nil {
		t.Fatal(err)
	}
	cases, _ := p.Enumerate(1 << 20)
	q := &asker{cases: cases, g: bestAction, values: f.payoffs(m, cases)}
	noise, _ := f.ask(0, m, p, cases)
	brushes := &inquiry{answers: cases.State[2], count: 3}
	i, j, worth, ok := q.pair([]inquiry{*noise, *brushes}, 0, 0)
	if !ok || i != 0 || j != 1 {
		t.Fatalf("pair not found: %d %d %v %v", i, j, worth, ok)
	}
	within(t, "pair", worth, 0.3236, 0.00005)
	if _, _, _, ok := q.pair([]inquiry{*noise, *brushes}, 0.04, 0); ok {
		t.Error("a pair is shown although a single question is worth more than a tenth of it")
	}
}

// TestCrossValueIgnoresLuck: an answer that says nothing has no value over
// draws, even where the decision is on the edge, and an answer that says a lot
// keeps its value within the noise.
func TestCrossValueIgnoresLuck(t *testing.T) {
	const n = 20000
	rng := rand.New(rand.NewPCG(3, 4))
	c := &belief.Cases{Weight: make([]float64, n)}
	value, idle, telling := make([]float64, n), make([]uint8, n), make([]uint8, n)
	for k := range value {
		c.Weight[k] = 1.0 / n
		telling[k] = uint8(rng.IntN(2))
		idle[k] = uint8(rng.IntN(8))
		value[k] = 50 + 30*rng.NormFloat64() + 20*(float64(telling[k])-0.5)
	}
	q := &asker{cases: c, values: [][]float64{value}, g: fixedPrice(50)}
	plain := newTallied(8, 1)
	for k := range value {
		plain.add(int(idle[k]), c.Weight[k], q.values, k)
	}
	lucky := valueOfKnowing(plain, q.g)
	idleWorth := q.worth(&inquiry{answers: idle, count: 8})
	if idleWorth > lucky/2 {
		t.Errorf("an idle question is worth %v, by plain counting %v", idleWorth, lucky)
	}
	within(t, "telling question", q.worth(&inquiry{answers: telling, count: 2}), 5, 4*30/math.Sqrt(n))
}

// TestProspectsAreConvex: knowing more never costs, whatever the prospect.
func TestProspectsAreConvex(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	slope := make([]float64, 1)
	for _, g := range []prospect{fixedPrice(40), auction([]float64{10, 35, 35, 60, 90})} {
		for range 1000 {
			x, y, p := 120*rng.Float64()-10, 120*rng.Float64()-10, rng.Float64()
			at := func(v float64) float64 { return g([]float64{v}, slope) }
			if mixed, apart := at(p*x+(1-p)*y), p*at(x)+(1-p)*at(y); mixed > apart+1e-12 {
				t.Fatalf("G(%v) = %v above %v", p*x+(1-p)*y, mixed, apart)
			}
		}
	}
}
