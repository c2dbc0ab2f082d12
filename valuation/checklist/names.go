package checklist

import (
	"fmt"
	"strconv"
	"strings"

	"lotgauge/valuation/diag"
)

// A place is where a name stands in a document: at a key of a table, or at one
// item of the array there.
type place struct {
	table *diag.Table
	key   string
	item  int // from 0; -1: the value of the key as a whole
}

// at is the place of the value of a key.
func at(t *diag.Table, key string) place { return place{t, key, -1} }

// report adds an error at the place.
func (p place) report(summary, expected, try string) {
	if p.item < 0 {
		p.table.Report(p.key, summary, expected, try)
		return
	}
	p.table.ReportItem(p.key, p.item, summary, expected, try)
}

// A roster is the ids of one list, for finding duplicates and resolving names.
type roster struct {
	kind  string // what the ids name, "point"
	ids   []string
	index map[string]int
	// partial: some of the list could not be read, and is reported. A name that is
	// not known may be of it, and nothing is said of such a name.
	partial bool
}

func newRoster(kind string) *roster {
	return &roster{kind: kind, index: map[string]int{}}
}

// enter adds the id at the next index, and reports one that is there already.
// An empty id is one that could not be read: nothing is found under it.
func (r *roster) enter(id string, p place) {
	if id == "" {
		r.partial = true
	} else if _, ok := r.index[id]; ok {
		p.report("duplicate "+r.kind+" "+quoted(id), "an id of its own", "")
	} else {
		r.index[id] = len(r.ids)
	}
	r.ids = append(r.ids, id)
}

// find is the index of id, -1 for an unknown one, which is reported where it can
// be none of the list.
func (r *roster) find(id string, p place) int {
	i, ok := r.index[id]
	if !ok {
		if r.partial {
			return -1
		}
		p.report("unknown "+r.kind+" "+quoted(id), r.choice(), try(r.near(id)))
		return -1
	}
	return i
}

// near is the known id nearest to id, or "".
func (r *roster) near(id string) string { return near(id, r.ids) }

// choice says what find would have accepted, naming all where they are few.
func (r *roster) choice() string {
	switch n := len(r.ids); {
	case r.partial:
		return "one of those defined here"
	case n == 0:
		return "it left out: none is defined here"
	case n <= 6:
		return anyOf(r.ids)
	}
	return fmt.Sprintf("one of the %d defined here", len(r.ids))
}

// near is the known name nearest to name, or "".
func near(name string, known []string) string {
	nearest, _ := diag.Nearest(name, known)
	return nearest
}

// try is a near name as a message suggests it, "" where there is none.
func try(near string) string {
	if near == "" {
		return ""
	}
	return quoted(near)
}

// quoted is a name in quotes, for messages.
func quoted(s string) string { return strconv.Quote(s) }

// anyOf lists values of which one is expected: `"a", "b" or "c"`.
func anyOf(names []string) string {
	quotes := make([]string, len(names))
	for i, name := range names {
		quotes[i] = quoted(name)
	}
	return listed(quotes)
}

// listed joins names for a message: "a, b or c".
func listed(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// isID tells whether s may be an id: ASCII letters, digits, - and _.
func isID(s string) bool {
	return s != "" && strings.Trim(s, idLetters) == ""
}

const idLetters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_"

// A piece of a text is either plain or the name out of a pair of braces.
type piece struct {
	text string
	name bool
}

// pieces splits a text such as "lamp-{lamps}" at its braces. It is false where
// they do not pair up or enclose nothing.
func pieces(text string) (out []piece, ok bool) {
	for text != "" {
		open := strings.IndexAny(text, "{}")
		if open < 0 {
			return append(out, piece{text: text}), true
		}
		length := strings.IndexAny(text[open+1:], "{}")
		end := open + 1 + length
		if text[open] != '{' || length < 1 || text[end] != '}' {
			return nil, false
		}
		if open > 0 {
			out = append(out, piece{text: text[:open]})
		}
		out = append(out, piece{text: text[open+1 : end], name: true})
		text = text[end+1:]
	}
	return out, true
}
