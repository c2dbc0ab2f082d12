package diag

import (
	"strings"
)

// A mistake in the syntax must not hide the others. So where it is clear which
// value or key it is in, a stand-in of the same length takes its place, which
// shifts nothing, and the parser reads the text again. Getters know a stand-in
// and say no more of it: it is as if one of them had refused the value.
//
// Nothing is made up: where a mistake is not clearly in one value or key, or what
// follows on its line is no better, the document is broken and what was said so
// far is all.

// maxMends is how many mistakes are gone past in a document, and mendable the
// bytes of the longest one they are gone past in: each costs reading it again.
const (
	maxMends = 20
	mendable = 256 << 10
)

// A mend is one stand-in.
type mend struct {
	from, to int    // bytes of the text that it replaces
	text     string // what stands there now, as long
	value    int    // byte offset of the value that is a stand-in; -1 where the value is real
	key      int    // byte offset of a key that may be another; -1 where it is what it is
	meant    any    // what the value was meant to be
	clear    bool   // a slip: one may be told even beside another
}

// unreadable is the value of a stand-in where it is not known what was meant.
// No getter accepts it.
type unreadable struct{}

// apply puts the stand-in in its place.
func (m mend) apply(text string) string { return text[:m.from] + m.text + text[m.to:] }

// mendFor finds a mend for the mistake at a byte offset, and better words for it
// where it is a frequent slip, with the offset they go with. No mend has no text.
func mendFor(text string, found location, offset int, x Diagnostic) (m mend, at int, better Diagnostic) {
	if offset < 0 || offset > len(text) || len(text) > mendable {
		return mend{}, offset, x
	}
	if p, inline := lastScalar(found.root, offset, false); p != nil && !strings.Contains(text[p.value:offset], "\n") {
		if m, at, better = mendValue(text, p.value, offset, inline, x); m.text != "" || better != x {
			return m, at, better
		}
	}
	start := strings.LastIndexByte(text[:offset], '\n') + 1
	if _, err := decode(text[:start]); err != nil { // inside of something
		return mend{}, offset, x
	}
	m, better = mendKey(start, lineOf(text, start), x)
	return m, offset, better
}

// lineOf is the rest of the line from an offset, without its end.
func lineOf(text string, from int) string {
	line, _, _ := strings.Cut(text[from:], "\n")
	return strings.TrimSuffix(line, "\r")
}

// lastScalar is the place of the last value up to an offset that is neither
// table nor array, and whether it stands within { } or [ ].
func lastScalar(p *place, offset int, inline bool) (last *place, within bool) {
	below := p.items
	if len(below) == 0 {
		below = p.children
	}
	if len(below) == 0 && p.value >= 0 && p.value <= offset {
		return p, inline
	}
	for _, c := range below {
		if len(p.items) == 0 && !c.defined && len(c.children)+len(c.items) == 0 { // the locator stopped in its key
			continue
		}
		if q, w := lastScalar(c, offset, inline || p.closed); q != nil && (last == nil || q.value >= last.value) {
			last, within = q, w
		}
	}
	return last, within
}

// mendValue mends the value at v if the mistake at offset is in it. Outside of
// brackets that is all of the line, unless there is another key on it.
func mendValue(text string, v, offset int, inline bool, x Diagnostic) (mend, int, Diagnostic) {
	rest := lineOf(text, v)
	if rest == "" || strings.ContainsRune("[{=", rune(rest[0])) || strings.HasPrefix(rest, `"""`) || strings.HasPrefix(rest, `'''`) {
		return mend{}, offset, x
	}
	s, length, better := findSlip(rest, x)
	at := offset
	switch {
	case s == nil && inline:
		length = inlineEnd(rest)
	case !inline && !strings.Contains(rest[length:], "="):
		length = len(rest)
	}
	if s == nil && strings.Contains(rest[:length], "=") {
		length = 0
	}
	if s != nil && !s.stay {
		at = v
	}
	if length == 0 || offset > v+length && (s == nil || strings.TrimLeft(text[v+length:offset], " \t") != "") {
		return mend{}, offset, x
	}
	return mend{from: v, to: v + length, text: standIn("0", length), value: v, key: -1,
		meant: meantBy(better.Try), clear: s != nil}, at, better
}

