package belief

// A plan is the order of the walk for one group: which points are walked at
// all (those that can cause an open symptom), in which order, and when each
// symptom's bit is opened and closed.
type plan struct {
	steps []step
	at    []int // message k, before step k, is at[k]:at[k+1] of a flat buffer
	wide  int   // most bits open at once
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
}

// A move is that a state sets a symptom's bit with probability p.
type move struct {
	bit     int
	symptom int
	p       float64
}

// planner holds what the greedy ordering needs.
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
// Disc. Meth. 8, 1987); the answer does not depend on it, only the time.
func (f *frame) newPlan(g *group) *plan {
	p := &planner{f: f, left: make([]int, len(f.links)), touch: make([][]int, len(f.m.Points)), plan: &plan{at: []int{0, 1}}}
	for _, j := range f.open {
		for _, i := range f.links[j].points {
			if g.applies[i] {
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

// next returns the point to walk next, -1 when all are walked.
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

// walk adds the steps for point i.
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
	p.add(step{kind: weighing, point: i, moves: moves})
	for _, j := range p.touch[i] {
		if p.left[j]--; p.left[j] == 0 {
			p.close(j)
		}
	}
	p.touch[i] = nil
}

func (p *planner) open(j int) {
	p.live = append(p.live, j)
	p.plan.wide = max(p.plan.wide, len(p.live))
	p.add(step{kind: opening, symptom: j})
}

func (p *planner) close(j int) {
	k := p.position(j)
	p.live = append(p.live[:k], p.live[k+1:]...)
	p.add(step{kind: closing, symptom: j, bit: 1 << k})
}

// add appends a step; what comes out of it has one entry per mask of the bits
// open afterwards.
func (p *planner) add(s step) {
	p.plan.steps = append(p.plan.steps, s)
	last := p.plan.at[len(p.plan.at)-1]
	p.plan.at = append(p.plan.at, last+1<<len(p.live))
}
