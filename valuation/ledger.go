package valuation

import (
	"slices"

	"lotgauge/valuation/checklist"
	"lotgauge/valuation/prices"
)

// ledger holds what every state of every point means in money and score, for
// every variant that may be it, at mean prices.
type ledger struct {
	family *checklist.Family
	market *market
	sell   *sale
	parts  *sale
	sells  []float64                // by part: chance that a harvested one sells
	piece  [][prices.Values]float64 // by part: what a harvested one brings net, chance and all
	bench  float64                  // home currency a minute
	keep   float64                  // what keeping a restored one is worth

	grading  grading
	accounts []account // by variant; empty for those that cannot be it
	takeDown float64   // bench time to take one apart
	open     [routes]bool
	loan     *loan
}

// account is one variant: what it adds up to with every point sound, and what
// every state of every point, cells[point][state], changes against that.
type account struct {
	weight float64 // of the points that apply
	points []int   // that apply
	parts  []int   // that a state may need or yield
	place  []int   // by part of the family: its place among those, counted from 1
	sound  cell
	cells  [][]cell
	all    []cell // those of cells, one after the other
	first  []int  // by point: where its states start in all

	start   [figureCount]float64 // the tally of a sound one
	changes []changes            // of all, in the same order
	goods   []goods
}

// goods are the parts that go with a state.
type goods struct {
	running bool // it is put right to get it running
	needs   []supply
	yields  []supply // in a difference, what the sound one yields counts below zero
}

// cell is what a state adds to the sums. Scores come times weight. For a state
// other than the sound one it is the difference from the sound one, and factors
// are the ratio.
type cell struct {
	found, run, restored lane // sold as it is, got running, with all put right
	original, complete   float64
	yieldNet             float64 // what the yields bring net, at mean prices
	cost, runCost        cost    // of putting it right; of that, what it takes to get it running
	cure                 bool    // it is not sound and can be put right
	*goods
}

// supply is a number of pieces of a part of the family.
type supply struct {
	part int
	qty  float64
}

// cost is what a remedy costs: parts at mean prices, consumables, bench time.
type cost struct{ parts, spend, time float64 }

func (c cost) total() float64 { return c.parts + c.spend + c.time }

// fill computes the account of one variant.
func (l *ledger) fill(v int) {
	m, points := &l.accounts[v], l.family.Points
	states := 0
	for i := range points {
		states += len(points[i].States)
	}
	m.all, m.goods = make([]cell, 0, states), make([]goods, states)
	m.cells, m.first = make([][]cell, len(points)), make([]int, len(points))
	m.sound.found, m.sound.goods = unchanged, &goods{}
	for i := range points {
		if points[i].Applies[v] {
			l.enter(m, i, v)
		}
	}
	m.sound.run, m.sound.restored = m.sound.found, m.sound.found
	m.start, m.changes = m.sound.figures(), changesOf(m.all)
	m.parts = m.used()
	m.place = make([]int, len(l.family.Parts))
	for i, part := range m.parts {
		m.place[part] = i + 1
	}
}

// enter enters point i of variant v into its account.
func (l *ledger) enter(m *account, i, v int) {
	p := &l.family.Points[i]
	m.weight += p.Weight
	m.points = append(m.points, i)
	m.first[i] = len(m.all)
	for s := range p.States {
		m.all = append(m.all, l.cell(p, s, v, &m.goods[len(m.all)]))
	}
	cells := m.all[m.first[i]:]
	m.cells[i] = cells
	m.sound.put(&cells[0])
	for s := 1; s < len(cells); s++ {
		cells[s].against(&cells[0])
	}
}

// used are the parts that any state needs or yields.
func (m *account) used() []int {
	var parts []int
	for i := range m.all {
		for _, x := range slices.Concat(m.all[i].needs, m.all[i].yields) {
			parts = append(parts, x.part)
		}
	}
	slices.Sort(parts)
	return slices.Compact(parts)
}

// cell is what a state of variant v adds; its parts go into goods.
func (l *ledger) cell(p *checklist.Point, s, v int, goods *goods) cell {
	st := &p.States[s]
	c := cell{
		found:    lane{p.Weight * st.Score, st.Factor},
		original: p.Weight * float64(bit(st.Original)), complete: p.Weight * float64(bit(st.Complete)),
		cure:  s > 0 && !st.Incurable,
		goods: goods,
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
		c.yieldNet += float64(y.qty * mean(l.piece[y.part][:]))
	}
	return c
}

// put adds a sound point to the sums of a sound one.
func (c *cell) put(sound *cell) {
	c.found.take(sound.found)
	c.original += sound.original
	c.complete += sound.complete
	c.yieldNet += sound.yieldNet
	c.yields = append(c.yields, sound.yields...)
}

// against turns a state into the difference from the sound one.
func (c *cell) against(sound *cell) {
	c.found.score -= sound.found.score
	if sound.found.factor != 0 {
		c.found.factor /= sound.found.factor
	}
	c.run, c.restored = c.found, c.found
	if c.cure {
		c.restored = unchanged
	}
	if c.running {
		c.run, c.runCost = unchanged, c.cost
	}
	c.original -= sound.original
	c.complete -= sound.complete
	c.yieldNet -= sound.yieldNet
	for _, y := range sound.yields {
		c.yields = append(c.yields, supply{y.part, -y.qty})
	}
}

// newPieces are what harvested parts bring: net of the selling sheet, times the
// chance that one sells, at each of the 41 prices.
func (l *ledger) newPieces() {
	l.piece = make([][prices.Values]float64, len(l.family.Parts))
	for i := range l.piece {
		for j, price := range l.market.parts[i].Sell.Values {
			l.piece[i][j] = l.parts.net(price) * l.sells[i]
		}
	}
}

func mean(xs []float64) float64 {
	sum := 0.0
	for _, x := range xs {
		sum += x
	}
	return sum / float64(len(xs))
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
