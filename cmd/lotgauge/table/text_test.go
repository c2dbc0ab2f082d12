package table

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
)

func TestWrap(t *testing.T) {
	for _, test := range []struct {
		text string
		most int
		want []string
	}{
		{"", 10, []string{""}},
		{"one two three", 13, []string{"one two three"}},
		{"one two three", 12, []string{"one two", "three"}},
		{"  one   two  ", 12, []string{"one two"}},
		{"it is 41.00\u00a0GBP now", 12, []string{"it is", "41.00 GBP", "now"}},
		{"unbreakable", 4, []string{"unbr", "eaka", "ble"}},
		{"an unbreakable one", 6, []string{"an", "unbrea", "kable", "one"}},
		{"電気機関車", 5, []string{"電気", "機関", "車"}},
		{"電気", 1, []string{"電", "気"}},
		{"e\u0301tat neuf", 4, []string{"e\u0301tat", "neuf"}},
	} {
		if diff := cmp.Diff(test.want, wrap(test.text, test.most)); diff != "" {
			t.Errorf("wrap(%q, %d) (-want +got):\n%s", test.text, test.most, diff)
		}
	}
}

// What is wrapped keeps its words, in their order, and every line fits.
func FuzzWrap(f *testing.F) {
	for _, s := range []string{"", "one two three", "unbreakable", "電気機関車の前の", "a\u0301b", "\xff\xfe", "\t\n\u00a0 x"} {
		f.Add(s, 7)
	}
	f.Fuzz(func(t *testing.T, s string, most int) {
		most = 2 + (most&0x7fffffff)%200
		lines := wrap(s, most)
		for _, line := range lines {
			if width(line) > most {
				t.Errorf("%q takes more than %d", line, most)
			}
		}
		if got, want := strings.Join(strings.Fields(strings.Join(lines, "")), ""), strings.Join(strings.Fields(s), ""); got != want {
			t.Errorf("wrap(%q) = %q", s, lines)
		}
	})
}

func TestChances(t *testing.T) {
	for _, test := range []struct {
		chance   valuation.Share
		column   string
		sentence string
	}{
		{0, "0%", "in none of 100"},
		{1e-12, "<1%", "in fewer than 1 of 100"},
		{0.004, "<1%", "in fewer than 1 of 100"},
		{0.005, "1%", "in 1 of 100"},
		{0.22, "22%", "in 22 of 100"},
		{0.994, "99%", "in 99 of 100"},
		{0.996, ">99%", "in more than 99 of 100"},
		{1 - 1e-8, ">99%", "in more than 99 of 100"},
		{1 - 1e-15, "100%", "in all of 100"},
		{1, "100%", "in all of 100"},
	} {
		if got := percent(test.chance); got != test.column {
			t.Errorf("percent(%v) = %q, want %q", test.chance, got, test.column)
		}
		if got := in100(test.chance); got != test.sentence {
			t.Errorf("in100(%v) = %q, want %q", test.chance, got, test.sentence)
		}
	}
}

func TestAligned(t *testing.T) {
	got := aligned([]string{"143.20 EUR", "-1.5 EUR", "5000 JPY", "1.234 KWD", "-"})
	want := []string{"143.20 EUR ", "-1.5 EUR  ", "5000 JPY    ", "1.234 KWD", "-        "}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestSmallWords(t *testing.T) {
	for _, test := range []struct{ got, want string }{
		{counted(1, "part"), "1 part"}, {counted(0, "part"), "0 parts"}, {counted(2, "family"), "2 families"},
		{grouped(7), "7"}, {grouped(20000), "20 000"}, {grouped(1234567), "1 234 567"}, {grouped(100), "100"},
		{listed(nil), ""}, {listed([]string{"a"}), "a"}, {listed([]string{"a", "b", "c"}), "a, b and c"}, {either([]string{"a", "b"}), "a or b"},
		{sentence(""), ""}, {sentence("so"), "so."}, {sentence("so?"), "so?"}, {sentence("und so …"), "und so …"},
		{capital("élan"), "Élan"}, {capital(""), ""}, {lower("Élan vital"), "élan vital"}, {lower("VAT on it"), "VAT on it"}, {lower("A"), "A"}, {lower("A lamp stays dark"), "a lamp stays dark"},
		{by("track"), "on the track"}, {by("oracle"), "oracle"}, {routeName("keep"), "restore and keep"}, {routeName("melt"), "melt"},
		{asking(map[string]string{"en": "How?", "de": "Wie?"}), "Ask: How?"}, {asking(map[string]string{"fr": "Comment ?", "de": "Wie?"}), "Ask: Wie?"}, {asking(nil), ""},
		{pieces(0), "0.00"}, {pieces(0.001), "<0.01"}, {pieces(1.5), "1.50"},
	} {
		if test.got != test.want {
			t.Errorf("got %q, want %q", test.got, test.want)
		}
	}
}
