package diag

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// A Table is a table or inline table at a known place. Its getters report what
// is wrong and go on; a value they refuse is reported once, however often it is
// asked for. The same key gives the same *Table each time.
//
// A nil *Table is an empty one that reports nothing: all methods may be called
// on what [Table.Child] returns.
type Table struct {
	doc    *Document
	path   string
	place  *place
	data   map[string]any
	absent []string // keys asked for that are not there
	opened []*Table // tables got from this one

	needed   map[string]int // by key reported as missing: which diagnostic of the document that is
	misspelt []string       // keys that an unknown one was taken to be
}

// table is the table at p, always the same one: what was asked of it by one
// reader is then known to the next.
func (d *Document) table(path string, p *place, data map[string]any) *Table {
	if p.table == nil {
		p.table = &Table{doc: d, path: path, place: p, data: data}
	}
	return p.table
}

// open is the table at p, got from t.
func (t *Table) open(path string, p *place, data map[string]any) *Table {
	if p.table == nil {
		t.opened = append(t.opened, t.doc.table(path, p, data))
	}
	return p.table
}

// Path is the path of the table in the document, such as "point[3].state[1]",
// where elements count from 1; "" for the root.
func (t *Table) Path() string {
	if t == nil {
		return ""
	}
	return t.path
}

// Pos is the position of the value of a key, or of the first header of a table;
// that of this table if it has no such key, or key is "".
func (t *Table) Pos(key string) Pos {
	if t == nil {
		return Pos{}
	}
	if p := t.place.child(key); p != nil && key != "" {
		return t.doc.pos(p.value)
	}
	return t.doc.pos(t.place.value)
}

// ItemPos is the position of the i-th element, from 0, of the array at key;
// that of the key if it has no such element.
func (t *Table) ItemPos(key string, i int) Pos {
	if t == nil || t.place.child(key) == nil {
		return t.Pos(key)
	}
	return t.doc.pos(t.place.child(key).item(i).value)
}

// Has reports whether the key is there. Asking makes it a known one, but its
// value is not looked into.
func (t *Table) Has(key string) bool {
	_, _, ok := t.find(key)
	return ok
}

// Refused reports whether the value of a key has been refused, by a getter or
// as it was read. It is for what a reader says of several keys together, at
// another place than that value's.
func (t *Table) Refused(key string) bool {
	if t == nil || t.place.child(key) == nil {
		return false
	}
	return t.doc.refused[t.Pos(key)]
}

// Unread reports whether a key is there but could not be read whole: its value, or
// an element of it, has been refused, or it stands, or some of its [[tables]] do,
// under a name that nobody asked for and that looks like it misspelt. It is for what
// a reader says where the value is needed, and tells the truth once all keys of the
// table have been asked for.
func (t *Table) Unread(key string) bool {
	if t == nil {
		return false
	}
	if p := t.place.child(key); p != nil {
		refused := func(item *place) bool { return t.doc.refused[t.doc.pos(item.value)] }
		if t.Refused(key) || slices.ContainsFunc(p.items, refused) {
			return true
		}
	}
	meant := func(c *place) bool {
		if c.asked {
			return false
		}
		near, ok := Nearest(c.name, t.candidates(c))
		return ok && near == key
	}
	return slices.Contains(t.misspelt, key) || slices.ContainsFunc(t.place.children, meant)
}

// Keys are the keys of the table in the order of the file. It makes none of
// them known: that is for the getter which reads the value.
func (t *Table) Keys() []string {
	if t == nil {
		return nil
	}
	keys := make([]string, len(t.place.children))
	for i, c := range t.place.children {
		keys[i] = c.name
	}
	return keys
}

// Need reports whether the key is there, and a key that is not as missing, with
// what was expected. It is for what the other getters take as optional. Where
// [Table.Finish] finds it misspelt, that is all that is said.
func (t *Table) Need(key, expected string) bool {
	has := t.Has(key)
	if has || t == nil || t.doc.broken {
		return has
	}
	if t.needed == nil {
		t.needed = map[string]int{}
	}
	if _, told := t.needed[key]; !told {
		next := len(t.doc.list)
		t.Report(key, "missing", expected, "")
		if len(t.doc.list) > next { // it stands there, and is not within a value refused
			t.needed[key] = next
		}
	}
	return false
}

