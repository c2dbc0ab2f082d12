package diag

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"
)

// MaxDocument is the size in bytes of the largest document that is read. A
// larger one is one diagnostic.
const MaxDocument = 1 << 20

// A Document is a TOML document and what was found wrong with it so far. It is
// not safe for use by several goroutines.
type Document struct {
	file    string
	text    string // without byte order mark
	lines   lines
	root    *Table
	broken  bool
	list    List
	refused map[Pos]bool // where a getter refused a value
}

// ReadDocument reads a TOML document; file is how diagnostics name it. What
// cannot be read at all (a failing reader, an empty or too large file, binary
// or badly encoded text) is one diagnostic, and leaves a Broken document with an
// empty root. So does a mistake in the syntax, unless it is clearly within one
// value or key: that is reported, no getter speaks of it again, and the rest of
// the document is read. The Document is never nil.
func ReadDocument(file string, r io.Reader) *Document {
	d := &Document{file: file, refused: make(map[Pos]bool)}
	places, data := &place{}, map[string]any{}
	raw, err := io.ReadAll(io.LimitReader(r, MaxDocument+1))
	if err != nil {
		d.breaks(-1, Diagnostic{Summary: fmt.Sprintf("cannot be read: %v", err)})
	} else if d.acceptText(raw) {
		places, data = d.parse()
	}
	d.root = d.table("", places, data)
	return d
}

// Broken reports whether the document could not be read. Its tables are empty
// and report nothing more.
func (d *Document) Broken() bool { return d.broken }

// File is the name given to ReadDocument.
func (d *Document) File() string { return d.file }

// Root is the table of the whole document.
func (d *Document) Root() *Table { return d.root }

// Diagnostics is all found so far, sorted.
func (d *Document) Diagnostics() List {
	takenBack := func(x Diagnostic) bool { return x == Diagnostic{} }
	return slices.DeleteFunc(d.list.Sorted(), takenBack)
}

// Add adds a diagnostic; without a file it gets the document's. Where a getter
// has refused a value, nothing more is added: one mistake is one diagnostic.
func (d *Document) Add(x Diagnostic) {
	if x.Pos.File == "" {
		x.Pos.File = d.file
	}
	if !d.refused[x.Pos] {
		d.list.Add(x)
	}
}

// breaks adds the one diagnostic of a broken document, at a byte offset (-1:
// the whole file). Its severity and position are set here. It returns false,
// for the caller to return.
func (d *Document) breaks(offset int, x Diagnostic) bool {
	d.broken = true
	x.Severity = Error
	x.Pos = d.pos(offset)
	d.Add(x)
	return false
}

// parse decodes the text and locates its keys. The locator comes first, since
// it bounds what the parser gets to see; where both refuse, the parser says why,
// save of a key defined twice, where the locator knows both places. A mistake
// that can be mended is reported and gone past.
func (d *Document) parse() (*place, map[string]any) {
	text := d.text
	var mends []mend
	for {
		found := locate(text)
		data, offset, x, final := d.decode(text, found)
		if data != nil {
			if mends != nil {
				d.settle(found.root, mends)
			}
			return found.root, data
		}
		var m mend
		if !final {
			m, offset, x = mendFor(text, found, offset, x)
		}
		again := d.besides(offset, mends)
		if !again || m.clear {
			x.Severity, x.Pos = Error, d.pos(offset)
			d.Add(x)
		}
		if m.text == "" || again && !m.clear || len(mends) == maxMends {
			d.broken = true
			return &place{}, nil
		}
		text, mends = m.apply(text), append(mends, m)
	}
}

// decode is what the parser makes of a text, or what is wrong with it, at which
// byte offset, and whether that is final: nothing to be mended.
func (d *Document) decode(text string, found location) (data map[string]any, offset int, x Diagnostic, final bool) {
	if found.tooDeep >= 0 {
		return nil, found.tooDeep, Diagnostic{
			Summary:  "nested too deeply",
			Expected: fmt.Sprintf("at most %d levels, and paths of at most %d bytes", maxDepth, maxPath),
		}, true
	}
	data, err := decode(text)
	switch {
	case found.twice != nil && (err == nil || strings.Contains(err.Error(), "already")):
		return nil, found.again, Diagnostic{
			Summary:  fmt.Sprintf("the key %q is already defined on line %d", found.twice.name, d.pos(found.first).Line),
			Expected: "each key once",
		}, true
	case err != nil:
		offset, x = d.syntaxError(err, found)
		return nil, offset, x, false
	case data == nil:
		data = map[string]any{}
	}
	return data, 0, x, false
}

// besides reports whether a line has been mended before.
func (d *Document) besides(offset int, mends []mend) bool {
	line := d.pos(offset).Line
	for _, m := range mends {
		if d.pos(m.from).Line == line {
			return true
		}
	}
	return false
}

// decode is toml.Decode that returns the parser's own bugs as errors too: it
// panics when it meets one.
func decode(text string) (data map[string]any, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the TOML parser gave up: %v", r)
		}
	}()
	_, err = toml.Decode(text, &data)
	return data, err
}
