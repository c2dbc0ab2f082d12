package belief

import "slices"

// A group is the variants that have the same points and the same evidence on
// them. Given history and group, states do not depend on the variant, so all
// the work is done once a group, and most families have few: an option seen
// divides the variants in two, whatever their number.
type group struct {
	applies []bool    // per point
	like    []float64 // flat: likelihood of each state, absent symptoms folded in
	weight  float64   // Σ made
	plan    *plan
	scenes  []scene
}

// A scene is what is given when a group's walk is taken: a history, and the
// states of the points that the plan cuts out.
type scene struct {
	history int
	state   []int // one per cut point
}

// groups sorts the variants that are still possible into groups; of[v] is the
// group of variant v, -1 where it is ruled out already.
func (f *frame) groups() (gs []*group, of []int) {
	of = make([]int, len(f.m.Variants))
	var first []int // a variant of each group
	for v := range of {
		of[v] = -1
		if f.made[v] == 0 {
			continue
		}
		g := slices.IndexFunc(first, func(w int) bool { return f.alike(v, w) })
		if g < 0 {
			g = len(gs)
			gs = append(gs, f.newGroup(v))
			first = append(first, v)
		}
		of[v] = g
		gs[g].weight += f.made[v]
	}
	return gs, of
}

// alike says whether two variants belong in one group. Evidence on points that
// they lack does not count: it has been weighed in Variant.
func (f *frame) alike(v, w int) bool {
	for i := range f.m.Points {
		if f.m.Points[i].Applies[v] != f.m.Points[i].Applies[w] {
			return false
		}
		if f.m.Points[i].Applies[v] && !slices.Equal(f.e.Point[v][i], f.e.Point[w][i]) {
			return false
		}
	}
	return true
}

// newGroup lays out the likelihoods of variant v and plans its walk.
func (f *frame) newGroup(v int) *group {
	g := &group{applies: make([]bool, len(f.m.Points)), like: make([]float64, f.states())}
	for i := range f.m.Points {
		if g.applies[i] = f.m.Points[i].Applies[v]; !g.applies[i] {
			continue
		}
		for s, at := 0, f.off[i]; at < f.off[i+1]; s, at = s+1, at+1 {
			g.like[at] = 1
			if e := f.e.Point[v][i]; e != nil {
				g.like[at] = e[s]
			}
		}
	}
	for j := range f.links {
		if l := &f.links[j]; l.reported() && l.there == 0 {
			for _, i := range l.points {
				for at := f.off[i]; at < f.off[i+1]; at++ {
					g.like[at] *= 1 - l.p[at]
				}
			}
		}
	}
	g.plan = f.cutPlan(g)
	for h := range f.odds {
		g.scenes = append(g.scenes, scene{history: h})
	}
	for _, i := range g.plan.cut {
		g.split(f.off[i], f.off[i+1])
	}
	return g
}

// split divides every scene by the possible states of a point, which lie at
// from..to in the flat tables.
func (g *group) split(from, to int) {
	var parts []scene
	for _, x := range g.scenes {
		for at := from; at < to; at++ {
			if g.like[at] > 0 {
				parts = append(parts, scene{x.history, append(slices.Clone(x.state), at-from)})
			}
		}
	}
	g.scenes = parts
}
