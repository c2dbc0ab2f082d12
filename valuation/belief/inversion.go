package belief

import (
	"encoding/binary"
	"math/bits"
	"math/rand/v2"
	"slices"
)

// An inversion draws columns of states, each case's by the thresholds that go
// with what is explained already, its mask. Where many cases share a mask, a
// draw begins with eight binary digits, looked up in a guide: so one random word
// does for eight cases, and only those that are still undecided get the other 55
// digits. (Digits made only as they are needed: Knuth and Yao, The complexity of
// nonuniform random number generation, in Traub, ed., Algorithms and Complexity,
// Academic Press 1976, pp. 357-428. The guide: Chen and Asau 1974, as in tally.)
type inversion struct {
	src    *rand.PCG
	width  int      // thresholds of a mask
	t      []uint64 // thresholds by mask, zeros where not made
	guides []uint8  // guides by mask
	open   []int32  // cases left undecided
}

const (
	early = 8  // digits that a guide looks at
	late  = 55 // digits of a draw besides
	// entries is the length of a guide, one for each way that a draw can begin:
	// the state drawn, or undecided and the first threshold that begins so too.
	entries   = 1 << early
	undecided = 0x80
	// plenty is from how many cases a mask on there are guides.
	plenty = 16
)

// guided says whether guides are made for a column.
func guided(cases, masks, states int) bool { return states <= undecided && cases >= plenty*masks }

// A weigher returns the weights of the states of a point, given the mask. They
// hold until it is asked again.
type weigher func(mask int) []float64

// draw fills a column of cases, given their masks, of which there are so many.
func (x *inversion) draw(column []uint8, mask []int, masks, states int, weigh weigher) {
	x.width = max(states, quick)
	x.t = slices.Grow(x.t[:0], masks*x.width)[:masks*x.width]
	clear(x.t)
	if !guided(len(column), masks, states) {
		x.whole(column, mask, weigh)
		return
	}
	x.guide(masks, weigh)
	if masks == 1 {
		x.begin(column)
	} else {
		x.beginByMask(column, mask)
	}
	x.finish(column, mask)
}

// of are the thresholds of a mask.
func (x *inversion) of(m int) []uint64 { return x.t[m*x.width:][:x.width] }

// made says whether the thresholds of a mask are: the last of those is not 0.
func (x *inversion) made(m int) bool { return x.t[m*x.width+x.width-1] > 0 }

func (x *inversion) make(m int, w []float64) { pad(thresholds(x.of(m)[:0], w), x.width) }

// whole draws a column by whole draws. The thresholds of a mask are made when it
// first turns up.
func (x *inversion) whole(column []uint8, mask []int, weigh weigher) {
	for k, m := range mask {
		if !x.made(m) {
			x.make(m, weigh(m))
		}
		if draw := x.src.Uint64() >> 1; x.width == quick {
			column[k] = uint8(reached(draw, (*[quick]uint64)(x.of(m))))
		} else {
			column[k] = uint8(reachedOf(draw, x.of(m)))
		}
	}
}

// guide makes the thresholds and the guides of all masks.
func (x *inversion) guide(masks int, weigh weigher) {
	n := masks*entries + 8
	x.guides = slices.Grow(x.guides[:0], n)[:n]
	for m := range masks {
		x.make(m, weigh(m))
		setGuide(x.guides[m*entries:], x.of(m))
	}
}

// setGuide fills a guide, and may write up to seven entries beyond.
func setGuide(guide []uint8, cut []uint64) {
	clear(guide[:entries]) // state 0 is the usual one
	from := 0
	for i, t := range cut {
		top := int(t >> late)
		if i > 0 {
			each := uint64(i) * eachByte
			for k := from; k < top; k += 8 {
				binary.LittleEndian.PutUint64(guide[k:k+8], each)
			}
		}
		from = max(from, top)
		if from == top && t<<(1+early) != 0 {
			guide[top] = undecided | uint8(i)
			from++
		}
	}
}

// begin looks up the early digits of a column, a byte of a random word for each
// case. The last eight cases may be some of those before, and are then drawn
// anew. It takes no loop for the eight, nor beginByMask: that would be half the
// time.
func (x *inversion) begin(column []uint8) {
	guide := (*[entries]uint8)(x.guides)
	for k := 0; k < len(column); k += 8 {
		eight := (*[8]uint8)(column[min(k, len(column)-8):])
		word := x.src.Uint64()
		eight[0] = guide[uint8(word)]
		eight[1] = guide[uint8(word>>8)]
		eight[2] = guide[uint8(word>>16)]
		eight[3] = guide[uint8(word>>24)]
		eight[4] = guide[uint8(word>>32)]
		eight[5] = guide[uint8(word>>40)]
		eight[6] = guide[uint8(word>>48)]
		eight[7] = guide[uint8(word>>56)]
	}
}

// beginByMask is begin for cases of several masks.
func (x *inversion) beginByMask(column []uint8, mask []int) {
	guides := x.guides
	for k := 0; k < len(column); k += 8 {
		at := min(k, len(column)-8)
		eight, masks := (*[8]uint8)(column[at:]), (*[8]int)(mask[at:])
		word := x.src.Uint64()
		eight[0] = guides[masks[0]<<early|int(word&0xff)]
		eight[1] = guides[masks[1]<<early|int(word>>8&0xff)]
		eight[2] = guides[masks[2]<<early|int(word>>16&0xff)]
		eight[3] = guides[masks[3]<<early|int(word>>24&0xff)]
		eight[4] = guides[masks[4]<<early|int(word>>32&0xff)]
		eight[5] = guides[masks[5]<<early|int(word>>40&0xff)]
		eight[6] = guides[masks[6]<<early|int(word>>48&0xff)]
		eight[7] = guides[masks[7]<<early|int(word>>56)]
	}
}

// finish draws the late digits of the cases that are undecided.
func (x *inversion) finish(column []uint8, mask []int) {
	x.open = appendUndecided(x.open[:0], column)
	for _, k := range x.open {
		t := x.of(mask[k])
		first := t[column[k]&^undecided] >> late
		column[k] = uint8(reachedOf(continued(x.src, first), t))
	}
}

// eachByte times a byte is that byte eight times.
const eachByte = 0x0101010101010101

// appendUndecided appends the positions of the cases that are undecided. Eight
// are looked at together.
func appendUndecided(out []int32, column []uint8) []int32 {
	k := 0
	for ; k <= len(column)-8; k += 8 {
		for eight := binary.LittleEndian.Uint64(column[k:k+8]) & (undecided * eachByte); eight != 0; eight &= eight - 1 {
			out = append(out, int32(k+bits.TrailingZeros64(eight)/8))
		}
	}
	for ; k < len(column); k++ {
		if column[k]&undecided != 0 {
			out = append(out, int32(k))
		}
	}
	return out
}