// inlineEnd is the length of a value within { } or [ ], 0 where a quote keeps
// that from being clear.
func inlineEnd(rest string) int {
	if quote := rest[:1]; quote == `"` || quote == "'" {
		s := scanner{text: rest, pos: 1}
		if !s.close(quote) {
			return 0
		}
		return s.pos
	}
	if end := strings.IndexAny(rest, ",]}#"); end >= 0 {
		return end
	}
	return len(rest)
}

// standIn fills text up with spaces.
func standIn(text string, length int) string { return text + strings.Repeat(" ", length-len(text)) }

// meantBy is the value that is tried in the place of a mistake.
func meantBy(try string) any {
	try, _, _ = strings.Cut(try, " or ")
	try, _, _ = strings.Cut(try, ", in single")
	if data, err := decode("x = " + try); err == nil && len(data) == 1 {
		return data["x"]
	}
	return unreadable{}
}

// What a line looks like whose key, or what follows it, is wrong.
var (
	noValue  = pattern(`^([ \t]*[\w-]+)[ \t]*=[ \t]*(?:#.*)?$`)
	noEquals = pattern(`^([ \t]*[\w-]+)[ \t]*(:|[ \t])[ \t]*(["'\d].*|true|false)$`)
	colon    = pattern(`^([ \t]*[\w-]+)[ \t]*(:)[ \t]*([^=]*)$`)
	oddKey   = pattern(`^([ \t]*)([\pL\d_-][\pL\d_ -]*?)[ \t]*=`)
	odd      = pattern(`[^\w-]`)
)

// mendKey mends a line of its own at a byte offset: a key without a value,
// without = after it, or with characters that a key has not.
func mendKey(start int, line string, x Diagnostic) (mend, Diagnostic) {
	end := start + len(line)
	if m := noValue().FindStringSubmatch(line); m != nil && len(m[1])+2 <= len(line) {
		return mend{from: start, to: end, text: standIn(m[1]+"=0", len(line)),
			value: start + len(m[1]) + 1, key: -1, meant: unreadable{}}, x
	}
	m := noEquals().FindStringSubmatch(line)
	if m == nil {
		m = colon().FindStringSubmatch(line)
	}
	if m != nil && len(m[1])+2 <= len(line) {
		if x.Try = "= in place of the colon"; m[2] != ":" {
			x.Try = "= between " + strings.TrimLeft(m[1], " \t") + " and its value"
		}
		return mend{from: start, to: end, text: standIn(m[1]+"=0", len(line)),
			value: start + len(m[1]) + 1, key: start + indent(line), meant: meantBy(m[3])}, x
	}
	if m := oddKey().FindStringSubmatch(line); m != nil && odd().MatchString(m[2]) {
		from := start + len(m[1])
		if plain := strings.ReplaceAll(m[2], " ", "_"); !odd().MatchString(plain) {
			x.Try = plain
		}
		key := odd().ReplaceAllStringFunc(m[2], func(c string) string { return strings.Repeat("_", len(c)) })
		return mend{from: from, to: from + len(m[2]), text: key, value: -1, key: from}, x
	}
	return mend{}, x
}

// indent is the number of blanks that a line begins with.
func indent(line string) int { return len(line) - len(strings.TrimLeft(line, " \t")) }

// settle makes the stand-ins known to the getters.
func (d *Document) settle(p *place, mends []mend) {
	for i := range mends {
		m := &mends[i]
		if m.value >= 0 && p.value == m.value {
			p.meant = m.meant
			d.refused[d.pos(p.value)] = true
		}
		if m.key >= 0 && p.key == m.key {
			p.asked = true
		}
	}
	for _, below := range [][]*place{p.children, p.items} {
		for _, c := range below {
			d.settle(c, mends)
		}
	}
}
