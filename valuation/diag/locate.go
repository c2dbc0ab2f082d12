package diag

import "strings"

// Deeper nesting and longer paths are refused before the parser sees them: it
// recurses for each level and keeps the whole path of each key, so that a
// megabyte of brackets or dots would cost gigabytes.
const (
	maxDepth = 64  // tables and arrays within each other
	maxPath  = 512 // bytes of all keys from the root to the deepest
)

// A location is what locate finds: where everything is, and the first key that
// is defined again. The parser does not always notice one: of
//
//	a.b = 1
//	a = 2
//
// it keeps the second line, and the first is lost without a word.
type location struct {
	root         *place
	tooDeep      int    // byte offset of what is nested too deeply, or -1
	unclosed     int    // byte offset of a string that has no end, or -1
	twice        *place // the key defined again, or nil
	first, again int    // byte offsets of its definitions
}

// locate walks TOML text and finds the place of every key and array element.
// The parser tells values but not places, so this scanner knows keys, headers,
// brackets and where strings end, and no values. On text that is no TOML it
// stops where it no longer understands, which is not before the parser does.
//
// The grammar is that of TOML 1.1 (https://toml.io/en/v1.1.0: Keys, String,
// Array, Inline Table, Table, Array of Tables). Where this is laxer, the parser
// has the last word: it reads the same text, and a test compares the two.
func locate(text string) location {
	s := scanner{text: text, location: location{root: &place{value: -1}, tooDeep: -1, unclosed: -1}}
	table := s.root
	for s.blank(); s.pos < len(s.text); s.blank() {
		if s.peek() == '[' {
			table = s.header()
		} else {
			s.pair(table)
		}
	}
	return s.location
}

// header reads [a.b] or [[a.b]] and is the table it opens. [a] may come after
// [a.b], or after a.b = 1 made it in passing, but not after another [a], [[a]]
// or a = 1.
func (s *scanner) header() *place {
	at := s.pos
	array := s.skip("[[")
	closing := "]]"
	if !array {
		s.pos++
		closing = "]"
	}
	p, key := s.path(s.root)
	if array {
		p = s.element(p, key, at)
	} else if len(p.items) > 0 {
		s.repeated(p, key)
	}
	s.define(p, key, at)
	if !s.skip(closing) {
		s.stop()
	}
	return p
}

// element is the next table of an array of tables, which all its headers make
// together.
func (s *scanner) element(array *place, key, header int) *place {
	if array.defined {
		s.repeated(array, key)
	}
	if len(array.items) == 0 {
		array.value = header
	}
	return s.deepen(array.addItem(key))
}

// pair reads key = value. The key must be new: a value cannot take the place of
// a table that longer keys have made.
func (s *scanner) pair(table *place) {
	p, key := s.path(table)
	if !s.skip("=") {
		s.stop()
		return
	}
	s.blank()
	if len(p.children)+len(p.items) > 0 {
		s.repeated(p, key)
	}
	s.define(p, key, s.pos)
	s.value(p)
	p.closed = true
}

// path reads a dotted key: its place, seen from table, and where its last part
// stands. A part that is an array of tables stands for the latest of them. What
// was written as one value, such as { … }, cannot be added to from outside.
func (s *scanner) path(table *place) (p *place, key int) {
	for {
		s.blank()
		key = s.pos
		name := s.key()
		if p = table.child(name); p == nil {
			p = s.deepen(table.addChild(name, key))
		}
		s.blank()
		if !s.skip(".") {
			return p, key
		}
		if p.closed {
			s.repeated(p, key)
		}
		table = p
		if n := len(p.items); n > 0 {
			table = p.items[n-1]
		}
	}
}

// define gives p its own header or value, and with it its position: up to here
// that was where a longer key first named it.
func (s *scanner) define(p *place, key, value int) {
	if p.defined {
		s.repeated(p, key)
		return
	}
	p.defined, p.key, p.value = true, key, value
}

// repeated notes the first key that is defined again.
func (s *scanner) repeated(p *place, key int) {
	if s.twice == nil {
		s.twice, s.first, s.again = p, p.value, key
	}
}

// value reads a value into p: the elements of an array become its items, the
// keys of an inline table its children.
func (s *scanner) value(p *place) {
	switch s.peek() {
	case '[':
		s.list(']', func() { s.value(s.deepen(p.addItem(s.pos))) })
	case '{':
		s.list('}', func() { s.pair(p) })
	case '"', '\'':
		s.quoted()
	default:
		s.until(",]}#\r\n")
	}
}

// list reads what stands between brackets, with commas between.
func (s *scanner) list(closing byte, element func()) {
	s.pos++
	for s.blank(); s.pos < len(s.text) && s.peek() != closing; s.blank() {
		element()
		s.blank()
		if !s.skip(",") && s.peek() != closing {
			s.stop()
		}
	}
	s.pos = min(s.pos+1, len(s.text))
}

// key reads one part of a key: bare, or quoted in one of two ways.
func (s *scanner) key() string {
	at := s.pos
	if c := s.peek(); c != '"' && c != '\'' {
		s.until(" \t\r\n.=[]{}\"'#,")
		name := s.text[at:s.pos]
		if name == "" {
			s.stop()
		}
		return name
	}
	s.quoted()
	name := s.text[at:s.pos]
	if name[0] == '\'' || !strings.Contains(name, `\`) {
		return strings.Trim(name, name[:1])
	}
	data, err := decode("key = " + name) // escapes are the parser's business
	if err != nil {
		s.stop()
	}
	name, _ = data["key"].(string)
	return name
}

// deepen returns a new place, and stops at one that is too deep.
func (s *scanner) deepen(p *place) *place {
	if s.tooDeep < 0 && (p.depth > maxDepth || p.length > maxPath) {
		s.tooDeep = p.key
		s.stop()
	}
	return p
}
