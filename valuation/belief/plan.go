package belief

import "slices"

// A plan is the order of the walk for one group: which points are walked at
// all (those that can cause an open symptom), in which order, and when each
// symptom's bit is opened and closed. Where pickup and motor can cause "does
// not move", motor and gears "noisy", and both are reported, it is
//
//	open "does not move", weigh pickup,
//	open "noisy", weigh motor, close "does not move",
//	weigh gears, close "noisy"
//
// and the messages in between have 1, 2, 2, 4, 4, 2, 2 and 1 entries.
type plan struct {
	steps []step
	at    []int // message k, before step k, is at[k]:at[k+1] of a flat buffer
	step  []int // per point: the step that weighs it, -1 for none
	wide  int   // most bits open at once
	cut   []int // points taken out of the walk: their state is given
	cost  int   // entries of all messages, over all walks
}

type stepKind uint8

const (
	opening  stepKind = iota + 1 // a symptom gets the top bit, set by its leak
	weighing                     // a point's states are summed over
	closing                      // a symptom's bit is weighed by the reports and dropped
)

type step struct {
	kind    stepKind
	symptom int      // opening and closing
	bit     int      // closing: the symptom's bit, 1<<position
	point   int      // weighing
	moves   [][]move // weighing: what each state may set
	reach   int      // weighing: how many symptoms the point can cause
}

// A move is that a state sets a symptom's bit with probability p. The bit is
// the symptom's at the time the point is weighed; it moves when others close.
type move struct {
	bit     int
	symptom int
	p       float64
}

// planner holds what the greedy ordering needs while a plan is made.
type planner struct {
	f     *frame
	left  []int   // per symptom: its points not yet walked
	touch [][]int // per point: open symptoms it can cause
	live  []int   // symptoms whose bit is open, by position
	plan  *plan
}

// newPlan orders the walk greedily: always the point that leaves the fewest
// symptoms open. The best order is hard to find (Arnborg, Corneil and
// Proskurowski, Complexity of finding embeddings in a k-tree, SIAM J. Alg.
// Disc. Meth. 8, 1987, pp. 277-284, doi:10.1137/0608024); the answer does not
// depend on it, only the time.
func (f *frame) newPlan(applies []bool, cut []int) *plan {
	p := &planner{f: f, left: make([]int, len(f.links)), touch: make([][]int, len(f.m.Points))}
	p.plan = &plan{at: []int{0, 1}, step: make([]int, len(f.m.Points)), cut: cut}
	for i := range p.plan.step {
		p.plan.step[i] = -1
	}
	for _, j := range f.open {
		for _, i := range f.links[j].points {
			if applies[i] && !slices.Contains(cut, i) {
				p.left[j]++
				p.touch[i] = append(p.touch[i], j)
			}
		}
	}
	for _, j := range f.open {
		if p.left[j] == 0 {
			p.open(j)
			p.close(j)
		}
	}
	for i := p.next(); i >= 0; i = p.next() {
		p.walk(i)
	}
	return p.plan
}

// size is the number of entries of all messages.
func (p *plan) size() int { return p.at[len(p.at)-1] }

const (
	// cheap is a plan size up to which cutting is not tried.
	cheap = 1 << 12
	// cuts is how many points are cut out at most.
	cuts = 4
	// bearable is the most entries, over all walks, that a plan may have for
	// one history: a second or two for a family of ten variants.
	bearable = 1 << 21
)

// cutPlan is newPlan with points cut out where that saves work. A point that
// can cause many of the symptoms keeps them all open at once; given its state
// they fall apart, and the walk is taken once for each of its states (cutset
// conditioning; Pearl 1988, section 4.4.2, pp. 204-210). Two such points help
// only when both are cut, so the search goes on past a cut that does not pay.
func (f *frame) cutPlan(g *group) *plan {
	best := f.newPlan(g.applies, nil)
	best.cost = best.size()
	for p := best; best.cost > f.cheap && len(p.cut) < cuts; {
		hub := p.hub()
		if hub < 0 {
			break
		}
		p = f.newPlan(g.applies, append(slices.Clone(p.cut), hub))
		if p.cost = p.size() * f.walks(g, p.cut); p.cost < best.cost {
			best = p
		}
	}
	return best
}

// hub returns the point on the walk that can cause the most symptoms, -1 where
// none is walked.
func (p *plan) hub() int {
	hub, most := -1, 0
	for i, k := range p.step {
		if k >= 0 && p.steps[k].reach > most {
			hub, most = i, p.steps[k].reach
		}
	}
	return hub
}

// walks is how many walks a cut takes: one for each possible state.
func (f *frame) walks(g *group, cut []int) int {
	n := 1
	for _, i := range cut {
		possible := 0
		for _, x := range g.like[f.off[i]:f.off[i+1]] {
			if x > 0 {
				possible++
			}
		}
		n *= max(possible, 1)
	}
	return n
}

// next returns the point to walk next, -1 when all are walked. A point costs a
// bit for each symptom that it opens, and frees one for each of which it is the
// last cause.
func (p *planner) next() int {
	best, cost := -1, 0
	for i, js := range p.touch {
		if len(js) == 0 {
			continue
		}
		c := 0
		for _, j := range js {
			if p.position(j) < 0 {
				c++
			}
			if p.left[j] == 1 {
				c--
			}
		}
		if best < 0 || c < cost {
			best, cost = i, c
		}
	}
	return best
}

// position returns the bit position of symptom j, -1 where it is not open.
func (p *planner) position(j int) int {
	for k, x := range p.live {
		if x == j {
			return k
		}
	}
	return -1
}

// walk adds the steps for point i: it opens the symptoms that are not open yet,
// and closes those that no other point can cause.
func (p *planner) walk(i int) {
	for _, j := range p.touch[i] {
		if p.position(j) < 0 {
			p.open(j)
		}
	}
	off := p.f.off[i]
	moves := make([][]move, p.f.off[i+1]-off)
	for s := range moves {
		for _, j := range p.touch[i] {
			if strength := p.f.links[j].p[off+s]; strength > 0 {
				moves[s] = append(moves[s], move{1 << p.position(j), j, strength})
			}
		}
	}
	p.plan.step[i] = len(p.plan.steps)
	p.add(step{kind: weighing, point: i, moves: moves, reach: len(p.touch[i])})
	for _, j := range p.touch[i] {
		if p.left[j]--; p.left[j] == 0 {
			p.close(j)
		}
	}
	p.touch[i] = nil
}

// open gives symptom j the next bit.
func (p *planner) open(j int) {
	p.live = append(p.live, j)
	p.plan.wide = max(p.plan.wide, len(p.live))
	p.add(step{kind: opening, symptom: j})
}

// close takes symptom j's bit away; the bits above it move down.
func (p *planner) close(j int) {
	k := p.position(j)
	p.live = append(p.live[:k], p.live[k+1:]...)
	p.add(step{kind: closing, symptom: j, bit: 1 << k})
}

// add appends a step; what comes out of it has one entry per mask of the bits
// open afterwards. (With more than 40 of them the plan is not bearable, and the
// sum must not overflow.)
func (p *planner) add(s step) {
	p.plan.steps = append(p.plan.steps, s)
	last := p.plan.at[len(p.plan.at)-1]
	p.plan.at = append(p.plan.at, last+1<<min(len(p.live), 40))
}
