package diag

import (
	"errors"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
)

// Laws that hold for every document of the test data, right or wrong.

// TestLineEndsDoNotMatter: a byte order mark and line ends of two characters
// change no diagnostic, and so no position.
func TestLineEndsDoNotMatter(t *testing.T) {
	for _, text := range corpus(t) {
		want := sampled(text)
		for name, other := range map[string]string{
			"byte order mark": "\uFEFF" + text,
			"CRLF":            strings.ReplaceAll(text, "\n", "\r\n"),
		} {
			if diff := gocmp.Diff(want, sampled(other)); diff != "" {
				t.Errorf("%s (-without +with):\n%s\nof\n%s", name, diff, text)
			}
		}
	}
}

// TestLinesBeforeMoveDiagnostics: with lines put before it, a document has the
// same diagnostics, as many lines further down.
func TestLinesBeforeMoveDiagnostics(t *testing.T) {
	const before = "# a comment with \"\"\" and [[ in it\n\n# größer\n"
	for _, text := range corpus(t) {
		want := slices.Clone(sampled(text))
		if strings.TrimSpace(text) == "" {
			continue
		}
		for i := range want {
			if want[i].Pos.Line > 0 {
				want[i].Pos.Line += 3
			}
		}
		got := sampled(before + text)
		for _, list := range []List{want, got} {
			for i := range list { // the one summary that names a line
				list[i].Summary, _, _ = strings.Cut(list[i].Summary, " on line ")
			}
		}
		if diff := gocmp.Diff(want, got); diff != "" {
			t.Errorf("(-want +got):\n%s\nof\n%s", diff, text)
		}
	}
}

// TestPrefixes: a document that was cut anywhere can be read, or is broken with
// one diagnostic inside of what is left.
func TestPrefixes(t *testing.T) {
	for _, name := range documents(t) {
		t.Run(filepath.Base(name), func(t *testing.T) {
			text := readFile(t, name)
			for end := range text {
				d := ReadDocument("f.toml", strings.NewReader(text[:end]))
				if d.Broken() && len(d.Diagnostics()) != 1 {
					t.Errorf("cut at %d: %v", end, d.Diagnostics())
				}
				readSample(d)
				checkInside(t, text[:end], d.Diagnostics())
			}
		})
	}
}

// TestEveryValueIsPointedAt spoils each value of a document in turn. The parser
// must stop at it, and a getter that wants something else must point at it:
// both at a place counted here by hand. Nothing else may be found because of it.
func TestEveryValueIsPointedAt(t *testing.T) {
	const name = "../../testdata/diag/document/valid/family.toml"
	text := readFile(t, name)
	values := scalars(locate(text).root)
	if len(values) < 50 {
		t.Fatalf("only %d values found", len(values))
	}
	sound := sampled(text)
	for _, p := range values {
		before, after := text[:p.value], text[valueEnd(text, p.value):]
		line := strings.Count(before, "\n") + 1
		column := len([]rune(before[strings.LastIndexByte(before, '\n')+1:])) + 1
		want := Pos{"f.toml", line, column}

		d := ReadDocument("f.toml", strings.NewReader(before+"@"+after))
		if got := d.Diagnostics(); d.Broken() || len(got) != 1 || got[0].Pos != want || got[0].Summary != "this is no value" {
			t.Errorf("no value: got %v, want it at %v", got, want)
		}
		readSample(d)
		for _, x := range d.Diagnostics() {
			if x.Pos != want && !slices.ContainsFunc(sound, func(y Diagnostic) bool { return x.Key == y.Key && x.Summary == y.Summary }) {
				t.Errorf("with no value at %v: %v", want, x)
			}
		}
		d = ReadDocument("f.toml", strings.NewReader(before+"09:30:00"+after))
		wantText(d.Root())
		at := func(x Diagnostic) bool { return x.Pos == want && x.Summary == "found a time" }
		if d.Broken() || !slices.ContainsFunc(d.Diagnostics(), at) {
			t.Errorf("a wrong value at %v: got %v", want, d.Diagnostics())
		}
	}
}

// scalars are the places of all values that are neither tables nor arrays.
func scalars(p *place) []*place {
	if len(p.children)+len(p.items) == 0 {
		return []*place{p}
	}
	var found []*place
	for _, below := range slices.Concat(p.children, p.items) {
		found = append(found, scalars(below)...)
	}
	return found
}

// valueEnd is where the scalar that starts at an offset ends.
func valueEnd(text string, offset int) int {
	s := scanner{text: text, pos: offset}
	if c := s.peek(); c == '"' || c == '\'' {
		s.quoted()
	} else {
		s.until(" ,]}#\r\n")
	}
	return s.pos
}

// wantText wants everything to be text, but goes into tables and arrays.
func wantText(t *Table) {
	for _, key := range t.Keys() {
		switch _, p, _ := t.find(key); {
		case t.IsTable(key):
			wantText(t.Child(key))
		case len(p.items) > 0:
			for _, item := range t.Items(key) {
				if item.Table != nil {
					wantText(item.Table)
				}
			}
		default:
			t.Text(key)
		}
	}
}

// TestOrderOfAskingDoesNotMatter: the diagnostics are sorted, and who asked
// first of what is right does not show.
func TestOrderOfAskingDoesNotMatter(t *testing.T) {
	const text = "a = 1\nb = \"x\"\nc = { d = true, e = 2026-03-14 }\nf = [1, \"y\"]\n"
	ask := []func(t *Table){
		func(t *Table) { t.Text("a") },
		func(t *Table) { t.Number("b", 0, 0, 1) },
		func(t *Table) { t.Child("c").Text("d") },
		func(t *Table) { t.Child("c").Flag("e", true) },
		func(t *Table) { t.Texts("f") },
	}
	var want string
	for i := range len(ask) {
		root := read(t, text)
		for j := range ask {
			ask[(i+j)%len(ask)](root)
		}
		root.Finish()
		if got := said(root.doc); i == 0 {
			want = got
		} else if got != want {
			t.Errorf("asked from %d on:\n%s\nfrom 0 on:\n%s", i, got, want)
		}
	}
	if n := strings.Count(want, "\n") + 1; n != 5 {
		t.Errorf("%d mistakes found of 5:\n%s", n, want)
	}
}

// TestForeignErrors: an error of the parser that is none of its own kind has no
// place.
func TestForeignErrors(t *testing.T) {
	d := ReadDocument("f.toml", strings.NewReader("a = 1"))
	offset, x := d.syntaxError(errors.New("out of order"), locate("a = 1"))
	if offset != -1 || x.Summary != "out of order" {
		t.Errorf("got %d, %v", offset, x)
	}
}

// sampled is what reading a text as a sample reports.
func sampled(text string) List {
	d := ReadDocument("f.toml", strings.NewReader(text))
	readSample(d)
	return d.Diagnostics()
}
