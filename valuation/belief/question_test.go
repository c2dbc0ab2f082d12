package belief

import (
	"slices"
	"testing"
)

// decision is a reference file on the value of questions: the payoff of an
// action is its base plus what each point's state adds.
type decision struct {
	Network  network
	Evidence reports
	Actions  []struct {
		ID     string
		Base   float64
		Values map[string][]float64 `json:"point_values"`
	}
	Questions []question
	Expected  struct {
		Now       float64 `json:"value_now"`
		Perfect   float64 `json:"evpi_all_points"`
		Questions []struct {
			Question string
			Gain     float64
			Answers  []struct {
				Answer      string
				Probability float64
				Values      map[string]float64 `json:"action_values"`
			}
		}
		Pairs []struct {
			Questions []string
			Gain      float64
		}
	}
}

// A question is about a symptom (whose report may be unreliable or fail to
// come), a clue or a point.
type question struct {
	ID, Type, Symptom, Clue, Point string
	YesIfPresent                   *float64 `json:"p_yes_if_present"`
	YesIfAbsent                    *float64 `json:"p_yes_if_absent"`
	Silence                        float64  `json:"p_no_answer"`
}

// Enumerated cases, with the symptom's chance in each, are all it takes to
// price any question or pair of questions: every figure of the files is
// reached without inferring again. Tolerance 1e-10.
func TestValueOfQuestionsFromCases(t *testing.T) {
	for _, name := range []string{"voi1.json", "voi2.json", "voi3.json"} {
		t.Run(name, func(t *testing.T) {
			var file decision
			readJSON(t, name, &file)
			x := newInquiry(t, &file)
			gainNear(t, "value now", x.best(x.cases.Weight), file.Expected.Now)
			gainNear(t, "perfect knowledge", x.perfect()-x.best(x.cases.Weight), file.Expected.Perfect)
			for k, want := range file.Expected.Questions {
				answers := x.answers(t, &file.Questions[k])
				gainNear(t, want.Question, x.gain(answers), want.Gain)
				for a, answer := range want.Answers {
					gainNear(t, want.Question+" "+answer.Answer, x.chance(answers[a]), answer.Probability)
					for n, action := range file.Actions {
						gainNear(t, action.ID, x.value(n, times(x.cases.Weight, answers[a]))/answer.Probability, answer.Values[action.ID])
					}
				}
			}
			for _, want := range file.Expected.Pairs {
				var both [][]float64
				for _, a := range x.answers(t, file.find(want.Questions[0])) {
					for _, b := range x.answers(t, file.find(want.Questions[1])) {
						both = append(both, times(a, b))
					}
				}
				gainNear(t, want.Questions[0]+"+"+want.Questions[1], x.gain(both), want.Gain)
			}
		})
	}
}

func gainNear(t *testing.T, what string, got, want float64) {
	t.Helper()
	if far(got, want, 1e-10) {
		t.Errorf("%s: %.15g, want %.15g", what, got, want)
	}
}

func (d *decision) find(id string) *question {
	return &d.Questions[slices.IndexFunc(d.Questions, func(q question) bool { return q.ID == id })]
}

// An inquiry is a decision with its cases and the payoff of every action in
// each of them.
type inquiry struct {
	m      *Model
	p      *Posterior
	cases  *Cases
	payoff [][]float64
}

func newInquiry(t *testing.T, d *decision) *inquiry {
	t.Helper()
	m := d.Network.model()
	p, ok := Infer(m, d.Evidence.evidence(m))
	if !ok {
		t.Fatal("impossible")
	}
	c, ok := p.Enumerate(50000)
	if !ok {
		t.Fatal("too many outcomes")
	}
	x := &inquiry{m: m, p: p, cases: c}
	for _, a := range d.Actions {
		pay := make([]float64, len(c.Weight))
		for n := range pay {
			pay[n] = a.Base
			for id, values := range a.Values {
				pay[n] += values[c.State[pointOf(m, id)][n]]
			}
		}
		x.payoff = append(x.payoff, pay)
	}
	return x
}

// answers returns, per answer of a question, its probability in each case.
func (x *inquiry) answers(t *testing.T, q *question) [][]float64 {
	t.Helper()
	if q.Type != "symptom" {
		return x.states(pointOf(x.m, q.Point+q.Clue))
	}
	there := make([]float64, len(x.cases.Weight))
	x.p.SymptomChance(symptomOf(x.m, q.Symptom), x.cases, there)
	present, absent := 1.0, 0.0
	if q.YesIfPresent != nil {
		present, absent = *q.YesIfPresent, *q.YesIfAbsent
	}
	out := [][]float64{make([]float64, len(there)), make([]float64, len(there))}
	silent := make([]float64, len(there))
	for n, p := range there {
		yes := p*present + (1-p)*absent
		out[0][n], out[1][n], silent[n] = (1-q.Silence)*yes, (1-q.Silence)*(1-yes), q.Silence
	}
	if q.Silence > 0 {
		out = append(out, silent)
	}
	return out
}

// states answers a question that shows the state of a point.
func (x *inquiry) states(i int) [][]float64 {
	out := make([][]float64, len(x.m.Points[i].States))
	for s := range out {
		out[s] = make([]float64, len(x.cases.Weight))
		for n, state := range x.cases.State[i] {
			if int(state) == s {
				out[s][n] = 1
			}
		}
	}
	return out
}

// value is the weighted payoff of an action.
func (x *inquiry) value(action int, weight []float64) float64 { return dot(weight, x.payoff[action]) }

// best is the highest weighted payoff.
func (x *inquiry) best(weight []float64) float64 {
	best := x.value(0, weight)
	for n := range x.payoff {
		best = max(best, x.value(n, weight))
	}
	return best
}

// gain is what knowing the answer adds.
func (x *inquiry) gain(answers [][]float64) float64 {
	sum := -x.best(x.cases.Weight)
	for _, a := range answers {
		sum += x.best(times(x.cases.Weight, a))
	}
	return sum
}

// perfect is the expected payoff of choosing with every state known.
func (x *inquiry) perfect() float64 {
	sum := 0.0
	for n, w := range x.cases.Weight {
		best := x.payoff[0][n]
		for a := range x.payoff {
			best = max(best, x.payoff[a][n])
		}
		sum += w * best
	}
	return sum
}

// chance is the probability of an answer.
func (x *inquiry) chance(answer []float64) float64 { return dot(x.cases.Weight, answer) }

func times(a, b []float64) []float64 {
	out := make([]float64, len(a))
	for n := range a {
		out[n] = a[n] * b[n]
	}
	return out
}
