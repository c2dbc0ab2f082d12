package page

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestClean(t *testing.T) {
	for in, want := range map[string]string{
		"  plain  ":               "plain",
		"two\r\nlines\tand a tab": "two lines and a tab",
		"\x1b[31mred\x07":         `\x1b[31mred\x07`,
		"\u202eesrever":           `\u202eesrever`,
		"bad \xff byte":           "bad \uFFFD byte",
		"<b>&amp;</b>":            "<b>&amp;</b>",
		rightTo:                   rightTo,
	} {
		if got := clean(in); got != want {
			t.Errorf("clean(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestShorten(t *testing.T) {
	for _, c := range []struct {
		in   string
		most int
		want string
	}{
		{"short", 10, "short"},
		{"exactly ten", 11, "exactly ten"},
		{"one too many", 11, "one too ma…"},
		{"ends in a blank", 8, "ends in…"},
		{"ééé", 3, "ééé"},
		{"abcde\u0301fg", 6, "abcd…"}, // the accent stays with its letter
		{"abc👩‍🔧xyz", 6, "abc…"},      // a joined picture is not parted
		{"ab🇩🇪🇫🇷cd", 5, "ab…"},        // nor are flags
		{"ab👍🏽cd", 4, "ab…"},          // nor a picture and its colour
		{"", 5, ""},
	} {
		if got := shorten(c.in, c.most); got != c.want {
			t.Errorf("shorten(%q, %d) = %q, want %q", c.in, c.most, got, c.want)
		}
	}
}

func FuzzShorten(f *testing.F) {
	for _, s := range []string{"plain", pictures, rightTo, controls, strings.Repeat("\u0301", 50)} {
		f.Add(s, 7)
	}
	f.Fuzz(func(t *testing.T, s string, most int) {
		most = 2 + min(max(most, 0), 1000)
		s = clean(s)
		got := shorten(s, most)
		if !utf8.ValidString(got) || utf8.RuneCountInString(got) > most {
			t.Fatalf("shorten(%q, %d) = %q", s, most, got)
		}
		if head, cut := strings.CutSuffix(got, "…"); got != s && (!cut || !strings.HasPrefix(s, head)) {
			t.Fatalf("shorten(%q, %d) = %q", s, most, got)
		}
	})
}

func TestNewWords(t *testing.T) {
	if w := newWords("all of it", 20); w != (words{Short: "all of it"}) {
		t.Errorf("a short text gives %+v", w)
	}
	long := strings.Repeat("word ", 50)
	w := newWords(long, 20)
	if w.Short != "word word word word…" || w.Full != strings.TrimSpace(long) {
		t.Errorf("a long text gives %+v", w)
	}
}

func TestSmallWords(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{capital("ähnlich"), "Ähnlich"}, {capital(""), ""}, {capital("\xff"), "\uFFFD"},
		{stopped("an end"), "an end."}, {stopped("Really?"), "Really?"}, {stopped("and so …"), "and so …"}, {stopped(""), ""},
		{either(nil), ""}, {either([]string{"a"}), "a"}, {either([]string{"a", "b", "c"}), "a, b or c"},
		{where([]string{"photo", "seller", "x"}), "on a photo or by asking the seller"}, {where([]string{"hand"}), "in the hand"},
		{minutes(0), ""}, {minutes(2), "2\u00a0min"}, {minutes(0.5), "0.5\u00a0min"},
		{routeName("keep"), "restore and keep"}, {routeName("new\x1broute"), `new\x1broute`},
		{byWhat("hidden"), "not shown"}, {byWhat("hear\x1bsay"), `hear\x1bsay`},
		{counted(1, "draw", "draws"), "1 draw"}, {counted(20000, "draw", "draws"), "20\u202f000 draws"},
		{pieces(0), "0.00"}, {pieces(0.001), "<0.01"}, {pieces(3.374), "3.37"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
