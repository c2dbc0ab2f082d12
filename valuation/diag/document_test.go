package diag

import (
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	gocmp "github.com/google/go-cmp/cmp"
)

// TestReadDocumentRefuses: what is no document is one diagnostic, and nothing
// else is reported of it, whatever is asked.
func TestReadDocumentRefuses(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"empty", "", "f.toml: the file is empty: expected a TOML document"},
		{"blank", " \t\r\n\n", "f.toml: the file is empty: expected a TOML document"},
		{"only a byte order mark", "\uFEFF", "f.toml: the file is empty: expected a TOML document"},
		{"zero byte", "a = 1\nb = \"x\x00y\"\n", "f.toml:2:7: this is no text file: it has a zero byte: expected text in UTF-8"},
		{"zero byte in a comment", "a = 1 # \x00", "f.toml:1:9: this is no text file: it has a zero byte: expected text in UTF-8"},
		{"UTF-16, little endian", "\xff\xfea\x00=\x001\x00", "f.toml: the text is encoded in UTF-16: expected text in UTF-8; try saving the file as UTF-8"},
		{"UTF-16, big endian", "\xfe\xff\x00a\x00=\x001", "f.toml: the text is encoded in UTF-16: expected text in UTF-8; try saving the file as UTF-8"},
		{"UTF-16 without mark", "a\x00=\x001\x00", "f.toml:1:2: this is no text file: it has a zero byte: expected text in UTF-8"},
		{"Latin-1", "a = 1\r\n\r\ntitle = \"gr\xf6\xdfer\"\n", "f.toml:3:12: the byte 0xf6 is not UTF-8: expected text in UTF-8; try saving the file as UTF-8"},
		{"cut inside a character", "a = \"\xe2\x82", "f.toml:1:6: the byte 0xe2 is not UTF-8: expected text in UTF-8; try saving the file as UTF-8"},
		{"stray continuation", "\xbf", "f.toml:1:1: the byte 0xbf is not UTF-8: expected text in UTF-8; try saving the file as UTF-8"},
		{"stray continuation in a line", "a = \x80", "f.toml:1:5: the byte 0x80 is not UTF-8: expected text in UTF-8; try saving the file as UTF-8"},
		{"overlong", "a = \"\xc0\xaf\"", "f.toml:1:6: the byte 0xc0 is not UTF-8: expected text in UTF-8; try saving the file as UTF-8"},
		{"surrogate", "a = \"\xed\xa0\x80\"", "f.toml:1:6: the byte 0xed is not UTF-8: expected text in UTF-8; try saving the file as UTF-8"},
		{"control character", "a = 1\n# \x1b[31m", "f.toml:2:3: the control character 0x1b cannot stand in a text file: expected text in UTF-8"},
		{"delete", "a = \"\x7f\"", "f.toml:1:6: the control character 0x7f cannot stand in a text file: expected text in UTF-8"},
		{"lone carriage return", "a = 1\rb = 2", "f.toml:1:6: the control character 0x0d cannot stand in a text file: expected text in UTF-8"},
		{"carriage return at the end", "a = 1\n\r", "f.toml:2:1: the control character 0x0d cannot stand in a text file: expected text in UTF-8"},
		{"too large", "# " + strings.Repeat("x", MaxDocument), "f.toml: the file is too large: expected at most 1024 KB"},
		{"deep list", "a = " + strings.Repeat("[", 100_000), "f.toml:1:69: nested too deeply: expected at most 64 levels, and paths of at most 512 bytes"},
		{"deep tables", "a = " + strings.Repeat("{a=", 100_000), "f.toml:1:195: nested too deeply: expected at most 64 levels, and paths of at most 512 bytes"},
		{"long dotted key", strings.Repeat("a.", 100_000) + "a = 1", "f.toml:1:129: nested too deeply: expected at most 64 levels, and paths of at most 512 bytes"},
		{"long key", "a = 1\n" + strings.Repeat("a", 513) + " = 1", "f.toml:2:1: nested too deeply: expected at most 64 levels, and paths of at most 512 bytes"},
	} {
		t.Run(test.name, func(t *testing.T) {
			d := ReadDocument("f.toml", strings.NewReader(test.text))
			if !d.Broken() {
				t.Error("it is not broken")
			}
			readSample(d)
			d.Root().Report("title", "more", "", "")
			if diff := gocmp.Diff(test.want, said(d)); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// TestReadDocumentAccepts: what is no mistake, however odd.
func TestReadDocumentAccepts(t *testing.T) {
	for _, test := range []struct{ name, text string }{
		{"byte order mark", "\uFEFFtitle = 3"},
		{"line ends of two characters", "\r\n\r\ntitle = \"\"\"\r\nx\"\"\"\r\nnote = 3\r\n"},
		{"as large as may be", "title = 3 # " + strings.Repeat("x", MaxDocument-12)},
		{"as deep as may be", "title = " + strings.Repeat("[", 63) + strings.Repeat("]", 63)},
		{"as long a key as may be", "title = 3\nhidden." + strings.Repeat("x", maxPath-6) + " = 1"},
		{"a replacement character", "title = 3 # \uFFFD"},
	} {
		d := ReadDocument("f.toml", strings.NewReader(test.text))
		if d.Broken() || len(d.Diagnostics()) > 0 || !d.Root().Has("title") {
			t.Errorf("%s: %v", test.name, d.Diagnostics())
		}
	}
}

// TestPositionsAfterMarks: neither a byte order mark nor line ends of two
// characters shift a position.
func TestPositionsAfterMarks(t *testing.T) {
	for _, text := range []string{"title = 3\nnote = 4\n", "\uFEFFtitle = 3\nnote = 4\n", "title = 3\r\nnote = 4\r\n"} {
		d := ReadDocument("f", strings.NewReader(text))
		if title, note := d.Root().Pos("title"), d.Root().Pos("note"); title != (Pos{"f", 1, 9}) || note != (Pos{"f", 2, 8}) {
			t.Errorf("%q: title at %v, note at %v", text, title, note)
		}
	}
}

func TestReadDocumentFailingReader(t *testing.T) {
	r := io.MultiReader(strings.NewReader("title = 3\n"), iotest.ErrReader(errors.New("the cable is out")))
	d := ReadDocument("f.toml", r)
	if got, want := said(d), "f.toml: cannot be read: the cable is out"; got != want || !d.Broken() {
		t.Errorf("got %q, want %q", got, want)
	}
}

// TestReadDocumentStopsReading gives a file of 50 MB: a little more than
// MaxDocument of it may be read.
func TestReadDocumentStopsReading(t *testing.T) {
	endless := &counter{limit: 50 << 20}
	if d := ReadDocument("f.toml", endless); !d.Broken() {
		t.Error("it is not broken")
	}
	if endless.read > MaxDocument+1 {
		t.Errorf("%d bytes were read", endless.read)
	}
}

// counter is a reader of limit spaces that counts what is read.
type counter struct{ read, limit int }

func (c *counter) Read(p []byte) (int, error) {
	n := min(len(p), c.limit-c.read)
	for i := range n {
		p[i] = ' '
	}
	if c.read += n; n == 0 {
		return 0, io.EOF
	}
	return n, nil
}

func TestDocumentAdd(t *testing.T) {
	d := ReadDocument("f.toml", strings.NewReader("title = 3\nnote = 4\n"))
	if d.File() != "f.toml" || d.Broken() {
		t.Errorf("file %q, broken %v", d.File(), d.Broken())
	}
	d.Add(Diagnostic{Severity: Warning, Summary: "of the file"})
	d.Add(at("other.toml", 1, 9, "elsewhere"))
	d.Root().Text("title")
	d.Add(at("", 1, 9, "follows from the one before"))
	d.Add(at("", 2, 8, "of the note"))
	want := "f.toml: warning: of the file\n" +
		"f.toml:1:9: title: found the number 3: expected a quoted string; try \"3\"\n" +
		"f.toml:2:8: of the note\n" +
		"other.toml:1:9: elsewhere"
	if diff := gocmp.Diff(want, said(d)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestBrokenDocumentTakesOthersWord: what is added by hand is kept even there.
func TestBrokenDocumentTakesOthersWord(t *testing.T) {
	d := ReadDocument("f.toml", strings.NewReader(""))
	d.Add(Diagnostic{Severity: Warning, Summary: "nobody refers to it"})
	if got := len(d.Diagnostics()); got != 2 {
		t.Errorf("%d diagnostics", got)
	}
	if keys := d.Root().Keys(); len(keys) > 0 || d.Root().Path() != "" {
		t.Errorf("a root with %v", keys)
	}
}

// said is all that a document reports, one diagnostic a line.
func said(d *Document) string {
	var lines []string
	for _, x := range d.Diagnostics() {
		lines = append(lines, x.Error())
	}
	return strings.Join(lines, "\n")
}
