package belief

import "math/rand/v2"

// stream keeps these draws apart from others made with the same seed.
const stream = 0x6c6f7467617567 // "lotgaug"

// Draw draws n independent joint outcomes from the posterior, exactly: first
// variant and history, then the points column by column, those that a report
// ties together each given the ones before. They come grouped by variant. The
// same seed gives the same draws on every platform. The model must pass Check,
// or variants and states may not fit into bytes.
func (p *Posterior) Draw(n int, seed uint64) *Cases {
	d := newDrawer(p, max(n, 0), seed)
	from := 0
	counts := d.counts()
	for v, g := range p.of {
		if g < 0 {
			continue
		}
		for k := range p.kept[g] {
			if count := counts[0]; count > 0 {
				d.cell(v, k, from, from+count)
				from += count
			}
			counts = counts[1:]
		}
	}
	return d.out
}

// A drawer fills cases from one source of random bits, the PCG generator of the
// standard library (https://pkg.go.dev/math/rand/v2#PCG; O'Neill, PCG: a family
// of simple fast space-efficient statistically good algorithms for random number
// generation, Harvey Mudd College HMC-CS-2014-0905, 2014).
type drawer struct {
	p     *Posterior
	src   *rand.PCG
	out   *Cases
	mask  []int // per case of the cell at hand: symptoms explained so far
	w     walker
	stage stages
	c     cell     // scratch for the walk
	t     []uint64 // scratch for thresholds, by mask
}

func newDrawer(p *Posterior, n int, seed uint64) *drawer {
	out := &Cases{Weight: make([]float64, n), Variant: make([]uint8, n), State: make([][]uint8, len(p.f.m.Points))}
	for k := range out.Weight {
		out.Weight[k] = 1 / float64(n)
	}
	flat := make([]uint8, n*len(out.State))
	for i := range out.State {
		out.State[i] = flat[i*n : (i+1)*n : (i+1)*n]
	}
	return &drawer{p: p, src: rand.NewPCG(seed, stream), out: out, w: walker{f: p.f}, c: p.f.newCells(1)[0]}
}

// counts draws how many cases fall on each variant and scene. Counting them
// first spares sorting them afterwards.
func (d *drawer) counts() []int {
	var w []float64
	for v, g := range d.p.of {
		if g < 0 {
			continue
		}
		for _, x := range d.p.kept[g] {
			w = append(w, float64(d.p.variants[v]*x))
		}
	}
	return tally(d.src, thresholds(nil, w), len(d.out.Weight), len(w))
}

// cell draws the states of the cases from..to, all of one variant and scene,
// column by column.
func (d *drawer) cell(v, scene, from, to int) {
	for i := from; i < to; i++ {
		d.out.Variant[i] = uint8(v)
	}
	g := d.p.of[v]
	group, c := d.p.groups[g], &d.p.cells[g][scene]
	var t []uint64
	for i, column := range d.out.State {
		column = column[from:to]
		switch {
		case !group.applies[i]:
			for k := range column {
				column[k] = NotApplicable
			}
		case group.plan.step[i] < 0:
			t = thresholds(t[:0], c.q[d.p.f.off[i]:d.p.f.off[i+1]])
			fill(d.src, column, t)
		}
	}
	d.walk(group.plan, c, from, to)
}
