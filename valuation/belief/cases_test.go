package belief

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// plainChance is the chance of a symptom in case k: the leak and the states
// bring it about one after the other, and then the reports weigh it.
func (p *Posterior) plainChance(j int, c *Cases, k int) float64 {
	l := &p.f.links[j]
	there, absent := l.leak, 1-l.leak
	for _, i := range l.points {
		if s := c.State[i][k]; s != NotApplicable {
			x := l.p[p.f.off[i]+int(s)]
			there += float64((1 - there) * x)
			absent *= 1 - x
		}
	}
	there = float64(there * l.there)
	if there == 0 {
		return 0
	}
	return there / (there + float64(absent*l.not))
}

// The chances of a symptom are those of the plain rule to the last bit, for any
// number of cases, and nothing is written beyond them.
func TestSymptomChanceIsThePlainRule(t *testing.T) {
	tried := 0
	for seed := range uint64(400) {
		d := newDice(seed)
		m := randomModel(d)
		if seed%4 == 0 {
			m = manyCauses(d)
		}
		p, err := InferFindings(m, randomFindings(d, m), usual)
		if err != nil {
			continue
		}
		n := []int{0, 1, 7, 63, 64, 65, 255, 256, 257, 900}[seed/4%10]
		c := randomCases(rand.New(rand.NewPCG(seed, 1)), m, n)
		for j := range m.Symptoms {
			checkChances(t, fmt.Sprintf("seed %d, symptom %d of %d cases", seed, j, n), p, j, c)
			tried += n
		}
	}
	if tried < 10000 {
		t.Errorf("only %d chances", tried)
	}
}

// manyCauses is a model whose symptom has too many causes to be looked up.
func manyCauses(d dice) *Model {
	m := &Model{Variants: []Variant{{Made: 1}}, Histories: []History{{Odds: 1}}}
	y := Symptom{Leak: pickOf(d, 0, 0.01)}
	for i := range 9 {
		p := Point{Feature: -1, Applies: []bool{true}}
		for s := range 1 + d.n(7) {
			p.States = append(p.States, State{Odds: []float64{1}, Original: true, Complete: true})
			y.Causes = append(y.Causes, Cause{i, s, pickOf(d, 0, 0.01, 0.123, 0.07, 0.2, 0.9)})
		}
		m.Points = append(m.Points, p)
		m.Readings = append(m.Readings, make(Reading, len(p.States)))
	}
	m.Symptoms = []Symptom{y}
	return m
}

func checkChances(t *testing.T, name string, p *Posterior, j int, c *Cases) {
	t.Helper()
	n := len(c.Weight)
	out := make([]float64, n+2)
	out[n], out[n+1] = -1, -1
	p.SymptomChance(j, c, out)
	for k, got := range out[:n] {
		if want := p.plainChance(j, c, k); math.Float64bits(got) != math.Float64bits(want) {
			t.Fatalf("%s, case %d: %v, want %v", name, k, got, want)
		}
	}
	if out[n] != -1 || out[n+1] != -1 {
		t.Fatalf("%s: written beyond", name)
	}
}

// randomCases are cases of any states, the first one most often.
func randomCases(r *rand.Rand, m *Model, n int) *Cases {
	c := &Cases{Weight: make([]float64, n), Variant: make([]uint8, n), State: make([][]uint8, len(m.Points))}
	for i := range c.State {
		c.State[i] = make([]uint8, n)
		for k := range c.State[i] {
			switch r.IntN(4) {
			case 0:
				c.State[i][k] = uint8(r.IntN(len(m.Points[i].States)))
			case 1:
				c.State[i][k] = NotApplicable
			}
		}
	}
	return c
}
