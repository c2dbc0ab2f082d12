package field

import (
	"bytes"
	"encoding/binary"
	"errors"
	"slices"
	"testing"
)

// section is a section of a program.
func section(id byte, content []byte) []byte {
	return append(binary.AppendUvarint([]byte{id}, uint64(len(content))), content...)
}

// function is a function with the given code.
func function(code ...byte) []byte {
	return append(binary.AppendUvarint(nil, uint64(len(code))), code...)
}

// program is one with functions that have every kind of operation in them.
func program(functions ...[]byte) []byte {
	if len(functions) == 0 {
		functions = [][]byte{
			function(0, opEnd),
			function(2, 1, 0x7f, 0x80, 0x02, 0x7e, // locals: one i32, 256 i64
				opBlock, 0x40, opLoop, 0x7f, opIf, 0x40, opElse, opEnd, opBranch, 0, opBranchIf, 1,
				opBranchTable, 2, 0, 1, 0x80, 0x01, opReturn, opCall, 0x80, 0x80, 0x01, opCallIndirect, 3, 0,
				opDrop, opSelect, opLocalGet, 0, opLocalSet, 1, opLocalTee, 2, opGlobalGet, 0, opGlobalSet, 1,
				firstAccess, 2, 0x90, 0x01, lastAccess, 0, 0, opMemorySize, 0, opMemoryGrow, 0,
				opI32Const, 0x7f, opI64Const, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x7f,
				opF32Const, 1, 2, 3, 4, opF64Const, 1, 2, 3, 4, 5, 6, 7, 8, firstPlain, lastPlain,
				opMore, 6, opMore, moreMemCopy, 0, 0, opMore, moreMemFill, 0, opUnreachable, opNop, opEnd),
		}
	}
	code := binary.AppendUvarint(nil, uint64(len(functions)))
	for _, f := range functions {
		code = append(code, f...)
	}
	out := []byte("\x00asm\x01\x00\x00\x00")
	out = append(out, section(1, []byte("types"))...)
	out = append(out, section(codeSection, code)...)
	return append(out, section(11, []byte("data"))...)
}

// join is what join.js does.
func join(t testing.TB, sorted []byte) []byte {
	t.Helper()
	word := func(i int) int { return int(binary.LittleEndian.Uint32(sorted[4*i:])) }
	at, place := [streams][]byte{}, 4*(3+streams)
	for i := range at {
		at[i] = sorted[place : place+word(3+i)]
		place += word(3 + i)
	}
	if word(0) != streams || place != len(sorted) {
		t.Fatalf("%d streams, %d bytes of %d", word(0), place, len(sorted))
	}
	j := &joiner{at: at}
	j.code(word(2))
	before := word(1)
	return slices.Concat(at[streamRest][:before], j.to, at[streamRest][before:])
}

type joiner struct {
	at [streams][]byte
	to []byte
}

func (j *joiner) bytes(stream, n int) {
	j.to = append(j.to, j.at[stream][:n]...)
	j.at[stream] = j.at[stream][n:]
}

func (j *joiner) number(stream int) int {
	n, size := binary.Uvarint(j.at[stream])
	j.bytes(stream, max(size, -size))
	return int(n)
}

func (j *joiner) code(size int) {
	j.number(streamSizes)
	for len(j.to) < size {
		end := j.number(streamSizes)
		end += len(j.to)
		for range 2 * j.number(streamLocals) {
			j.number(streamLocals)
		}
		for len(j.to) < end {
			j.operation(j.at[streamOps][0])
		}
	}
}

func (j *joiner) operation(op byte) {
	j.bytes(streamOps, 1)
	stream, one := operand[op]
	switch {
	case one:
		j.number(stream)
	case op >= firstAccess && op <= lastAccess:
		j.number(streamAlign)
		j.number(streamOffset)
	case op == opBranchTable:
		for range j.number(streamTable) + 1 {
			j.number(streamTable)
		}
	case op == opCallIndirect:
		j.number(streamIndirect)
		j.number(streamIndirect)
	case op == opF32Const, op == opF64Const:
		j.bytes(streamFloat, map[byte]int{opF32Const: 4, opF64Const: 8}[op])
	case op == opMore:
		j.bytes(streamMore, map[int]int{moreMemCopy: 2, moreMemFill: 1}[j.number(streamMore)])
	}
}

func TestSplitJoins(t *testing.T) {
	for _, wasm := range [][]byte{program(), program(function(0)), program(function(1, 2, 0x7f, opEnd), function(0, opNop))} {
		sorted, err := split(wasm)
		if err != nil {
			t.Fatal(err)
		}
		if got := join(t, sorted); !bytes.Equal(got, wasm) {
			t.Errorf("%x came back as %x", wasm, got)
		}
	}
}

// TestSplitFaults: what is no program as Go compiles it is refused.
func TestSplitFaults(t *testing.T) {
	whole := program()
	for name, wasm := range map[string][]byte{
		"nothing":              nil,
		"no code":              append([]byte("\x00asm\x01\x00\x00\x00"), section(1, []byte("types"))...),
		"unknown operation":    program(function(0, 0xfd, 0)),
		"unknown second byte":  program(function(0, opMore, 12, 0)),
		"operand beyond":       program(function(0, opF64Const, 1), function(0, opEnd)),
		"locals beyond":        program(function(200, 1, 0x7f)),
		"functions that lack":  append([]byte("\x00asm\x01\x00\x00\x00"), section(codeSection, []byte{9, 2, 0, opEnd})...),
		"functions beyond all": append([]byte("\x00asm\x01\x00\x00\x00"), section(codeSection, bytes.Repeat([]byte{0xff}, 99))...),
		"section beyond":       append(whole[:len(whole)-12:len(whole)-12], codeSection, 100, 1),
	} {
		if _, err := split(wasm); !errors.Is(err, errForm) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// FuzzSplit: what can be split at all comes back as it was.
func FuzzSplit(f *testing.F) {
	f.Add(program())
	f.Add([]byte("\x00asm\x01\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, wasm []byte) {
		if sorted, err := split(wasm); err == nil {
			if got := join(t, sorted); !bytes.Equal(got, wasm) {
				t.Errorf("%x came back as %x", wasm, got)
			}
		}
	})
}
