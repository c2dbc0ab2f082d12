package valuation

import (
	"encoding/binary"
	"math/bits"

	"lotgauge/valuation/belief"
)

// handful is how many cases are dealt at a time: few enough for what is known of
// them to stay at hand.
const handful = 128

// deal hands out cases by the handful, all of one variant, and adds them up. The
// faults of a handful are looked for column by column, in many cases at once.
type deal struct {
	l        *ledger
	c        *belief.Cases
	from, to int // the handful
	variant  uint8
	account  *account
	width    int     // room for the faults of a case
	faults   []int32 // of the handful, a row a case
	count    [handful]int
	sum      tally
}

func (l *ledger) deal(c *belief.Cases) *deal {
	width := len(l.family.Points)
	return &deal{l: l, c: c, width: width, faults: make([]int32, handful*width)}
}

// next deals the next handful. It is false where none is left.
func (d *deal) next() bool {
	d.from = d.to
	if d.from == len(d.c.Weight) {
		return false
	}
	d.to = sameVariant(d.c.Variant, d.from, handful)
	d.variant = d.c.Variant[d.from]
	d.account = &d.l.accounts[d.variant]
	d.count = [handful]int{}
	for _, i := range d.account.points {
		d.look(d.c.State[i][d.from:d.to], int32(d.account.first[i]))
	}
	return true
}

// sameVariant is the end of the cases from..to, at most so many, that are of one
// variant.
func sameVariant(variants []uint8, from, most int) (to int) {
	to = from + 1
	for to < min(from+most, len(variants)) && variants[to] == variants[from] {
		to++
	}
	return to
}

// look notes the faults in the column of a point whose states start at first.
// Eight cases are looked at together.
func (d *deal) look(column []uint8, first int32) {
	k := 0
	for ; k+8 <= len(column); k += 8 {
		for eight := binary.LittleEndian.Uint64(column[k:]); eight != 0; {
			shift := bits.TrailingZeros64(eight) &^ 7
			d.note(k+shift/8, first+int32(eight>>shift&0xff))
			eight &^= 0xff << shift
		}
	}
	for ; k < len(column); k++ {
		if s := column[k]; s != 0 {
			d.note(k, first+int32(s))
		}
	}
}

// note notes a fault of the k-th case of the handful.
func (d *deal) note(k int, fault int32) {
	d.faults[k*d.width+d.count[k]] = fault
	d.count[k]++
}

// tally adds up case k, one of the handful, at mean prices. It holds until the
// next one.
func (d *deal) tally(k int) *tally {
	at := (k - d.from) * d.width
	d.sum.faults = d.faults[at : at+d.count[k-d.from]]
	d.sum.sum(d.account)
	return &d.sum
}
