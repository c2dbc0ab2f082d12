package belief

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// benchModel is a family of 10 variants, 4 histories, 30 points of 4 states
// and 20 symptoms of 4 causes. A third of the points do not apply to all
// variants, so that variants fall into several groups.
func benchModel() *Model {
	r := rand.New(rand.NewPCG(3, 3))
	m := &Model{Features: []Feature{{"a", make([]string, 3)}, {"b", make([]string, 2)}}}
	for v := range 10 {
		m.Variants = append(m.Variants, Variant{fmt.Sprint(v), 1 + r.Float64(), []int{v % 3, v % 2}})
	}
	for h := range 4 {
		m.Histories = append(m.Histories, History{fmt.Sprint(h), 1 + r.Float64()})
	}
	for i := range 30 {
		p := Point{ID: fmt.Sprint(i), Feature: -1}
		for v := range 10 {
			p.Applies = append(p.Applies, i%3 > 0 || v != i/3)
		}
		for s := range 4 {
			x := State{ID: fmt.Sprint(s), Original: s != 2, Complete: s != 3}
			for range 4 {
				x.Odds = append(x.Odds, 0.2+r.Float64()+5*float64(1-min(s, 1)))
			}
			p.States = append(p.States, x)
		}
		m.Points = append(m.Points, p)
	}
	for j := range 20 {
		y := Symptom{ID: fmt.Sprint(j), Leak: 0.01}
		for range 4 {
			y.Causes = append(y.Causes, Cause{r.IntN(30), 1 + r.IntN(3), r.Float64()})
		}
		m.Symptoms = append(m.Symptoms, y)
	}
	return m
}

// benchFindings reports so many symptoms, a tenth of them certain.
func benchFindings(symptoms int) []Finding {
	f := []Finding{{Kind: PointState, Subject: 4, Value: 1, Trust: 0.95}, {Kind: PointHidden, Subject: 7}}
	for j := range symptoms {
		f = append(f, Finding{Kind: SymptomIs, Subject: j, Value: 1, Trust: 0.75})
	}
	return f
}

func BenchmarkInfer(b *testing.B) {
	m := benchModel()
	for _, n := range []int{0, 3, 10, 15} {
		e := Gather(m, benchFindings(n), usual)
		b.Run(fmt.Sprint("reported=", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, ok := Infer(m, e); !ok {
					b.Fatal("impossible")
				}
			}
		})
	}
}

// BenchmarkYardstick is what the times of other machines can be read against:
// 20,000 cases of 30 independent points of four states, drawn the plain way, each
// by a float that goes up the running sums. Where the marks for the speed of an
// appraisal were set it took 5.1 ms.
func BenchmarkYardstick(b *testing.B) {
	r := rand.New(rand.NewPCG(3, 3))
	var sums [30][4]float64 // the last one is never passed
	for i := range sums {
		rest := 0.2 + 0.2*r.Float64() // of the states that are not sound
		sums[i] = [4]float64{1 - rest, 1 - rest/2, 1 - rest/4, 2}
	}
	cases := make([][30]uint8, 20000)
	for b.Loop() {
		for k := range cases {
			for i := range sums {
				x, s := r.Float64(), uint8(0)
				for x >= sums[i][s] {
					s++
				}
				cases[k][i] = s
			}
		}
	}
}

func BenchmarkDraw(b *testing.B) {
	m := benchModel()
	for _, row := range []struct{ draws, reported int }{{20000, 0}, {20000, 3}, {20000, 10}, {1000, 0}, {1000, 3}} {
		p, _ := Infer(m, Gather(m, benchFindings(row.reported), usual))
		b.Run(fmt.Sprintf("%dx30/reported=%d", row.draws, row.reported), func(b *testing.B) {
			b.ReportAllocs()
			for seed := uint64(0); b.Loop(); seed++ {
				p.Draw(row.draws, seed)
			}
		})
	}
}

func BenchmarkSymptomChance(b *testing.B) {
	m := benchModel()
	p, _ := Infer(m, Gather(m, benchFindings(3), usual))
	for _, draws := range []int{20000, 100} {
		c, out := p.Draw(draws, 1), make([]float64, draws)
		for j, report := range map[int]string{0: "reported", 5: "silent"} {
			b.Run(fmt.Sprintf("%dx4/%s", draws, report), func(b *testing.B) {
				for b.Loop() {
					p.SymptomChance(j, c, out)
				}
			})
		}
	}
}

func BenchmarkEnumerate(b *testing.B) {
	m := benchModel()
	m.Variants = m.Variants[:1]
	m.Points = m.Points[:15]
	for j := range m.Symptoms {
		for c := range m.Symptoms[j].Causes {
			m.Symptoms[j].Causes[c].Point %= 15
		}
	}
	f := benchFindings(3)
	for i := range 8 {
		f = append(f, Finding{Kind: PointState, Subject: 14 - i, Value: i % 4, Trust: 1})
	}
	p, _ := Infer(m, Gather(m, f, usual))
	c, _ := p.Enumerate(50000)
	b.Run(fmt.Sprint("outcomes=", len(c.Weight)), func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			p.Enumerate(50000)
		}
	})
}
