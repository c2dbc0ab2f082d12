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
	l     *ledger
	dice  dice
	model faces
	parts []faces // of each part that this variant may need or yield
	bill  bill
}

// faces are which of the 41 prices an item has, by case of the handful.
type faces [handful]uint8

func (l *ledger) newThrown(seed uint64) *thrown {
	return &thrown{l: l, dice: dice{seed}, parts: make([]faces, len(l.family.Parts))}
}

// throw throws the prices of a handful. The bill holds until the next one.
func (t *thrown) throw(d *deal) *bill {
	t.fall(&t.model, len(t.parts)+int(d.variant), d)
	for _, part := range d.account.parts {
		t.fall(&t.parts[part], part, d)
	}
	t.bill = bill{}
	sell := &t.l.market.models[d.variant].Sell.Values
	for k, face := range t.model[:d.size()] {
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

// fall throws the faces of an item.
func (t *thrown) fall(into *faces, item int, d *deal) {
	for k := range into[:d.size()] {
		into[k] = uint8(t.dice.index(item, d.from+k, prices.Values))
	}
}

// piecesOf adds what the pieces of a handful bring, one by one.
func (t *thrown) piecesOf(d *deal) {
	for _, y := range d.account.sound.yields {
		for k, face := range t.parts[y.part][:d.size()] {
			t.bill.yields[k] += float64(y.qty * t.l.piece[y.part][face])
		}
	}
	for _, f := range d.faults {
		for _, y := range d.account.goods[f].yields {
			piece, faces := &t.l.piece[y.part], &t.parts[y.part]
			for _, k := range d.with(f) {
				t.bill.yields[k%handful] += float64(y.qty * piece[faces[k%handful]])
			}
		}
	}
}

// mend adds what putting a state right takes, in the cases that have it.
func (t *thrown) mend(cases []uint8, x *goods) {
	for _, n := range x.needs {
		buy, faces := &t.l.market.parts[n.part].Buy.Values, &t.parts[n.part]
		for _, k := range cases {
			price := float64(n.qty * buy[faces[k%handful]])
			t.bill.all[k%handful] += price
			if x.running {
				t.bill.run[k%handful] += price
			}
		}
	}
}
