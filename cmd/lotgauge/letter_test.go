package main

import (
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"lotgauge/valuation"
)

func worthEuro(s string) valuation.Money {
	return valuation.Money{Decimal: decimal.RequireFromString(s)}
}

// inquiry is a question with its text in English and German.
func inquiry(id, worth string, see ...string) valuation.Question {
	return valuation.Question{Kind: "point", ID: id, Worth: worthEuro(worth), See: see, Ask: map[string]string{"en": "How is the " + id + "?", "de": "Wie ist " + id + "?"}}
}

func TestAskable(t *testing.T) {
	onlyFrench := inquiry("livery", "3.00", "photo")
	onlyFrench.Ask = map[string]string{"fr": "La livrée ?"}
	pair := valuation.Question{Kind: "pair", ID: "roof+box", Worth: worthEuro("9.00")}
	foundAlready := inquiry("roof", "4.00", "photo")
	foundAlready.Found = true
	hopeless := valuation.Question{Kind: "pair", ID: "roof+motor", Worth: worthEuro("9.50")}
	for _, test := range []struct {
		name      string
		questions []valuation.Question
		want      string
	}{
		{"none", nil, ""},
		{"worth nothing", []valuation.Question{inquiry("roof", "0.00", "photo")}, ""},
		{"only to be seen in the hand", []valuation.Question{inquiry("motor", "5.00", "hand", "track")}, ""},
		{"a photo or the seller", []valuation.Question{inquiry("roof", "2.00", "photo", "hand"), inquiry("box", "1.00", "seller")}, "roof box"},
		{"found already", []valuation.Question{foundAlready, inquiry("box", "1.00", "seller")}, "box"},
		{"no text in the language", []valuation.Question{onlyFrench, inquiry("roof", "2.00", "photo")}, "roof"},
		{"at most five", []valuation.Question{
			inquiry("a", "9.00", "photo"), inquiry("b", "8.00", "photo"), inquiry("c", "7.00", "photo"),
			inquiry("d", "6.00", "photo"), inquiry("e", "5.00", "photo"), inquiry("f", "4.00", "photo")}, "a b c d e"},
		{"two together", []valuation.Question{pair, inquiry("door", "1.00", "photo"), inquiry("roof", "0.00", "photo"), inquiry("box", "0.00", "photo")}, "roof box door"},
		{"two, one of which nobody can answer", []valuation.Question{hopeless, inquiry("motor", "0.10", "hand"), inquiry("roof", "0.00", "photo")}, ""},
		{"two of which one is not there", []valuation.Question{pair, inquiry("roof", "0.00", "photo")}, ""},
		{"the same words twice", []valuation.Question{inquiry("roof", "2.00", "photo"), inquiry("roof", "1.00", "photo")}, "roof"},
	} {
		var want []string
		for _, id := range strings.Fields(test.want) {
			want = append(want, "How is the "+id+"?")
		}
		if diff := cmp.Diff(want, askable(&valuation.Appraisal{Questions: test.questions}, "en")); diff != "" {
			t.Errorf("%s (-want +got):\n%s", test.name, diff)
		}
	}
}

// Every letter is whole: greeting, subject, questions and close, each paragraph
// on one line, no figure, and the same frame whatever the title.
func TestLetters(t *testing.T) {
	for i := range letters {
		l := &letters[i]
		for _, title := range []string{"", "Red alpine electric", strings.Repeat("long ", 2000), "\x1b[2J", "🚂 קטר"} {
			for _, questions := range [][]string{{"Is it so?"}, {"Is it so?", "Or\nso?"}} {
				var b strings.Builder
				if err := l.write(&b, title, questions); err != nil {
					t.Fatal(err)
				}
				text := b.String()
				paragraphs := strings.Split(strings.TrimSuffix(text, "\n"), "\n\n")
				if len(paragraphs) != 5 || paragraphs[0] != l.Greeting || paragraphs[3] != l.Thanks || paragraphs[4] != l.Close {
					t.Errorf("%s: %q", l.Language, text)
				}
				if n := strings.Count(paragraphs[2], "\n") + 1; n != len(questions) {
					t.Errorf("%s: %d lines of questions for %d", l.Language, n, len(questions))
				}
				if len(paragraphs[1]) > 500 || strings.ContainsFunc(text, func(r rune) bool { return r != '\n' && unicode.IsControl(r) }) {
					t.Errorf("%s: %q", l.Language, text)
				}
			}
		}
		if strings.Count(l.Subject, "%s") != 1 || strings.Contains(l.Untitled+l.One+l.Several, "%") {
			t.Errorf("%s: the title has no place", l.Language)
		}
	}
}

func TestSpokenTitle(t *testing.T) {
	for _, test := range []struct{ title, want string }{
		{"  Red \t alpine\nelectric ", "Red alpine electric"},
		{"\x1b[1;31mRed\x1b[0m \u009b2J\x1b]0;owned\x07one\x1b]8;;http://x\x1b\\here", "Red onehere"},
		{"gnp\u202egnp\u2066", "gnpgnp"},
		{"bad\xffbyte\ufffd", "badbyte"},
		{"e\u0301tat 👩🏽\u200d🔧", "e\u0301tat 👩🏽\u200d🔧"},
		{"\x07", ""},
		{strings.Repeat("word ", 40), strings.TrimSpace(strings.Repeat("word ", 20)) + " …"},
		{strings.Repeat("x", 200), strings.Repeat("x", titleRunes) + " …"},
	} {
		if got := spokenTitle(test.title); got != test.want {
			t.Errorf("%q: got %q, want %q", test.title, got, test.want)
		}
	}
}

// The built-in families ask in every language that there is a letter in, about
// whatever the seller can be asked.
func TestShownListingsAskInEveryLanguage(t *testing.T) {
	lengths := map[string][]int{}
	for _, file := range []string{"rich", "stall", "set", "railcar"} {
		for _, language := range letterLanguages() {
			s := newScreenful()
			text := s.run(t, exitDone, "appraise", "--draws", "100", "--ask", language, "../../testdata/listings/"+file+".toml")
			lengths[file] = append(lengths[file], strings.Count(text, "?"))
			if strings.Contains(text, "EUR") || strings.Contains(text, "GBP") {
				t.Errorf("%s, %s: a figure of ours in\n%s", file, language, text)
			}
		}
		if slices.Max(lengths[file]) == 0 {
			t.Errorf("%s: no question in any language", file)
		}
		for i, n := range lengths[file] {
			if (n == 0) != (lengths[file][0] == 0) {
				t.Errorf("%s: questions in one language, none in %s", file, letterLanguages()[i])
			}
		}
	}
}
