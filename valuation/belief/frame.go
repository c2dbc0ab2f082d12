package belief

import "slices"

// A frame is a model with its evidence, laid out for arithmetic: priors add up
// to one, causes are tables, reports are sorted by what they ask of the walk.
// States of all points lie one after the other in flat tables: state s of
// point i is at off[i]+s.
type frame struct {
	m     *Model
	e     *Evidence
	off   []int
	prior [][]float64 // [history][flat]: P(state|history)
	odds  []float64   // P(history)
	made  []float64   // P(variant)·likelihood
	links []link      // one per symptom
	open  []int       // symptoms that the walk must explain
	still scaled      // likelihood that no state can change
	cheap int         // plan size up to which no point is cut out
}

// A link is a symptom with its causes by point.
type link struct {
	leak   float64
	points []int     // points with a cause, ascending
	p      []float64 // flat: probability that the state brings it about
	there  float64   // P(reports|there)
	not    float64   // P(reports|not there)
}

// reported says whether the reports tell anything about the symptom.
func (l *link) reported() bool { return l.there != l.not }

func newFrame(m *Model, e *Evidence, cheap int) *frame {
	f := &frame{m: m, e: e, off: make([]int, len(m.Points)+1), still: one, cheap: cheap}
	for i := range m.Points {
		f.off[i+1] = f.off[i] + len(m.Points[i].States)
	}
	f.weighPriors()
	f.links = make([]link, len(m.Symptoms))
	for j := range m.Symptoms {
		f.connect(j)
	}
	return f
}

// weighPriors fills prior, odds and made. What is known of the variant itself
// goes into made at once, since nothing else of the model depends on it.
func (f *frame) weighPriors() {
	f.odds = make([]float64, len(f.m.Histories))
	f.prior = make([][]float64, len(f.m.Histories))
	flat := make([]float64, f.states()*len(f.m.Histories))
	for h := range f.m.Histories {
		f.odds[h] = f.m.Histories[h].Odds
		f.prior[h] = flat[h*f.states() : (h+1)*f.states()]
		for i := range f.m.Points {
			row := f.prior[h][f.off[i]:f.off[i+1]]
			for s := range row {
				row[s] = f.m.Points[i].States[s].Odds[h]
			}
			share(row)
		}
	}
	share(f.odds)
	f.made = make([]float64, len(f.m.Variants))
	for v := range f.made {
		f.made[v] = f.m.Variants[v].Made
	}
	share(f.made)
	for v := range f.made {
		f.made[v] = float64(f.made[v] * f.e.Variant[v])
	}
}

// connect fills the link of symptom j and sorts it by its reports:
//   - silent (A = B): they say nothing, or there are none;
//   - certainly absent (A = 0): they weigh B·P₀, a product over points, so that
//     each state can be weighed by itself (in newGroup);
//   - open: they need an explanation.
func (f *frame) connect(j int) {
	y, l := &f.m.Symptoms[j], &f.links[j]
	*l = link{leak: y.Leak, p: make([]float64, f.states()), there: f.e.Symptom[j][0], not: f.e.Symptom[j][1]}
	for _, c := range y.Causes {
		// Two causes by one state are independent: 1-(1-p)(1-q), without the
		// cancellation.
		at := &l.p[f.off[c.Point]+c.State]
		*at += float64((1 - *at) * c.Strength)
		l.points = append(l.points, c.Point)
	}
	slices.Sort(l.points)
	l.points = slices.Compact(l.points)
	switch {
	case !l.reported():
		f.still = f.still.times(l.there)
	case l.there == 0:
		f.still = f.still.times(float64(l.not * (1 - l.leak)))
	default:
		f.open = append(f.open, j)
	}
}

// states is the number of states of all points.
func (f *frame) states() int { return f.off[len(f.off)-1] }

// share scales weights to sum to one; zeros stay zeros. Dividing by the largest
// first keeps the sum from overflowing.
func share(w []float64) {
	top := 0.0
	for _, x := range w {
		top = max(top, x)
	}
	if top == 0 {
		return
	}
	sum := 0.0
	for i := range w {
		w[i] /= top
		sum += w[i]
	}
	for i := range w {
		w[i] /= sum
	}
}
