package checklist

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation/diag"
)

// TestUnreadableIDs: an id that cannot be read is one mistake. What refers to it
// cannot be judged, and nothing is said of it, in any of the families that come
// with the program.
func TestUnreadableIDs(t *testing.T) {
	ways := []struct{ name, pattern, by string }{
		{"a number", `\bid = ("[^"\n]*")`, "5"},
		{"empty", `\bid = ("[^"\n]*")`, `""`},
		{"under a misspelt key", `\b(id) = "`, "idd"},
		{"left out", `(\bid = "[^"\n]*",? ?)`, ""},
	}
	for _, file := range append(families(t), "testdata/every-key.toml") {
		text, all := read(t, file), folder(t, filepath.Dir(file))
		foreign := func(id string) (Part, bool) {
			p, ok := all(id)
			return p, ok && p.File != filepath.Base(file)
		}
		if !strings.Contains(file, "checklists") {
			foreign = drawer(t)
		}
		for i, way := range ways {
			for n, m := range mutations(text, way.pattern, way.by) {
				if n%len(ways) == i || !strings.Contains(file, "checklists") { // of many ids each in one way
					m.expectOne(t, file+": "+way.name, foreign)
				}
			}
		}
	}
}

// expectOne expects one diagnostic of a mutation, an error.
func (m mutation) expectOne(t *testing.T, name string, foreign func(string) (Part, bool)) {
	t.Helper()
	doc := diag.ReadDocument("", strings.NewReader(m.text))
	Prove(Read(doc, foreign), doc)
	if list := doc.Diagnostics(); len(list) != 1 || list[0].Severity != diag.Error {
		t.Errorf("%s, line %d: %s: %d diagnostics%s", name, m.line, m.what, len(list), firstOf(list))
	}
}

// firstOf are the first few of many diagnostics.
func firstOf(list diag.List) string {
	var b strings.Builder
	for _, d := range list[:min(len(list), 4)] {
		b.WriteString("\n    " + d.Error())
	}
	return b.String()
}

// TestOneMistakeInAFamily: a value that cannot be read and a key that is misspelt
// are one mistake each, wherever they stand in a family.
func TestOneMistakeInAFamily(t *testing.T) {
	text := read(t, "testdata/every-key.toml")
	spoiled := 0
	for _, way := range []struct{ name, pattern, by string }{
		{"a time", `\b\w+ = ("[^"\n]*"|[0-9.]+\b|true|false)`, "09:30:00"},
		{"no value", `\b\w+ = ("[^"\n]*"|[0-9.]+\b|true|false)`, "@"},
		{"a time for a list or a table", `(?m)^\w+ = ([\[{][^\n]*[\]}])$`, "09:30:00"},
		{"a time for an inline list or table", `(?m)\b\w+ = (\[[^\[\]]*\]|\{[^{}]*\})`, "09:30:00"},
		{"a time in a list", `\[(?:[^=\]\n]*, )?("[^"\n]*"|[0-9]{4})[^=\]\n]*\]`, "09:30:00"},
		{"a key misspelt", `\b[a-z_]+() = `, "x"},
		{"a table misspelt", `(?m)^\[\[[a-z]+()\]\]$`, "x"},
	} {
		for _, m := range mutations(text, way.pattern, way.by) {
			spoiled++
			m.expectOne(t, way.name, drawer(t))
		}
	}
	if spoiled < 300 {
		t.Errorf("only %d", spoiled)
	}
}

// TestReadParts: the parts are those of the whole family, and where some cannot be
// read it is said why.
func TestReadParts(t *testing.T) {
	for _, file := range families(t) {
		text := read(t, file)
		var own []Part
		for _, p := range Read(diag.ReadDocument(file, strings.NewReader(text)), folder(t, filepath.Dir(file))).Parts {
			if !p.Foreign {
				own = append(own, p)
			}
		}
		parts, diags := ReadParts(diag.ReadDocument(file, strings.NewReader(text)))
		if diff := cmp.Diff(own, parts); diff != "" || len(own) == 0 || diags != nil {
			t.Errorf("%s: %v (-family +parts):\n%s", file, diags, diff)
		}
	}
	text := read(t, "testdata/every-key.toml")
	for _, row := range []struct{ old, new, want string }{
		{`id = "lamp-black"`, "id = 5", "96:6: part[2].id: found the number 5"},
		{"[[part]]\nid = \"lamp-black\"", "[[prat]]\nid = \"lamp-black\"", "95:3: prat: unknown key: try part"},
	} {
		_, diags := ReadParts(diag.ReadDocument("", strings.NewReader(strings.Replace(text, row.old, row.new, 1))))
		if len(diags) != 1 || !strings.HasPrefix(diags.Error(), row.want) {
			t.Errorf("%s: %v", row.new, diags)
		}
	}
}
