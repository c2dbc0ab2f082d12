package valuation

import (
	"math/bits"
	"slices"

	"lotgauge/valuation/prices"
)

// dice throws the prices: for each draw and item one of the 41 values, however
// often the item is used. It needs no state: what is thrown follows from seed,
// number and draw by the finaliser of SplitMix64 (Steele, Lea and Flood, Fast
// splittable pseudorandom number generators, OOPSLA 2014; constants from
// memory). A set of items has a number from 0 on, in the account of the variant
// that the draw is of.
type dice struct{ seed uint64 }

// of is the die of a number.
func (d dice) of(number int) die {
	return die(d.seed*0xd1342543de82ef95 + uint64(number)*0x9e3779b97f4a7c15 + 1)
}

// aside is the n-th die besides those of the prices, n from 0.
func (d dice) aside(n int) die { return d.of(-1 - n) }

type die uint64

// roll is 64 even bits for a draw.
func (d die) roll(draw int) uint64 {
	z := uint64(d) + uint64(draw)*0xbf58476d1ce4e5b9
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// index is one of so many sides.
func (d die) index(draw, sides int) int {
	hi, _ := bits.Mul64(d.roll(draw), uint64(sides))
	return int(hi)
}

// A roll does for a set of items, each of which has some of its bits for itself:
// enough for every value to be as likely as the next to one in 50,000.
const (
	inSet    = 3
	faceBits = 64 / inSet
)

// face is which of the 41 prices the lowest bits of a roll stand for.
func face(roll uint64) uint8 {
	return uint8(roll & (1<<faceBits - 1) * prices.Values >> faceBits)
}

// faces are which of the 41 prices an item has, by case of the handful.
type faces [handful]uint8

// thrown are the prices of a handful of draws of one variant.
type thrown struct {
	l     *ledger
	dice  dice
	items [][inSet]faces // the variant, then the parts of its account
	place []int          // by part of the family
	bill  bill
}

func (l *ledger) newThrown(seed uint64) *thrown { return &thrown{l: l, dice: dice{seed}} }

// item are the faces of an item.
func (t *thrown) item(i int) *faces { return &t.items[i/inSet][i%inSet] }

// of are the faces of a part.
func (t *thrown) of(part int) *faces { return t.item(t.place[part]) }

// throw throws the prices of a handful. The bill holds until the next one.
func (t *thrown) throw(d *deal) *bill {
	t.place = d.account.place
	sets := (1 + len(d.account.parts) + inSet - 1) / inSet
	t.items = slices.Grow(t.items[:0], sets)[:sets]
	for set := range t.items {
		t.fall(set, d)
	}
	t.bill = bill{}
	sell := &t.l.market.models[d.variant].Sell.Values
	for k, face := range t.item(0)[:d.size()] {
		t.bill.base[k] = sell[face]
	}
	if t.l.open[partOut] {
		t.piecesOf(d)
	}
	for _, f := range d.faults {
		t.mend(d.with(f), &d.account.goods[f])
	}
	return &t.bill
}

// fall throws a set of items.
func (t *thrown) fall(set int, d *deal) {
	one, two, three := &t.items[set][0], &t.items[set][1], &t.items[set][2]
	dice := t.dice.of(set)
	for k := range d.size() {
		roll := dice.roll(d.from + k)
		one[k%handful] = face(roll)
		two[k%handful] = face(roll >> faceBits)
		three[k%handful] = face(roll >> (2 * faceBits))
	}
}

// piecesOf adds what the pieces of a handful bring, one by one.
func (t *thrown) piecesOf(d *deal) {
	for _, y := range d.account.sound.yields {
		t.bill.yields.payAll(d.size(), y.qty, &t.l.piece[y.part], t.of(y.part))
	}
	for _, f := range d.faults {
		for _, y := range d.account.goods[f].yields {
			t.bill.yields.pay(d.with(f), y.qty, &t.l.piece[y.part], t.of(y.part))
		}
	}
}

// mend adds what putting a state right takes, in the cases that have it.
func (t *thrown) mend(cases []uint8, x *goods) {
	for _, n := range x.needs {
		buy, faces := &t.l.market.parts[n.part].Buy.Values, t.of(n.part)
		t.bill.all.pay(cases, n.qty, buy, faces)
		if x.running {
			t.bill.run.pay(cases, n.qty, buy, faces)
		}
	}
}

// pay adds the price of so many pieces in some cases.
func (f *figures) pay(cases []uint8, qty float64, prices *[prices.Values]float64, of *faces) {
	for _, k := range cases {
		f[k%handful] += float64(qty * prices[of[k%handful]])
	}
}

// payAll adds the price of so many pieces in the first cases.
func (f *figures) payAll(cases int, qty float64, prices *[prices.Values]float64, of *faces) {
	for k, face := range of[:cases] {
		f[k] += float64(qty * prices[face])
	}
}
