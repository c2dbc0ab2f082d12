package belief

import "math"

// A Posterior is what is believed given evidence: exact but for rounding.
type Posterior struct {
	f        *frame
	groups   []*group
	of       []int       // group of each variant, -1 where ruled out
	cells    [][]cell    // [group][history]
	kept     [][]float64 // [group][history]: P(history|group, evidence)
	variants []float64
	log      float64
}

// Infer works out the posterior. It reports false where the evidence has
// probability zero. The model must pass Check and the evidence fit it.
func Infer(m *Model, e *Evidence) (*Posterior, bool) {
	f := newFrame(m, e)
	p := &Posterior{f: f}
	if f.still.m == 0 {
		return nil, false
	}
	p.groups, p.of = f.groups()
	p.fill()
	return p, p.weigh()
}

// fill works out every cell.
func (p *Posterior) fill() {
	w := &walker{f: p.f}
	n, size := len(p.f.odds), 2*p.f.states()+len(p.f.links)
	flat := make([]float64, len(p.groups)*n*size)
	for _, g := range p.groups {
		row := make([]cell, n)
		for h := range row {
			c := &row[h]
			c.q, c.marg, c.sign = flat[:p.f.states()], flat[p.f.states():2*p.f.states()], flat[2*p.f.states():size]
			flat = flat[size:]
			if p.f.odds[h] == 0 || !w.run(g, h, c) {
				c.z = scaled{}
			}
		}
		p.cells = append(p.cells, row)
	}
}

// weigh turns the evidence of the cells into probabilities of variants and
// histories. It reports false where all are zero.
func (p *Posterior) weigh() bool {
	var zs []scaled
	for _, row := range p.cells {
		for h := range row {
			zs = append(zs, row[h].z)
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
		for h := range row {
			kept[h] = p.f.odds[h] * row[h].z.over(top)
			total[g] += kept[h]
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
