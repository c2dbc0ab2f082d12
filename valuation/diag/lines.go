package diag

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// lines finds line and column of a byte offset. It is made when the first
// position is asked for, as most documents have nothing wrong.
type lines []mark

// A mark is an offset whose line and column are known.
type mark struct{ offset, line, column int }

// markEvery is how many bytes lie between two marks at most; there is one at
// each start of a line too. It bounds the work for very long lines.
const markEvery = 512

// newLines walks the text once, from mark to mark.
func newLines(text string) lines {
	at := mark{0, 1, 1}
	marks := lines{at}
	for at.offset < len(text) {
		step := text[at.offset:min(len(text), at.offset+markEvery)]
		if i := strings.IndexByte(step, '\n'); i >= 0 {
			at = mark{at.offset + i + 1, at.line + 1, 1}
		} else {
			at = mark{at.offset + len(step), at.line, at.column + starts(step)}
		}
		marks = append(marks, at)
	}
	return marks
}

// starts counts the characters that start in s, which may begin inside one.
func starts(s string) int {
	n := 0
	for i := range len(s) {
		if utf8.RuneStart(s[i]) {
			n++
		}
	}
	return n
}

// pos is the position of a byte offset; -1 is the whole file. An offset behind
// the end is the end.
func (d *Document) pos(offset int) Pos {
	if offset < 0 {
		return Pos{File: d.file}
	}
	if d.lines == nil {
		d.lines = newLines(d.text)
	}
	offset = min(offset, len(d.text))
	next := sort.Search(len(d.lines), func(i int) bool { return d.lines[i].offset > offset })
	m := d.lines[next-1]
	return Pos{File: d.file, Line: m.line, Column: m.column + starts(d.text[m.offset:offset])}
}
