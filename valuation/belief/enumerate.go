package belief

import (
	"bytes"
	"cmp"
	"slices"
)

// Enumerate lists all joint outcomes of variant and states, histories summed
// out, grouped by variant. Outcomes of weight zero are left out. It reports
// false where there could be more than limit outcomes, counting the states
// that are possible one by one, or where a variant or state is beyond what
// Cases can hold.
func (p *Posterior) Enumerate(limit int) (*Cases, bool) {
	if !p.holds() || p.outcomes(limit) > limit {
		return nil, false
	}
	all := &Cases{Exact: true, State: make([][]uint8, len(p.f.m.Points))}
	for g := range p.groups {
		if p.chance(g) == 0 {
			continue
		}
		c := p.expand(g)
		for v := range p.of {
			if p.of[v] == g && p.variants[v] > 0 {
				all.take(c, v, p.variants[v])
			}
		}
	}
	return all, true
}

// holds says whether the indices of variants and states fit into the bytes of
// Cases.
func (p *Posterior) holds() bool {
	for i := range p.f.m.Points {
		if len(p.f.m.Points[i].States) > NotApplicable {
			return false
		}
	}
	return len(p.f.m.Variants) <= 256
}

// outcomes counts joint outcomes by multiplying the possible states of the
// points, and stops counting above limit, before anything can overflow.
func (p *Posterior) outcomes(limit int) int {
	sum := 0
	for v, g := range p.of {
		if g < 0 || p.variants[v] == 0 {
			continue
		}
		n := 1
		for i := range p.f.m.Points {
			n *= max(1, len(p.possible(g, i)))
			if sum+n > limit {
				return limit + 1
			}
		}
		sum += n
	}
	return sum
}

// possible lists the states of point i that have weight under group g.
func (p *Posterior) possible(g, i int) []int {
	var states []int
	for s := range p.f.m.Points[i].States {
		for k, x := range p.kept[g] {
			if x > 0 && p.cells[g][k].q[p.f.off[i]+s] > 0 {
				states = append(states, s)
				break
			}
		}
	}
	return states
}

// take appends the outcomes of a group as those of variant v: variants of a
// group have the same.
func (c *Cases) take(g *Cases, v int, weight float64) {
	for _, w := range g.Weight {
		c.Weight = append(c.Weight, float64(w*weight))
		c.Variant = append(c.Variant, uint8(v))
	}
	for i := range c.State {
		c.State[i] = append(c.State[i], g.State[i]...)
	}
}

// An expander walks the tree of joint outcomes of one group, carrying along
// the path what the leaf needs: the weight under each scene, and for each open
// symptom how likely the states chosen so far make it. The weight of a leaf is
//
//	(Σ over scenes of Π q) · Π over open symptoms of (A·there + B·absent)
//
// with all histories in the one sum.
type expander struct {
	p        *Posterior
	branches []branch    // one for each depth
	scenes   [][]float64 // [depth][scene]: weight so far
	there    [][]float64 // [depth][open symptom]: chance that it is there
	absent   [][]float64 // and that it is not, apart for the sake of its digits
	path     []uint8     // per point
	out      *Cases
}

// A branch is a point with its possible states.
type branch struct {
	point  int
	states []int
}

// expand lists the outcomes of group g; their weights sum to one.
func (p *Posterior) expand(g int) *Cases {
	x := &expander{p: p, path: make([]uint8, len(p.f.m.Points))}
	x.out = &Cases{State: make([][]uint8, len(p.f.m.Points))}
	for i, applies := range p.groups[g].applies {
		x.path[i] = NotApplicable
		if applies {
			x.branches = append(x.branches, branch{i, p.possible(g, i)})
		}
	}
	// The tree has fewest nodes when it spreads late.
	slices.SortStableFunc(x.branches, func(a, b branch) int { return cmp.Compare(len(a.states), len(b.states)) })
	for range len(x.branches) + 1 {
		x.scenes = append(x.scenes, make([]float64, len(p.groups[g].scenes)))
		x.there = append(x.there, make([]float64, len(p.f.open)))
		x.absent = append(x.absent, make([]float64, len(p.f.open)))
	}
	x.start(g)
	x.walk(g, 0)
	share(x.out.Weight)
	x.fillSettled()
	return x.out
}

// fillSettled fills the columns that are the same in all outcomes: points that
// are settled, and those that the variants lack.
func (x *expander) fillSettled() {
	for i, column := range x.out.State {
		if column == nil {
			x.out.State[i] = bytes.Repeat(x.path[i:i+1], len(x.out.Weight))
		}
	}
}

// start fills depth 0. A scene's weight is taken without what the walk over
// reported symptoms found, since the leaves weigh those themselves.
func (x *expander) start(g int) {
	var prior []scaled
	for k, scene := range x.p.groups[g].scenes {
		c := &x.p.cells[g][k]
		z := scaled{}
		if c.z.m > 0 {
			z = scaled{c.z.m / c.walk.m, c.z.e - c.walk.e}.times(x.p.f.odds[scene.history])
		}
		prior = append(prior, z)
	}
	top, _ := largest(prior)
	for k := range prior {
		x.scenes[0][k] = prior[k].over(top)
	}
	for k, j := range x.p.f.open {
		x.there[0][k], x.absent[0][k] = x.p.f.links[j].leak, 1-x.p.f.links[j].leak
	}
}

// walk visits the outcomes below depth d, extending the path by each possible
// state of the point at that depth.
func (x *expander) walk(g, d int) {
	if d == len(x.branches) {
		x.emit()
		return
	}
	i := x.branches[d].point
	for _, s := range x.branches[d].states {
		x.path[i] = uint8(s)
		at := x.p.f.off[i] + s
		for k, w := range x.scenes[d] {
			x.scenes[d+1][k] = 0
			if w > 0 {
				x.scenes[d+1][k] = float64(w * x.p.cells[g][k].q[at])
			}
		}
		for k, j := range x.p.f.open {
			strength := x.p.f.links[j].p[at]
			x.there[d+1][k], x.absent[d+1][k] = bring(x.there[d][k], x.absent[d][k], strength)
		}
		x.walk(g, d+1)
	}
}

// emit weighs the outcome at a leaf and adds it, unless it is impossible.
func (x *expander) emit() {
	d := len(x.branches)
	w := 0.0
	for _, k := range x.scenes[d] {
		w += k
	}
	for k, j := range x.p.f.open {
		l := &x.p.f.links[j]
		w *= float64(x.there[d][k]*l.there) + float64(x.absent[d][k]*l.not)
	}
	if w == 0 {
		return
	}
	x.out.Weight = append(x.out.Weight, w)
	for _, b := range x.branches {
		if len(b.states) > 1 {
			x.out.State[b.point] = append(x.out.State[b.point], x.path[b.point])
		}
	}
}
