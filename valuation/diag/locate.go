package diag

import "strings"

// Deeper or longer paths are refused: the parser recurses for each level, and
// keeps the whole path of each key.
const (
	maxDepth = 64
	maxPath  = 512
)

// A location is what locate finds: where everything is, and the first key that
// is defined again, which the parser does not always notice.
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

type scanner struct {
	location
	text string
	pos  int
}

// header reads [a.b] or [[a.b]] and is the table it opens.
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

// element is the next table of an array of tables.
func (s *scanner) element(array *place, key, header int) *place {
	if array.defined {
		s.repeated(array, key)
	}
	if len(array.items) == 0 {
		array.value = header
	}
	return s.deepen(array.addItem(key))
}

// pair reads key = value.
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
// stands. A part that is an array of tables stands for the latest of them.
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

// define gives p its own header or value.
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

// value reads a value into p.
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

// key reads one part of a key.
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
	data, err := decode("key = " + name)
	if err != nil {
		s.stop()
	}
	name, _ = data["key"].(string)
	return name
}

// quoted skips a string of any of the four kinds.
func (s *scanner) quoted() {
	at, quote := s.pos, s.text[s.pos:s.pos+1]
	quotes := strings.Repeat(quote, 3)
	if !s.skip(quotes) {
		quotes = quote
		s.skip(quote)
	}
	if !s.close(quotes) {
		s.unclosed = at
	}
	for range len(quotes) - 1 { // a long text may itself end in one or two quotes
		s.skip(quote)
	}
}

// close skips to behind the closing quotes, and reports whether there are any.
// A backslash keeps a double quote from closing.
func (s *scanner) close(quotes string) bool {
	for s.pos < len(s.text) {
		switch {
		case s.skip(quotes):
			return true
		case s.peek() == '\\' && quotes[0] == '"':
			s.pos += 2
		default:
			s.pos++
		}
	}
	s.stop()
	return false
}

// deepen returns p, and stops at one that is too deep.
func (s *scanner) deepen(p *place) *place {
	if s.tooDeep < 0 && (p.depth > maxDepth || p.length > maxPath) {
		s.tooDeep = p.key
		s.stop()
	}
	return p
}

// stop ends the walk: nothing is left.
func (s *scanner) stop() { s.pos = len(s.text) }

// peek is the next byte, 0 at the end.
func (s *scanner) peek() byte {
	if s.pos >= len(s.text) {
		return 0
	}
	return s.text[s.pos]
}

// skip goes past token if it comes next.
func (s *scanner) skip(token string) bool {
	if !strings.HasPrefix(s.text[min(s.pos, len(s.text)):], token) {
		return false
	}
	s.pos += len(token)
	return true
}

// until goes to the next of some bytes, or to the end.
func (s *scanner) until(stops string) {
	if n := strings.IndexAny(s.text[s.pos:], stops); n >= 0 {
		s.pos += n
	} else {
		s.stop()
	}
}

// blank goes past white space, new lines and comments.
func (s *scanner) blank() {
	for {
		switch s.peek() {
		case ' ', '\t', '\r', '\n':
			s.pos++
		case '#':
			s.until("\n")
		default:
			return
		}
	}
}
