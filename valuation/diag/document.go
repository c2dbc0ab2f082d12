package diag

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

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
// or badly encoded text, a mistake in the syntax) is one diagnostic, and leaves
// a Broken document with an empty root. The Document is never nil.
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
func (d *Document) Diagnostics() List { return d.list.Sorted() }

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
// the whole file). It returns false, for the caller to return.
func (d *Document) breaks(offset int, x Diagnostic) bool {
	d.broken = true
	x.Severity = Error
	x.Pos = d.pos(offset)
	d.Add(x)
	return false
}

// acceptText takes raw as the text of the document if it is one.
func (d *Document) acceptText(raw []byte) bool {
	if len(raw) > MaxDocument {
		return d.breaks(-1, Diagnostic{Summary: "the file is too large", Expected: fmt.Sprintf("at most %d KB", MaxDocument>>10)})
	}
	d.text = string(bytes.TrimPrefix(raw, []byte("\uFEFF")))
	if i := strings.IndexByte(d.text, 0); i >= 0 {
		x := Diagnostic{Summary: "this is no text file: it has a zero byte", Expected: "text in UTF-8"}
		if bytes.HasPrefix(raw, []byte("\xff\xfe")) || bytes.HasPrefix(raw, []byte("\xfe\xff")) {
			x.Summary = "the text is encoded in UTF-16"
			x.Try = "saving it as UTF-8"
		}
		return d.breaks(i, x)
	}
	if i := invalidUTF8(d.text); i >= 0 {
		return d.breaks(i, Diagnostic{
			Summary:  fmt.Sprintf("the byte 0x%02x is not UTF-8", d.text[i]),
			Expected: "text in UTF-8",
			Try:      "saving the file as UTF-8",
		})
	}
	if strings.TrimSpace(d.text) == "" {
		return d.breaks(-1, Diagnostic{Summary: "the file is empty", Expected: "a TOML document"})
	}
	return true
}

// invalidUTF8 is the offset of the first byte that is not UTF-8, -1 if all is.
func invalidUTF8(text string) int {
	for i, r := range text {
		if r == utf8.RuneError {
			if _, size := utf8.DecodeRuneInString(text[i:]); size == 1 {
				return i
			}
		}
	}
	return -1
}

// parse decodes the text and locates its keys.
func (d *Document) parse() (*place, map[string]any) {
	found := locate(d.text)
	if found.tooDeep >= 0 {
		d.breaks(found.tooDeep, Diagnostic{
			Summary:  "nested too deeply",
			Expected: fmt.Sprintf("at most %d levels, and keys of at most %d bytes in all", maxDepth, maxPath),
		})
		return &place{}, nil
	}
	data, err := decode(d.text)
	if err != nil {
		offset, x := syntaxError(err, found)
		d.breaks(offset, x)
		return &place{}, nil
	}
	return found.root, data
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
