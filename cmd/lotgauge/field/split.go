package field

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
)

// A program compiled by Go is mostly code, and in code operations and their
// operands take turns, which gzip sees as noise. Sorted by kind into streams of
// their own (split streams: Ernst, Evans, Fraser, Lucco and Proebsting, Code
// Compression, 1997, from memory) the same bytes gzip to four fifths. join.js
// puts them back in their places.
//
// The form is: the number of streams, the length of the program before its code,
// of its code, and of each stream, all as 32 bits with the low byte first; then
// the streams. In the first one is what is no code.

// The streams. Numbers of the form are those of join.js.
const (
	streamRest     = iota // what is no code
	streamSizes           // of functions
	streamLocals          // of functions
	streamOps             // operation codes
	streamBlock           // types of blocks
	streamBranch          // depths of branches
	streamTable           // tables of branches
	streamCall            // functions called
	streamIndirect        // types of functions called by pointer
	streamLocal           // local variables
	streamGlobal          // global variables
	streamAlign           // of memory accesses
	streamOffset          // of memory accesses
	streamI32             // constants
	streamI64
	streamFloat
	streamMore // operations of two bytes: the second, and what follows
	streams
)

// The code section and the operations with operands, by their numbers in
// WebAssembly Core Specification 2.0, sections 5.5.2 and 5.4. Those between
// firstPlain and lastPlain, and a few below, have none.
const (
	codeSection = 10

	opUnreachable, opNop, opElse, opEnd = 0x00, 0x01, 0x05, 0x0b
	opReturn, opDrop, opSelect          = 0x0f, 0x1a, 0x1b
	firstPlain, lastPlain               = 0x45, 0xc4

	opBlock, opLoop, opIf               = 0x02, 0x03, 0x04
	opBranch, opBranchIf, opBranchTable = 0x0c, 0x0d, 0x0e
	opCall, opCallIndirect              = 0x10, 0x11
	opLocalGet, opLocalSet, opLocalTee  = 0x20, 0x21, 0x22
	opGlobalGet, opGlobalSet            = 0x23, 0x24
	firstAccess, lastAccess             = 0x28, 0x3e
	opMemorySize, opMemoryGrow          = 0x3f, 0x40
	opI32Const, opI64Const              = 0x41, 0x42
	opF32Const, opF64Const              = 0x43, 0x44

	opMore                                   = 0xfc // and a number
	lastConversion, moreMemCopy, moreMemFill = 7, 10, 11
)

// errForm says that a program is not of the form that split knows.
var errForm = errors.New("a WebAssembly program of another form")

// split sorts a program into streams.
func split(wasm []byte) ([]byte, error) {
	s := &splitter{from: wasm, at: 8} // behind the magic number and version
	for s.err == nil && s.at < len(wasm) {
		id := s.take(1)
		size := s.number()
		if s.err == nil && id[0] == codeSection {
			return s.code(s.at, size)
		}
		s.take(size)
	}
	return nil, errForm
}

// splitter walks through a program.
type splitter struct {
	from []byte
	at   int
	to   [streams][]byte
	err  error
}

// code sorts the code section, which lies at a place.
func (s *splitter) code(start, size int) ([]byte, error) {
	end := start + size
	if end > len(s.from) {
		return nil, errForm
	}
	s.repeat(s.leb(streamSizes), s.function)
	if s.err != nil || s.at != end {
		return nil, errors.Join(errForm, s.err)
	}
	s.to[streamRest] = append(append([]byte{}, s.from[:start]...), s.from[end:]...)
	return s.written(start, size), nil
}

func (s *splitter) written(start, size int) []byte {
	out := binary.LittleEndian.AppendUint32(nil, streams)
	out = binary.LittleEndian.AppendUint32(out, uint32(start))
	out = binary.LittleEndian.AppendUint32(out, uint32(size))
	for _, stream := range s.to {
		out = binary.LittleEndian.AppendUint32(out, uint32(len(stream)))
	}
	for _, stream := range s.to {
		out = append(out, stream...)
	}
	return out
}

