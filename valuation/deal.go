package valuation

import (
	"encoding/binary"
	"math/bits"

	"lotgauge/valuation/belief"
)

// handful is how many cases are dealt at a time: few enough for what is known of
// them to stay at hand.
const handful = 128

// deal hands out cases by the handful, all of one variant. It adds them up
// figure by figure, not case by case: a state changes few figures, and what it
// does to one it does to all cases that have it.
type deal struct {
	l        *ledger
	c        *belief.Cases
	from, to int // the handful
	variant  uint8
	account  *account
	hits     [][handful]uint8 // by state as in account.all: the cases of the handful that have it
	count    []uint8          // how many these are
	faults   []int            // the states that any of them has, but for the sound ones
	tally    tally
	graded   [lanes]figures // price factors of the scores
	mean     struct {       // what comes of mean prices
		bill bill
		all  worths
		best choice
	}
}

func (l *ledger) deal(c *belief.Cases) *deal {
	states := 0 // and beyond them, room to spare for note
	for v := range l.accounts {
		states = max(states, len(l.accounts[v].all))
	}
	return &deal{l: l, c: c, hits: make([][handful]uint8, states+anyState), count: make([]uint8, states+anyState)}
}

// next deals the next handful and adds it up. It is false where none is left.
func (d *deal) next() bool {
	d.from = d.to
	if d.from == len(d.c.Weight) {
		return false
	}
	d.to = sameVariant(d.c.Variant, d.from, handful)
	d.variant = d.c.Variant[d.from]
	d.account = &d.l.accounts[d.variant]
	clear(d.count)
	for _, i := range d.account.points {
		d.look(d.c.State[i][d.from:d.to], d.account.first[i])
	}
	d.faults = d.faults[:0]
	for f, n := range d.count[:len(d.account.all)] {
		if n > 0 {
			d.faults = append(d.faults, f)
		}
	}
	d.tally.sum(d)
	d.grade()
	return true
}

// size is how many cases the handful has.
func (d *deal) size() int { return d.to - d.from }

// with are the cases of the handful that have a state, counted from its first.
func (d *deal) with(state int) []uint8 { return d.hits[state][:d.count[state]] }

// weights are those of its cases.
func (d *deal) weights() []float64 { return d.c.Weight[d.from:d.to] }

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
func (d *deal) look(column []uint8, first int) {
	for from := 0; from < len(column); from += 64 {
		some := column[from:min(from+64, len(column))]
		d.note(some, notSound(some), uint8(from), first)
	}
}

// notSound is the set of those of up to 64 cases whose state is not the sound one,
// a bit each. Eight are looked at together.
func notSound(states []uint8) (set uint64) {
	k := uint(0)
	for ; len(states) >= 8; states = states[8:] {
		set |= notZero(binary.LittleEndian.Uint64(states)) << (k % 64)
		k += 8
	}
	for _, s := range states {
		if s != 0 {
			set |= 1 << (k % 64)
		}
		k++
	}
	return set
}

// notZero is the set of the bytes that are not zero, a bit each: their highest
// bits, which adding 127 to the others sets, brought together by a
// multiplication.
func notZero(eight uint64) uint64 {
	const others = 0x7f7f7f7f7f7f7f7f
	highest := (eight&others + others | eight) &^ others
	return highest >> 7 * 0x0102040810204080 >> 56
}

// anyState is how many states fit into a byte: an array of so many needs no check
// whether a state is one of the point's.
const anyState = 256

// note notes the states of a set of cases, the first of which is from. As for
// [figures.add], its loop wants for registers elsewhere.
//
//go:noinline
func (d *deal) note(states []uint8, set uint64, from uint8, first int) {
	hits, count := (*[anyState][handful]uint8)(d.hits[first:]), (*[anyState]uint8)(d.count[first:])
	for ; set != 0; set &= set - 1 {
		k := bits.TrailingZeros64(set)
		state := states[k]
		n := count[state]
		hits[state][n%handful] = from + uint8(k)
		count[state] = n + 1
	}
}

// grade finds the price factors of the scores, lane by lane.
func (d *deal) grade() {
	for lane := range d.graded {
		for k, score := range d.tally[scores+lane][:d.size()] {
			d.graded[lane][k] = d.l.grading.at(d.l.outOf100(d.variant, score))
		}
	}
}

// caseSet is a set of cases of a handful, a bit each.
type caseSet [handful / 64]uint64

func (s *caseSet) has(k uint8) bool { return s[k%handful/64]>>(k%64)&1 == 1 }

func (s *caseSet) put(k uint8) { s[k%handful/64] |= 1 << (k % 64) }

// weigh adds the weights of the cases to a sum.
func (s *caseSet) weigh(sum float64, weights []float64) float64 {
	for i, set := range s {
		for ; set != 0; set &= set - 1 {
			sum += weights[64*i+bits.TrailingZeros64(set)]
		}
	}
	return sum
}
