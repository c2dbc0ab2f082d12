package valuation

import (
	"math/rand/v2"
	"testing"

	"lotgauge/valuation/belief"
)

// TestQuickGroupings: each quick way of grouping books what the plain one books,
// in both halves, for any number of cases.
func TestQuickGroupings(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 60 {
		n := 1 + rng.IntN(50)
		q := &asker{cases: &belief.Cases{}, values: [][]float64{nil}}
		definite := []inquiry{{count: 3}, {count: 5}}
		chance := inquiry{count: 2}
		for range n {
			q.cases.Weight = append(q.cases.Weight, rng.Float64())
			q.values[0] = append(q.values[0], 200*rng.Float64()-100)
			chance.chance = append(chance.chance, rng.Float64())
			for i := range definite {
				answer := uint8(rng.IntN(definite[i].count))
				if rng.IntN(4) == 0 {
					answer = belief.NotApplicable // counts as the last answer
				}
				definite[i].answers = append(definite[i].answers, answer)
			}
		}
		for what, about := range map[string][]*inquiry{
			"one": {&definite[1]}, "two": {&definite[0], &definite[1]}, "a chance": {&chance},
		} {
			one, other := q.group(about)
			plainOne, plainOther := newTallied(len(one.weight), 1), newTallied(len(one.weight), 1)
			q.groupAny(about, plainOne, plainOther)
			for cell := range one.weight {
				within(t, what+", weight", one.weight[cell], plainOne.weight[cell], 1e-12)
				within(t, what+", worth", one.worth[cell], plainOne.worth[cell], 1e-11)
				within(t, what+", other weight", other.weight[cell], plainOther.weight[cell], 1e-12)
				within(t, what+", other worth", other.worth[cell], plainOther.worth[cell], 1e-11)
			}
		}
	}
}

// TestPairTable: what a pair comes to by its unusual answers is what it comes to
// case by case.
func TestPairTable(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	for _, exact := range []bool{false, true} {
		const n = 1000
		q := &asker{cases: &belief.Cases{Exact: exact}, values: [][]float64{nil}, g: fixedPrice(5)}
		about := make([]inquiry, 8)
		for range n {
			q.cases.Weight = append(q.cases.Weight, 1.0/n)
			q.values[0] = append(q.values[0], 30*rng.NormFloat64())
			for i := range about {
				about[i].count = 2 + i%4
				answer := i % about[i].count // the usual one
				if rng.IntN(3) == 0 {
					answer = rng.IntN(about[i].count)
				}
				about[i].answers = append(about[i].answers, uint8(answer))
			}
		}
		table := q.newPairTable(about, q.groupEach(about))
		if table.singles == nil {
			t.Fatal("the quick way is not taken")
		}
		for i := range about {
			for j := range i {
				within(t, "worth", table.worth(j, i), q.worth(&about[j], &about[i]), 1e-10)
			}
		}
	}
}

// TestHandfulsAreOfOneVariant: draws are thrown in handfuls of one variant, all
// of them and each once.
func TestHandfulsAreOfOneVariant(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	variants := make([]uint8, 3000)
	for i := 1; i < len(variants); i++ {
		variants[i] = variants[i-1]
		if rng.IntN(200) == 0 {
			variants[i]++
		}
	}
	for from := 0; from < len(variants); {
		to := sameVariant(variants, from, handful)
		if to <= from || to > from+handful || to > len(variants) || variants[to-1] != variants[from] {
			t.Fatalf("from %d to %d", from, to)
		}
		if to < len(variants) && to < from+handful && variants[to] == variants[from] {
			t.Fatalf("from %d to %d: stops short", from, to)
		}
		from = to
	}
}
