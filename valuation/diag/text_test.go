package diag

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	gocmp "github.com/google/go-cmp/cmp"
)

func TestClean(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"plain", `Größe "ab" \ 日本語 🚂`, `Größe "ab" \ 日本語 🚂`},
		{"empty", "", ""},
		{"line ends and tabs", "a\nb\r\nc\td", `a\nb\r\nc\td`},
		{"escape sequence", "\x1b[31mred\x1b[0m", `\x1b[31mred\x1b[0m`},
		{"C0", "\x00\x07\x08\x1f", `\x00\x07\x08\x1f`},
		{"DEL", "\x7f", `\x7f`},
		{"C1", "\u0080\u009b31m\u009f", `\x80\x9b31m\x9f`},
		{"just beyond C1", "\u00a0", "\u00a0"},
		{"embeddings and overrides", "\u202a\u202b\u202c\u202d\u202e", `\u202a\u202b\u202c\u202d\u202e`},
		{"isolates", "\u2066\u2067\u2068\u2069", `\u2066\u2067\u2068\u2069`},
		{"marks", "\u200e\u200f\u061c", `\u200e\u200f\u061c`},
		{"separators", "\u2028\u2029", `\u2028\u2029`},
		{"joiners stay", "a\u200db", "a\u200db"},
		{"not UTF-8", "a\xffb\x9bc", "a\uFFFDb\uFFFDc"},
		{"a replacement character stays", "\uFFFD", "\uFFFD"},
		{"cut short", "a\xe2\x80", "a\uFFFD"},
	} {
		got := Clean(test.text)
		if got != test.want {
			t.Errorf("%s: got %q, want %q", test.name, got, test.want)
		}
		if again := Clean(got); again != got {
			t.Errorf("%s: cleaned twice %q, once %q", test.name, again, got)
		}
	}
}

func TestWriteTextWraps(t *testing.T) {
	long := List{{Error, Pos{"families/a.toml", 12, 5}, "point[1].id", "one two three four five six", "seven eight nine ten", "eleven"}}
	for _, test := range []struct {
		width int
		want  string
	}{
		{0, "families/a.toml:12:5: point[1].id: one two three four five six\n    expected seven eight nine ten\n    try eleven\n"},
		{-1, "families/a.toml:12:5: point[1].id: one two three four five six\n    expected seven eight nine ten\n    try eleven\n"},
		{40, "families/a.toml:12:5: point[1].id: one\n    two three four five six\n    expected seven eight nine ten\n    try eleven\n"},
		{39, "families/a.toml:12:5: point[1].id: one\n    two three four five six\n    expected seven eight nine ten\n    try eleven\n"},
		{38, "families/a.toml:12:5: point[1].id: one\n    two three four five six\n    expected seven eight nine ten\n    try eleven\n"},
		{37, "families/a.toml:12:5: point[1].id:\n    one two three four five six\n    expected seven eight nine ten\n    try eleven\n"},
		{1, "families/a.toml:12:5:\n    point[1].id:\n    one\n    two\n    three\n    four\n    five\n    six\n" +
			"    expected\n      seven\n      eight\n      nine\n      ten\n    try\n      eleven\n"},
	} {
		if diff := gocmp.Diff(test.want, render(t, long, test.width)); diff != "" {
			t.Errorf("width %d (-want +got):\n%s", test.width, diff)
		}
	}
}

// TestWriteTextCountsCharacters: a line of letters that take several bytes is
// as long as it looks.
func TestWriteTextCountsCharacters(t *testing.T) {
	l := List{{Summary: "äöü äöü äöü"}}
	if got, want := render(t, l, 11), "äöü äöü äöü\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestWriteTextCuts(t *testing.T) {
	var l List
	for i := range 90 {
		l.Add(warning("a", i+1, "doubtful"))
	}
	for i := range 30 {
		l.Add(at("b", i+1, 1, "wrong"))
	}
	text := render(t, l, 0)
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	if len(lines) != 101 || lines[100] != "20 more are not shown" {
		t.Fatalf("%d lines, the last %q", len(lines), lines[len(lines)-1])
	}
	if got := strings.Count(text, "wrong"); got != 30 {
		t.Errorf("%d of 30 errors are shown: warnings must give way", got)
	}
	if lines[69] != "a:70: warning: doubtful" || lines[70] != "b:1:1: wrong" {
		t.Errorf("order is lost: %q, %q", lines[69], lines[70])
	}
	if got := render(t, l[19:], 0); strings.Contains(got, "not shown") || strings.Count(got, "\n") != 101 {
		t.Errorf("one more than a hundred is cut:\n%s", got)
	}
	if got := render(t, l[18:], 0); !strings.HasSuffix(got, "\n2 more are not shown\n") {
		t.Errorf("two more than a hundred are not cut:\n%s", got)
	}
	if got := render(t, l[20:], 0); strings.Contains(got, "not shown") || strings.Count(got, "\n") != 100 {
		t.Errorf("a hundred are too many:\n%s", got)
	}
}

// TestWriteTextIsSafe puts every harmful character into every field.
func TestWriteTextIsSafe(t *testing.T) {
	evil := "x\x00\x1b]0;title\x07\u009b2J\u202e\u2066\n\r\t\x7f\xffy"
	l := List{{Error, Pos{evil, 1, 1}, evil, evil, evil, evil}}
	text := render(t, l, 0)
	if !utf8.ValidString(text) || strings.ContainsFunc(strings.ReplaceAll(text, "\n", ""), harmful) {
		t.Errorf("harmful: %q", text)
	}
	if got := strings.Count(text, "\n"); got != 3 {
		t.Errorf("%d lines, want 3: %q", got, text)
	}
}

func TestWriteTextFails(t *testing.T) {
	full := errors.New("the disk is full")
	err := List{{Summary: "x"}}.WriteText(writer(func([]byte) (int, error) { return 0, full }), 0)
	if !errors.Is(err, full) {
		t.Errorf("got %v", err)
	}
	if got := render(t, nil, 80); got != "" {
		t.Errorf("an empty list prints %q", got)
	}
}

type writer func([]byte) (int, error)

func (w writer) Write(p []byte) (int, error) { return w(p) }

func render(t testing.TB, l List, width int) string {
	t.Helper()
	var b strings.Builder
	if err := l.WriteText(&b, width); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func ExampleList_WriteText() {
	doc := ReadDocument("listing.toml", strings.NewReader("sale = \"auktion\"\nask = 38\n"))
	t := doc.Root()
	t.Choice("sale", "fixed", "auction", "fixed")
	Parse(t, "ask", `an amount such as "38 GBP"`, func(s string) (string, error) { return s, nil })
	t.Finish()
	var b strings.Builder
	if err := doc.Diagnostics().WriteText(&b, 60); err != nil {
		panic(err)
	}
	fmt.Print(b.String())
	// Output:
	// listing.toml:1:8: sale: found the text "auktion"
	//     expected "auction" or "fixed"
	//     try "auction"
	// listing.toml:2:7: ask: found the number 38
	//     expected a quoted string, an amount such as "38 GBP"
	//     try "38"
}