// Report adds an error at a key, or at the table itself where key is "".
func (t *Table) Report(key, summary, expected, try string) {
	t.add(Diagnostic{Error, t.Pos(key), t.keyPath(key), summary, expected, try})
}

// Warn adds a warning at a key, or at the table itself where key is "".
func (t *Table) Warn(key, summary, expected, try string) {
	t.add(Diagnostic{Warning, t.Pos(key), t.keyPath(key), summary, expected, try})
}

// ReportItem adds an error at the i-th element, from 0, of the array at key.
func (t *Table) ReportItem(key string, i int, summary, expected, try string) {
	t.add(Diagnostic{Error, t.ItemPos(key, i), itemPath(t.keyPath(key), i), summary, expected, try})
}

// Finish reports the keys that no getter asked for, here and in all tables got
// from this one, with the nearest name that was asked for and is not used. It
// is called last, once on the root or on any table; a second time adds nothing.
func (t *Table) Finish() {
	if t == nil {
		return
	}
	for _, c := range t.place.children {
		if !c.asked {
			t.unknown(c)
		}
	}
	for _, o := range t.opened {
		o.Finish()
	}
}

// unknown reports a key that nobody asked for. Where no known name is near, the
// names that are still free are what was expected.
func (t *Table) unknown(c *place) {
	c.asked = true // so that it is reported once
	d := Diagnostic{Severity: Error, Pos: t.doc.pos(c.key), Key: join(t.path, c.name), Summary: "unknown key"}
	if near, ok := Nearest(c.name, t.candidates(c)); ok {
		d.Try = near
		t.excuse(near)
	} else if len(t.absent) > 0 {
		d.Expected = oneOf(t.absent)
	}
	t.add(d)
}

// excuse takes back that a key is missing: it is there, but misspelt.
func (t *Table) excuse(key string) {
	t.misspelt = append(t.misspelt, key)
	if i, ok := t.needed[key]; ok {
		t.doc.list[i] = Diagnostic{}
	}
}

// candidates are the names that an unknown key may have been meant to be: those
// not used yet, and for [[name]], which may come again, the other such names that
// were read.
func (t *Table) candidates(unknown *place) []string {
	names := slices.Clone(t.absent)
	for _, c := range t.place.children {
		if unknown.isTables() && c.isTables() && c.items[0].table != nil {
			names = append(names, c.name)
		}
	}
	return names
}

// add adds a diagnostic, unless the document could not be read anyway.
func (t *Table) add(d Diagnostic) {
	if t != nil && !t.doc.broken {
		t.doc.Add(d)
	}
}

// refuse adds an error about the value at p, and makes it the only one there.
func (t *Table) refuse(p *place, path, summary, expected, try string) {
	pos := t.doc.pos(p.value)
	t.add(Diagnostic{Error, pos, path, summary, expected, try})
	t.doc.refused[pos] = true
}

// find is the value and place of a key, and whether it is there. All getters
// come through here: the key is a known one from now on, used or not.
func (t *Table) find(key string) (any, *place, bool) {
	if t == nil {
		return nil, nil, false
	}
	value, ok := t.data[key]
	p := t.place.child(key)
	if !ok || p == nil {
		if !slices.Contains(t.absent, key) {
			t.absent = append(t.absent, key)
		}
		return nil, nil, false
	}
	p.asked = true
	return p.take(value), p, true
}

// keyPath is the path of a key of the table, or of the table itself for "".
func (t *Table) keyPath(key string) string {
	if key == "" {
		return t.Path()
	}
	return join(t.Path(), key)
}

// join is the path of a key in the table at path, quoted where TOML needs it.
func join(path, key string) string {
	if key == "" || strings.ContainsFunc(key, notInID) {
		key = strconv.Quote(key)
	}
	if path == "" {
		return key
	}
	return path + "." + key
}

// itemPath is the path of the i-th element, from 0, of the array at path.
func itemPath(path string, i int) string { return fmt.Sprintf("%s[%d]", path, i+1) }

// notInID reports a character that is none of an id, nor of a bare TOML key.
func notInID(r rune) bool {
	letter := 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z'
	return !letter && !('0' <= r && r <= '9') && r != '-' && r != '_'
}
