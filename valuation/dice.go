package valuation

import (
	"math/bits"

	"lotgauge/valuation/prices"
)

// dice throws the prices: for each draw and item one of the 41 values, however
// often the item is used. It needs no state: the value follows from seed, item
// and draw by the finaliser of SplitMix64 (Steele, Lea and Flood, Fast
// splittable pseudorandom number generators, OOPSLA 2014; constants from
// memory).
type dice struct{ seed uint64 }

func (d dice) index(item, draw, sides int) int {
	z := d.seed*0xd1342543de82ef95 + uint64(item)*0x9e3779b97f4a7c15 + uint64(draw)*0xbf58476d1ce4e5b9 + 1
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	hi, _ := bits.Mul64(z^z>>31, uint64(sides))
	return int(hi)
}

// thrown are the prices of a handful of draws of one variant.
type thrown struct {
	l       *ledger
	dice    dice
	variant uint8
	model   []uint8   // which of the 41 prices a sound one has, by draw
	parts   [][]uint8 // and each part that this variant may need or yield
	sound   []float64 // what the yields of a sound one bring
}

func (l *ledger) newThrown(seed uint64) *thrown {
	return &thrown{l: l, dice: dice{seed}, parts: make([][]uint8, len(l.family.Parts))}
}

// throw throws the draws from..to of variant v.
func (t *thrown) throw(v uint8, from, to int) {
	t.variant = v
	m := &t.l.accounts[v]
	t.model = t.faces(t.model, len(t.parts)+int(v), from, to)
	for _, part := range m.parts {
		t.parts[part] = t.faces(t.parts[part], part, from, to)
	}
	t.sound = append(t.sound[:0], make([]float64, to-from)...)
	if !t.l.open[partOut] {
		return
	}
	for _, y := range m.sound.yields {
		piece := &t.l.piece[y.part]
		for k, face := range t.parts[y.part] {
			t.sound[k] += float64(y.qty * piece[face])
		}
	}
}

// faces are the sides on which an item falls in the draws from..to.
func (t *thrown) faces(into []uint8, item, from, to int) []uint8 {
	into = into[:0]
	for k := from; k < to; k++ {
		into = append(into, uint8(t.dice.index(item, k, prices.Values)))
	}
	return into
}

// bill is what a tally comes to at the prices of the k-th draw of the handful.
func (t *thrown) bill(k int, of *tally) bill {
	market, selling, goods := t.l.market, t.l.open[partOut], t.l.accounts[t.variant].goods
	b := bill{base: market.models[t.variant].Sell.Values[t.model[k]], yields: t.sound[k]}
	for _, f := range of.faults {
		x := &goods[f]
		for _, n := range x.needs {
			price := float64(n.qty * market.parts[n.part].Buy.Values[t.parts[n.part][k]])
			b.all += price
			if x.running {
				b.run += price
			}
		}
		if selling {
			for _, y := range x.yields {
				b.yields += float64(y.qty * t.l.piece[y.part][t.parts[y.part][k]])
			}
		}
	}
	return b
}
