package belief

import (
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
	for seed := range uint64(300) {
		d := newDice(seed)
		m := randomModel(d)
		p, err := InferFindings(m, randomFindings(d, m), usual)
		if err != nil {
			continue
		}
		n := []int{0, 1, 7, 63, 64, 65, 255, 256, 257, 600}[seed%10]
		c := randomCases(rand.New(rand.NewPCG(seed, 1)), m, n)
		out := make([]float64, n+3)
		for j := range m.Symptoms {
			for k := range out {
				out[k] = -1
			}
			p.SymptomChance(j, c, out)
			for k := range n {
				if want := p.plainChance(j, c, k); math.Float64bits(out[k]) != math.Float64bits(want) {
					t.Fatalf("seed %d, symptom %d, case %d of %d: %v, want %v", seed, j, k, n, out[k], want)
				}
				tried++
			}
			if out[n] != -1 || out[n+2] != -1 {
				t.Fatalf("seed %d: written beyond %d cases", seed, n)
			}
		}
	}
	if tried < 10000 {
		t.Errorf("only %d chances", tried)
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
