package valuation

import (
	"lotgauge/valuation/checklist"
)

// ledger holds what every state of every point means in money and score, for
// every variant that may be it, at mean prices. Shapes: cells[variant][point][state].
type ledger struct {
	family *checklist.Family
	market *market
	sell   *sale
	parts  *sale
	sells  []float64 // by part: chance that a harvested one sells
	bench  float64   // home currency a minute
	keep   float64   // what keeping a restored one is worth; NaN-free: 0 where the route is shut

	cells    [][][]cell
	weight   []float64 // by variant: of the points that apply
	takeDown float64   // bench time to take one apart
	open     [routes]bool
}

// cell is one state of one point of one variant. Scores come times weight.
type cell struct {
	score, original, complete float64
	factor                    float64
	cure                      bool // it is not sound and can be put right
	running                   bool // it is put right to get it running
	cost                      cost
	needs                     []supply
	yields                    []supply
	yieldNet                  float64 // what the yields bring net, at mean prices
}

// supply is a number of pieces of a part of the family.
type supply struct {
	part int
	qty  float64
}

// cost is what a remedy costs: parts at mean prices, consumables, bench time.
type cost struct{ parts, spend, time float64 }

func (c cost) total() float64 { return c.parts + c.spend + c.time }

func (c *cost) add(d cost) {
	c.parts += d.parts
	c.spend += d.spend
	c.time += d.time
}

// fill computes the cells of one variant.
func (l *ledger) fill(v int) {
	points := l.family.Points
	l.cells[v] = make([][]cell, len(points))
	for i := range points {
		p := &points[i]
		if !p.Applies[v] {
			continue
		}
		l.weight[v] += p.Weight
		l.cells[v][i] = make([]cell, len(p.States))
		for s := range p.States {
			l.cells[v][i][s] = l.cell(p, s, v)
		}
	}
}

func (l *ledger) cell(p *checklist.Point, s, v int) cell {
	st := &p.States[s]
	c := cell{
		score: p.Weight * st.Score, factor: st.Factor,
		original: p.Weight * float64(bit(st.Original)), complete: p.Weight * float64(bit(st.Complete)),
		cure: s > 0 && !st.Incurable,
	}
	c.running = c.cure && p.NeededToRun
	if c.cure {
		c.needs = supplies(st.Needs, v)
		for _, n := range c.needs {
			c.cost.parts += float64(n.qty * l.market.parts[n.part].Buy.Mean)
		}
		if st.Spend != nil {
			c.cost.spend = l.market.home(*st.Spend)
		}
		c.cost.time = st.Minutes * l.bench
	}
	c.yields = supplies(st.Yields, v)
	for _, y := range c.yields {
		c.yieldNet += float64(y.qty * l.pieceNet(y.part))
	}
	return c
}

// pieceNet is what one harvested piece brings: the mean over its 41 values of
// the net price, times the chance that it sells.
func (l *ledger) pieceNet(part int) float64 {
	q := &l.market.parts[part].Sell
	if l.parts.straight {
		return l.parts.net(q.Mean) * l.sells[part]
	}
	sum := 0.0
	for _, price := range q.Values {
		sum += l.parts.net(price)
	}
	return sum / float64(len(q.Values)) * l.sells[part]
}

func supplies(from []checklist.Supply, v int) []supply {
	var out []supply
	for _, s := range from {
		if s.Part[v] >= 0 {
			out = append(out, supply{part: s.Part[v], qty: float64(s.Qty)})
		}
	}
	return out
}

// gradeAt is the price factor at a condition score of 0 to 100: linear between
// the grades, flat outside.
func gradeAt(grades []checklist.Grade, score float64) float64 {
	last := len(grades) - 1
	switch {
	case last < 0:
		return 1
	case score <= grades[0].Score:
		return grades[0].Factor
	}
	for i := 1; i <= last; i++ {
		if hi := grades[i]; score <= hi.Score {
			lo := grades[i-1]
			return lo.Factor + float64((hi.Factor-lo.Factor)*(score-lo.Score)/(hi.Score-lo.Score))
		}
	}
	return grades[last].Factor
}