// function sorts one function.
func (s *splitter) function() {
	size := s.leb(streamSizes)
	end := s.at + size
	s.repeat(s.leb(streamLocals), func() { // groups of locals: how many, and their type
		s.leb(streamLocals)
		s.leb(streamLocals)
	})
	for s.err == nil && s.at < end {
		s.operation()
	}
	if s.at != end {
		s.fail("a function does not end where it should")
	}
}

// operation sorts one operation and its operands.
func (s *splitter) operation() {
	op := s.take(1)
	if s.err != nil {
		return
	}
	s.to[streamOps] = append(s.to[streamOps], op...)
	if stream, ok := operand[op[0]]; ok {
		s.leb(stream)
		return
	}
	switch o := op[0]; {
	case o >= firstAccess && o <= lastAccess:
		s.leb(streamAlign)
		s.leb(streamOffset)
	case o == opBranchTable:
		s.repeat(s.leb(streamTable)+1, func() { s.leb(streamTable) })
	case o == opCallIndirect:
		s.leb(streamIndirect)
		s.leb(streamIndirect)
	case o == opF32Const:
		s.copy(streamFloat, 4)
	case o == opF64Const:
		s.copy(streamFloat, 8)
	case o == opMore:
		s.more()
	case !plain(o):
		s.fail(fmt.Sprintf("operation %#x", o))
	}
}

// operand is the stream of operations with one number as operand.
var operand = map[byte]int{
	opBlock: streamBlock, opLoop: streamBlock, opIf: streamBlock,
	opBranch: streamBranch, opBranchIf: streamBranch, opCall: streamCall,
	opLocalGet: streamLocal, opLocalSet: streamLocal, opLocalTee: streamLocal,
	opGlobalGet: streamGlobal, opGlobalSet: streamGlobal,
	opMemorySize: streamMore, opMemoryGrow: streamMore,
	opI32Const: streamI32, opI64Const: streamI64,
}

// plain tells whether an operation has no operands.
func plain(op byte) bool {
	switch op {
	case opUnreachable, opNop, opElse, opEnd, opReturn, opDrop, opSelect:
		return true
	}
	return op >= firstPlain && op <= lastPlain
}

// more sorts an operation of two bytes: conversions, copying and filling memory.
func (s *splitter) more() {
	switch sub := s.leb(streamMore); {
	case sub == moreMemCopy:
		s.copy(streamMore, 2)
	case sub == moreMemFill:
		s.copy(streamMore, 1)
	case sub > lastConversion:
		s.fail(fmt.Sprintf("operation %#x %d", opMore, sub))
	}
}

// repeat does something so many times, unless something is wrong.
func (s *splitter) repeat(times int, do func()) {
	for i := 0; i < times && s.err == nil; i++ {
		do()
	}
}

// take is the next n bytes.
func (s *splitter) take(n int) []byte {
	if s.err != nil || n < 0 || n > len(s.from)-s.at {
		s.fail("it ends too early")
		return nil
	}
	s.at += n
	return s.from[s.at-n : s.at]
}

// number reads a number (LEB128); of one of more than 63 bits, the lower ones.
func (s *splitter) number() int {
	n := uint64(0)
	for shift := 0; ; shift += 7 {
		b := s.take(1)
		if s.err != nil {
			return 0
		}
		n |= uint64(b[0]&0x7f) << shift
		if b[0] < 0x80 {
			return int(n & math.MaxInt64)
		}
	}
}

// leb moves a number to a stream, as it is written, and returns it.
func (s *splitter) leb(stream int) int {
	from := s.at
	n := s.number()
	s.to[stream] = append(s.to[stream], s.from[from:s.at]...)
	return n
}

func (s *splitter) copy(stream, n int) {
	s.to[stream] = append(s.to[stream], s.take(n)...)
}

// fail keeps the first fault.
func (s *splitter) fail(what string) {
	if s.err == nil {
		s.err = errors.New(what)
	}
}
