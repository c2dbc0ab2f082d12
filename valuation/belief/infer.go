package belief

import (
	"fmt"
	"math"
)

// A Posterior is what is believed given evidence: exact but for rounding. It
// does not change, and may be read by several goroutines at once.
type Posterior struct {
	f        *frame
	groups   []*group
	of       []int       // group of each variant, -1 where ruled out
	cells    [][]cell    // [group][scene]
	kept     [][]float64 // [group][scene]: P(scene|group, evidence)
	variants []float64
	log      float64
}

// Infer works out the posterior. It reports false where the evidence has
// probability zero, or is a Tangle. The model must pass Check, and the evidence
// fit it.
func Infer(m *Model, e *Evidence) (*Posterior, bool) {
	p, err := infer(m, e, cheap)
	return p, err == nil
}

// A Tangle is an error: so many reported symptoms share causes that an exact
// answer would take too long. Symptoms that are certain to be absent never
// count.
type Tangle struct {
	Open int // reported symptoms that wait for an explanation at once
}

// Error says what to do about it.
func (t *Tangle) Error() string {
	return fmt.Sprintf("%d reported symptoms share causes, too many to explain at once: leave out the reports that tell least", t.Open)
}

// infer is Infer with the reason why not, a *Contradiction without findings or
// a *Tangle.
func infer(m *Model, e *Evidence, cheap int) (*Posterior, error) {
	f := newFrame(m, e, cheap)
	p := &Posterior{f: f}
	if f.still.m == 0 {
		return nil, &Contradiction{}
	}
	p.groups, p.of = f.groups()
	for _, g := range p.groups {
		if g.plan.cost > bearable {
			return nil, &Tangle{g.plan.wide}
		}
	}
	p.fill()
	if !p.weigh() {
		return nil, &Contradiction{}
	}
	return p, nil
}

// fill works out every cell.
func (p *Posterior) fill() {
	w := &walker{f: p.f}
	for _, g := range p.groups {
		row := p.f.newCells(len(g.scenes))
		for k, x := range g.scenes {
			if p.f.odds[x.history] == 0 || !w.run(g, x, &row[k]) {
				row[k].z = scaled{}
			}
		}
		p.cells = append(p.cells, row)
	}
}

// newCells makes n empty cells.
func (f *frame) newCells(n int) []cell {
	cells := make([]cell, n)
	states, symptoms := f.states(), len(f.links)
	flat := make([]float64, 2*n*(states+symptoms))
	cut := func(n int) []float64 {
		out := flat[:n:n]
		flat = flat[n:]
		return out
	}
	for k := range cells {
		cells[k] = cell{q: cut(states), marg: cut(states), sign: cut(symptoms), leak: cut(symptoms)}
	}
	return cells
}

// weigh turns the evidence of the cells into probabilities by Bayes' rule:
//
//	P(v, scene | evidence) ∝ made(v)·P(history)·z(group of v, scene)
//
// It reports false where all are zero.
func (p *Posterior) weigh() bool {
	var zs []scaled
	for _, row := range p.cells {
		for k := range row {
			zs = append(zs, row[k].z)
		}
	}
	top, ok := largest(zs)
	if !ok {
		return false
	}
	total := make([]float64, len(p.groups))
	sum := 0.0
	for g, row := range p.cells {
		kept := make([]float64, len(row))
		for k := range row {
			kept[k] = float64(p.f.odds[p.groups[g].scenes[k].history] * row[k].z.over(top))
			total[g] += kept[k]
		}
		share(kept)
		p.kept = append(p.kept, kept)
		sum += float64(total[g] * p.groups[g].weight)
	}
	if !(sum > 0) {
		return false
	}
	p.variants = make([]float64, len(p.of))
	for v, g := range p.of {
		if g >= 0 {
			p.variants[v] = p.f.made[v] * total[g] / sum
		}
	}
	p.log = math.Log(sum) + float64(float64(top+p.f.still.e)*math.Ln2) + math.Log(p.f.still.m)
	return true
}
