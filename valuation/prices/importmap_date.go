package prices

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// datePattern is how a file writes days: tokens for the parts of a day, and
// between them texts that must be there.
//
//	yyyy  four digits          yy  two: 1969 to 2068, as strptime of POSIX has it
//	mmm   the name of a month  mm  two digits   m  one or two
//	dd    two digits           d   one or two   *  whatever follows, at the end
type datePattern struct {
	pieces []string
	months []string // names for mmm
}

// dateTokens are the tokens and what each fills; longer ones come first.
var dateTokens = []struct {
	name string
	part rune // y, m or d; * for the rest
}{{"yyyy", 'y'}, {"yy", 'y'}, {"mmm", 'm'}, {"mm", 'm'}, {"m", 'm'}, {"dd", 'd'}, {"d", 'd'}, {"*", '*'}}

var englishMonths = []string{"January", "February", "March", "April", "May", "June",
	"July", "August", "September", "October", "November", "December"}

// isoDate is how a price table writes days.
var isoDate = datePattern{pieces: []string{"yyyy", "-", "mm", "-", "dd"}}

// newDatePatterns reads patterns with | between them.
func newDatePatterns(text string, months []string) ([]datePattern, error) {
	var patterns []datePattern
	for _, one := range strings.Split(text, "|") {
		p, err := newDatePattern(strings.TrimSpace(one), months)
		if err != nil {
			return nil, err
		}
		patterns = append(patterns, p)
	}
	return patterns, nil
}

// newDatePattern reads a pattern. Each part of a day must be in it once. Letters
// that are no tokens are refused, since they would be slips (jj for yy), but for
// the T that ISO 8601 has before a time.
func newDatePattern(text string, months []string) (datePattern, error) {
	p, parts := datePattern{months: months}, ""
	for rest := text; rest != ""; {
		piece, part := nextPiece(rest)
		if part == 0 && piece != "T" && unicode.IsLetter(first(piece)) {
			return p, fmt.Errorf("%q in it is neither yyyy, yy, mmm, mm, m, dd, d nor *", piece)
		}
		if part == '*' && piece != rest {
			return p, errors.New("* is not at the end")
		}
		if part != 0 && part != '*' {
			parts += string(part)
		}
		p.pieces, rest = append(p.pieces, piece), rest[len(piece):]
	}
	for _, part := range "ymd" {
		if n := strings.Count(parts, string(part)); n != 1 {
			return p, fmt.Errorf("%s is %d times in %q", map[rune]string{'y': "the year", 'm': "the month", 'd': "the day"}[part], n, text)
		}
	}
	return p, nil
}

// nextPiece is the token that a pattern begins with and what it fills, or else
// one character and 0.
func nextPiece(pattern string) (piece string, part rune) {
	for _, token := range dateTokens {
		if strings.HasPrefix(pattern, token.name) {
			return token.name, token.part
		}
	}
	_, size := utf8.DecodeRuneInString(pattern)
	return pattern[:size], 0
}

// first is the first character of a text.
func first(text string) rune {
	r, _ := utf8.DecodeRuneInString(text)
	return r
}

// parse reads a day written in the pattern; false if it is none, or one that a
// price table does not take. The whole text must fit.
func (p datePattern) parse(text string) (day, bool) {
	var year, month, d int
	ok := true
	for _, piece := range p.pieces {
		switch piece {
		case "yyyy":
			year, text, ok = cutNumber(text, 4, 4)
		case "yy":
			year, text, ok = cutNumber(text, 2, 2)
			year += centuryOf(year)
		case "mmm":
			month, text, ok = cutMonth(text, p.months)
		case "mm", "m":
			month, text, ok = cutNumber(text, len(piece), 2)
		case "dd", "d":
			d, text, ok = cutNumber(text, len(piece), 2)
		case "*":
			text = ""
		default:
			text, ok = strings.CutPrefix(text, piece)
		}
		if !ok {
			return 0, false
		}
	}
	if text != "" || year < firstYear || month < 1 || month > 12 || d < 1 || d > daysIn(year, month) {
		return 0, false
	}
	return civil(year, month, d), true
}

// centuryOf is what a year of two digits lacks: %y of strptime in POSIX.1-2017,
// https://pubs.opengroup.org/onlinepubs/9699919799/functions/strptime.html.
func centuryOf(year int) int {
	if year >= 69 {
		return 1900
	}
	return 2000
}

// cutNumber takes a number of at least least and at most most digits off the
// beginning of a text.
func cutNumber(text string, least, most int) (n int, rest string, ok bool) {
	i := 0
	for ; i < len(text) && i < most && isDigit(rune(text[i])); i++ {
		n = 10*n + int(text[i]-'0')
	}
	return n, text[i:], i >= least
}

// cutMonth takes the name of a month off the beginning of a text: as given, or
// three letters of it or more, in either case.
func cutMonth(text string, names []string) (month int, rest string, ok bool) {
	end := strings.IndexFunc(text, func(r rune) bool { return !unicode.IsLetter(r) })
	if end < 0 {
		end = len(text)
	}
	word := fold(text[:end])
	fits := func(name string) bool {
		name = fold(name)
		return name == word || utf8.RuneCountInString(word) >= 3 && strings.HasPrefix(name, word)
	}
	at := slices.IndexFunc(names, fits)
	if at < 0 || word == "" {
		return 0, text, false
	}
	return at + 1, text[end:], true
}
