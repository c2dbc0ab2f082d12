package diag

import (
	"maps"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/txtar"
)

// FuzzReadDocument reads anything with every getter and prints what is found:
// nothing may panic, nothing more is found in a broken document, each diagnostic
// points inside its file, what is printed is harmless, and the locator agrees
// with the parser wherever that accepts the text.
func FuzzReadDocument(f *testing.F) {
	for _, text := range corpus(f) {
		f.Add(text, 40)
	}
	f.Fuzz(checkDocument)
}

// FuzzSoup does the same with documents made of tokens, of which the parser
// accepts more.
func FuzzSoup(f *testing.F) {
	f.Add([]byte{2, 3}, 40)
	f.Add([]byte{17, 2, 15, 1, 5, 0, 6, 14}, 40)
	f.Fuzz(func(t *testing.T, choices []byte, width int) {
		checkDocument(t, soup(choices[:min(len(choices), 100)]), width)
	})
}

func checkDocument(t *testing.T, text string, width int) {
	d := ReadDocument("f.toml", strings.NewReader(text))
	mistakes := len(d.list)
	if d.Broken() && mistakes == 0 || mistakes > maxMends+1 {
		t.Errorf("broken %v with %v", d.Broken(), d.list)
	}
	if mistakes == 0 && !agree(t, d.text) {
		t.Error("it is read, and the parser refuses it")
	}
	refusal := func(x Diagnostic) bool {
		return x.Pos.Line == 0 || x.Expected == "each key once" || x.Summary == "nested too deeply"
	}
	if mistakes > 0 && !slices.ContainsFunc(d.list, refusal) && agree(t, d.text) {
		t.Errorf("the parser reads it: %v", d.list)
	}
	readSample(d)
	if d.Broken() && len(d.list) != mistakes {
		t.Errorf("broken, and yet read: %v", d.list)
	}
	askAll(d.Root())
	d.Root().Finish()
	checkInside(t, text, d.Diagnostics())
	checkHarmless(t, render(t, d.Diagnostics(), width))
}

// askAll asks a table, and all below, for all it has in every way.
func askAll(t *Table) {
	if t == nil {
		return
	}
	for _, key := range append(t.Keys(), "absent", "") {
		t.Text(key)
		t.ID(key)
		t.Required(key)
		t.Choice(key, "", "a", "b")
		t.Number(key, 0, 0, 1)
		t.Integer(key, 0, 0, 1)
		t.Flag(key, false)
		t.Date(key)
		t.Dates(key)
		t.Integers(key)
		for i := range t.Texts(key) {
			t.ReportItem(key, i, "x", "", "")
		}
		Parse(t, key, "an amount", sampleAmount)
		t.Report(key, "x", "", "")
		askAll(t.Child(key))
		for _, c := range t.Children(key) {
			askAll(c)
		}
		for _, item := range t.Items(key) {
			askAll(item.Table)
		}
	}
}

// checkInside holds each position against the text, cut into lines as an
// editor does.
func checkInside(t *testing.T, text string, list List) {
	t.Helper()
	lines := strings.Split(strings.TrimPrefix(text, "\uFEFF"), "\n")
	for _, d := range list {
		p := d.Pos
		if p.File != "f.toml" || p.Line < 0 || p.Line > len(lines) {
			t.Errorf("%v is no line of %d", p, len(lines))
		} else if p.Line == 0 && p.Column != 0 {
			t.Errorf("%v: a column of no line", p)
		} else if p.Line > 0 && (p.Column < 1 || p.Column > utf8.RuneCountInString(lines[p.Line-1])+1) {
			t.Errorf("%v is outside %q", p, lines[p.Line-1])
		}
	}
}

func checkHarmless(t *testing.T, printed string) {
	t.Helper()
	if !utf8.ValidString(printed) || strings.ContainsFunc(strings.ReplaceAll(printed, "\n", ""), harmful) {
		t.Errorf("harmful: %q", printed)
	}
}

// FuzzClean states what Clean promises: harmless, in one line, unchanged the
// second time, and unchanged at all if there was nothing to clean.
func FuzzClean(f *testing.F) {
	for _, s := range []string{"", "plain", "\x1b[31m", "a\u202eb", "\xff\xfe", "a\nb\u2028", "größe 🚂"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got := Clean(s)
		if !utf8.ValidString(got) || strings.ContainsFunc(got, harmful) {
			t.Errorf("%q becomes %q", s, got)
		}
		if Clean(got) != got {
			t.Errorf("%q becomes %q and then %q", s, got, Clean(got))
		}
		if utf8.ValidString(s) && !strings.ContainsFunc(s, harmful) && got != s {
			t.Errorf("%q is changed to %q", s, got)
		}
	})
}

// FuzzNearest: the distance is a distance, and what is nearest is known.
func FuzzNearest(f *testing.F) {
	f.Add("pantograph", "pantogarph")
	f.Add("", "x")
	f.Fuzz(func(t *testing.T, a, b string) {
		x, y := []rune(a), []rune(b)
		if len(x) > 50 || len(y) > 50 {
			return
		}
		far := len(x) + len(y)
		d := distance(x, y, far)
		if back := distance(y, x, far); back != d {
			t.Errorf("%q to %q is %d, back %d", a, b, d, back)
		}
		if same := slices.Equal(x, y); same != (d == 0) || d > max(len(x), len(y)) || d < len(x)-len(y) {
			t.Errorf("%q to %q is %d", a, b, d)
		}
		if got, ok := Nearest(a, []string{b}); ok && got != b || !ok && got != "" {
			t.Errorf("nearest to %q is %q, %v", a, got, ok)
		}
		if _, ok := Nearest(a, []string{b, a}); !ok && len(x) > 1 {
			t.Errorf("%q is not near itself", a)
		}
	})
}

// corpus is all text of the tables of cases, and the documents.
func corpus(t testing.TB) []string {
	texts := make(map[string]bool)
	for _, name := range archives(t) {
		for _, file := range txtar.Parse([]byte(readFile(t, name))).Files {
			texts[string(file.Data)] = true
		}
	}
	for _, name := range documents(t) {
		texts[readFile(t, name)] = true
	}
	return slices.Sorted(maps.Keys(texts))
}
