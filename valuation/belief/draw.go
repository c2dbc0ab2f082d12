package belief

import (
	"math/rand/v2"
	"slices"
)

// stream keeps these draws apart from others made with the same seed.
const stream = 0x6c6f7467617567 // "lotgaug"

// Draw draws n independent joint outcomes from the posterior, exactly: first
// variant and history, then the points column by column, those that a report
// ties together each given the ones before. They come grouped by variant. The
// same seed gives the same draws on every platform. The model must pass Check,
// or variants and states may not fit into bytes.
func (p *Posterior) Draw(n int, seed uint64) *Cases {
	d := newDrawer(p, max(n, 0), seed)
	spans := d.spans()
	for g := range p.groups {
		for k := range p.kept[g] {
			d.cell(g, k, spans[g][k])
		}
	}
	return d.out
}

// A span is the cases from..to, all of one variant.
type span struct{ from, to int }

// A drawer fills cases from one source of random bits, the PCG generator of the
// standard library (https://pkg.go.dev/math/rand/v2#PCG; O'Neill, PCG: a family
// of simple fast space-efficient statistically good algorithms for random number
// generation, Harvey Mudd College HMC-CS-2014-0905, 2014). It draws the cases of
// one group and scene together, whatever their variant, a column after the
// other, and deals each column out to the variants.
type drawer struct {
	p      *Posterior
	src    *rand.PCG
	out    *Cases
	column []uint8 // per case of the cell at hand: its state
	mask   []int   // and the symptoms explained so far
	inv    inversion
	w      walker
	ends   outcomes
	stage  stages
	c      cell      // scratch for the walk
	weight []float64 // scratch for weights, by state
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
	src := rand.NewPCG(seed, stream)
	return &drawer{p: p, src: src, out: out, inv: inversion{src: src}, w: walker{f: p.f}, c: p.f.newCells(1)[0]}
}

// spans draws how many cases fall on each variant and scene, and returns where
// they are, by group and scene. Counting them first spares sorting them
// afterwards.
func (d *drawer) spans() [][][]span {
	out := make([][][]span, len(d.p.groups))
	for g := range out {
		out[g] = make([][]span, len(d.p.kept[g]))
	}
	counts := d.counts()
	from := 0
	for v, g := range d.p.of {
		if g < 0 {
			continue
		}
		for k := range d.p.kept[g] {
			if to := from + counts[0]; to > from {
				out[g][k] = append(out[g][k], span{from, to})
				fillBytes(d.out.Variant[from:to], uint8(v))
				from = to
			}
			counts = counts[1:]
		}
	}
	return out
}

// counts draws how many cases fall on each variant and scene.
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

// cell draws the states of the cases of one group and scene, column by column.
func (d *drawer) cell(g, scene int, spans []span) {
	n := 0
	for _, s := range spans {
		n += s.to - s.from
	}
	if n == 0 {
		return
	}
	d.column = slices.Grow(d.column[:0], n)[:n]
	d.mask = slices.Grow(d.mask[:0], n)[:n]
	clear(d.mask)
	group, c := d.p.groups[g], &d.p.cells[g][scene]
	for i := range d.out.State {
		switch {
		case !group.applies[i]:
			fillBytes(d.column, NotApplicable)
			d.deal(i, spans)
		case group.plan.step[i] < 0:
			q := c.q[d.p.f.off[i]:d.p.f.off[i+1]]
			d.inv.draw(d.column, d.mask, 1, len(q), func(int) []float64 { return q })
			d.deal(i, spans)
		}
	}
	d.walk(group.plan, c, spans)
}

// deal deals the states drawn for point i out to the variants.
func (d *drawer) deal(i int, spans []span) {
	column := d.column
	for _, s := range spans {
		column = column[copy(d.out.State[i][s.from:s.to], column):]
	}
}

func fillBytes(out []uint8, x uint8) {
	for k := range out {
		out[k] = x
	}
}
