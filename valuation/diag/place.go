package diag

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// A place says where a key, table or array element stands in the text. Places
// form a tree of the same shape as the decoded document.
type place struct {
	name     string // the key; "" for an array element and for the root
	key      int    // byte offset of the key; of the value for an element
	value    int    // byte offset of the value, or of the header that opens the table
	defined  bool   // has a header or value of its own, and is not only part of a longer key
	closed   bool   // has a whole value: nothing can be added to it
	asked    bool   // a getter has asked for it
	depth    int    // levels below the root
	length   int    // bytes of the keys from the root to here
	children []*place
	index    map[string]*place // the children by name, once there are many
	items    []*place          // elements of an array
	table    *Table            // the table read here, once it was got
}

// manyChildren is from when on an index finds a child faster than a search.
const manyChildren = 16

// child is the place of a key in a table, or nil.
func (p *place) child(name string) *place {
	if p.index != nil {
		return p.index[name]
	}
	for _, c := range p.children {
		if c.name == name {
			return c
		}
	}
	return nil
}

// addChild adds the place of a key, first met at offset.
func (p *place) addChild(name string, offset int) *place {
	c := &place{name: name, key: offset, value: offset, depth: p.depth + 1, length: p.length + len(name)}
	p.children = append(p.children, c)
	switch {
	case p.index != nil:
		p.index[name] = c
	case len(p.children) == manyChildren:
		p.index = make(map[string]*place, 2*manyChildren)
		for _, c := range p.children {
			p.index[c.name] = c
		}
	}
	return c
}

// addItem adds the place of the next element of an array.
func (p *place) addItem(offset int) *place {
	item := &place{key: offset, value: offset, depth: p.depth + 1, length: p.length}
	p.items = append(p.items, item)
	return item
}

// item is the place of the i-th element, or of the array if there is none.
func (p *place) item(i int) *place {
	if p == nil || i < 0 || i >= len(p.items) {
		return p
	}
	return p.items[i]
}

// isTables reports whether the place is an array of tables, [[name]].
func (p *place) isTables() bool { return len(p.items) > 0 && !p.defined }

// lines finds line and column of a byte offset. It is made when the first
// position is asked for, as most documents have nothing wrong.
type lines []mark

// A mark is an offset whose line and column are known.
type mark struct{ offset, line, column int }

// markEvery is how many bytes lie between two marks at most; there is one at
// each start of a line too. It bounds the work for very long lines.
const markEvery = 512

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

// pos is the position of a byte offset; -1 is the whole file.
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
