package valuation

// The lanes: the model on its way to one sale, as it is found, got running, or
// with all put right.
const (
	laneFound = iota
	laneRunning
	laneRestored
	lanes
)

// laneOf is the lane that a route goes by; false where it is no sale as a whole.
func laneOf(route int) (lane int, sold bool) {
	switch route {
	case sellRestored:
		return laneRestored, true
	case sellRunning:
		return laneRunning, true
	case sellAsFound:
		return laneFound, true
	}
	return 0, false
}

// The figures of a tally: of each lane the weighted score and the product of the
// factors that the model would have then, and the sums of a [cell].
const (
	scores      = 0
	originality = iota + lanes - 1
	completeness
	yielded // what the yields bring net, at mean prices
	allParts
	allSpend
	allTime
	runParts
	runSpend
	runTime
	factors
	figureCount = factors + lanes
)

// figures are one figure of each case of a handful.
type figures [handful]float64

// tally is what the states of a handful of cases add up to.
type tally [figureCount]figures

// changes are what a state changes in the tally of the cases that have it; what
// it leaves alone is not among them.
type changes struct{ terms, factors []change }

type change struct {
	figure int
	by     float64
}

// figures are the cell as a tally has it.
func (c *cell) figures() (out [figureCount]float64) {
	for lane, x := range [lanes]lane{c.found, c.run, c.restored} {
		out[scores+lane], out[factors+lane] = x.score, x.factor
	}
	out[originality], out[completeness], out[yielded] = c.original, c.complete, c.yieldNet
	out[allParts], out[allSpend], out[allTime] = c.cost.parts, c.cost.spend, c.cost.time
	out[runParts], out[runSpend], out[runTime] = c.runCost.parts, c.runCost.spend, c.runCost.time
	return out
}

// changesOf are those of cells that are differences from the sound one.
func changesOf(cells []cell) []changes {
	out := make([]changes, len(cells))
	room := make([]change, 0, len(cells)*figureCount/3) // most figures are left alone
	for i := range cells {
		from, x := len(room), cells[i].figures()
		for figure, by := range x[:factors] {
			if by != 0 {
				room = append(room, change{figure, by})
			}
		}
		middle := len(room)
		for lane, by := range x[factors:] {
			if by != 1 {
				room = append(room, change{factors + lane, by})
			}
		}
		out[i] = changes{room[from:middle], room[middle:]}
	}
	return out
}

// sum adds up a handful: sound ones, changed by their faults.
func (t *tally) sum(d *deal) {
	for figure, x := range d.account.start {
		t[figure].fill(x)
	}
	for _, f := range d.faults {
		t.change(d.with(f), &d.account.changes[f])
	}
}

// change makes the changes to some cases.
func (t *tally) change(cases []uint8, by *changes) {
	for _, x := range by.terms {
		t[x.figure].add(cases, x.by)
	}
	for _, x := range by.factors {
		t[x.figure].multiply(cases, x.by)
	}
}

func (f *figures) fill(x float64) {
	for k := range f {
		f[k] = x
	}
}

// add adds to the figure of some cases. No other loop of an appraisal runs as often;
// inlined into others it would want for registers.
//
//go:noinline
func (f *figures) add(cases []uint8, x float64) {
	for _, k := range cases {
		f[k%handful] += x
	}
}

func (f *figures) multiply(cases []uint8, x float64) {
	for _, k := range cases {
		f[k%handful] *= x
	}
}
