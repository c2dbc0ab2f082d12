package page

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"lotgauge/valuation/diag"
)

// How much of a text is shown at once, in characters. The whole of a longer
// one is a click away.
const (
	titleRunes    = 120
	nameRunes     = 70
	sentenceRunes = 360
	wholeRunes    = 100_000
)

// words is a text from outside, made harmless. All of it is in Short, unless
// there is a Full.
type words struct{ Short, Full string }

// newWords cleans a text and shortens it to most characters.
func newWords(s string, most int) words {
	s = clean(s)
	if cut := shorten(s, most); cut != s {
		return words{cut, shorten(s, wholeRunes)}
	}
	return words{Short: s}
}

func name(s string) words     { return newWords(s, nameRunes) }
func sentence(s string) words { return newWords(s, sentenceRunes) }

// listed are several texts.
func listed(all []string, each func(string) words) []words {
	out := make([]words, len(all))
	for i, s := range all {
		out[i] = each(s)
	}
	return out
}

// blanks are the characters that end a line or a column: a space each.
var blanks = strings.NewReplacer("\r\n", " ", "\n", " ", "\r", " ", "\t", " ")

// clean is a text on one line with nothing in it that moves others about.
func clean(s string) string { return diag.Clean(strings.TrimSpace(blanks.Replace(s))) }

// shorten cuts a text at a character, not within one: what joins on to the
// last character, accents and the like, is not parted from it.
func shorten(s string, most int) string {
	if len(s) <= most || utf8.RuneCountInString(s) <= most {
		return s
	}
	runes := []rune(s)
	cut := most - 1
	for cut > most/2 && joins(runes[cut-1], runes[cut]) {
		cut--
	}
	return strings.TrimRight(string(runes[:cut]), " ") + "…"
}

const zeroWidthJoiner = '\u200d'

// joins reports whether b belongs to the character that a is part of.
func joins(a, b rune) bool {
	skin := b >= 0x1f3fb && b <= 0x1f3ff
	flag := unicode.Is(unicode.Regional_Indicator, a) && unicode.Is(unicode.Regional_Indicator, b)
	return unicode.Is(unicode.M, b) || a == zeroWidthJoiner || b == zeroWidthJoiner || skin || flag
}

// capital begins a text with a capital letter.
func capital(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	if size == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[size:]
}

// stopped ends a text with a full stop, unless it ends in one already.
func stopped(s string) string {
	if s == "" || strings.ContainsAny(s[len(s)-1:], ".!?") || strings.HasSuffix(s, "…") {
		return s
	}
	return s + "."
}

// either joins alternatives: "a, b or c".
func either(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " or " + names[last]
}
