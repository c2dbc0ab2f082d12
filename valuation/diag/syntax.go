package diag

import (
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// plainer says what the parser says in the words of people who edit files. A
// message of the parser is known by a part of it.
var plainer = []struct{ message, summary, expected, try string }{
	{"expected a top-level item to end", "more text after the value", "the end of the line", `quotes around text ("45 EUR"), a point in a number (0.5)`},
	{"expected value but found", "this is no value", "text in quotes, a number, a date, true, false, a [list] or a { table }", ""},
	{"expected '.' or '=',", "there is no = after the key", "key = value", "quotes around a key with blanks or accents"},
	{"expected '.' or ']'", "the header is not closed", "[name] or [[name]] on a line", ""},
	{"expected end of table array", "the header is not closed", "[[name]] on a line", ""},
	{"unexpected end of table name", "the header is empty", "[name] or [[name]] on a line", ""},
	{"expected a comma (", "a comma is missing", "a comma between two values, or ] after the last", ""},
	{"expected a comma or an inline table", "a comma is missing", "a comma between two keys, or } after the last", ""},
	{"unexpected comma", "a comma too many", "a value before each comma", ""},
	{"unexpected EOF; expected value", "the file ends too early", "a value, or ] after the last", ""},
	{"unexpected EOF; expected", "the closing quote is missing", "as many quotes as here at the end of the text", ""},
	{"strings cannot contain newlines", "the closing quote is missing", "it on the same line", ""},
	{"invalid escape in string", "", `\\ where a backslash is meant`, "single quotes around the text"},
	{"hexadecimal digits after", "an escape is not complete", `\xHH, \uHHHH or \UHHHHHHHH, H a hexadecimal digit`, "single quotes around the text"},
	{"invalid datetime", "", "a day of the calendar such as 2026-03-14", ""},
	{"is out of range for", "the number is too large", "", ""},
}

// syntaxError is where the parser stopped, as a byte offset, and why. A string
// that never ends is shown where it begins, not at the end of the file, where
// the parser noticed.
func (d *Document) syntaxError(err error, found location) (offset int, x Diagnostic) {
	var p toml.ParseError
	if !errors.As(err, &p) {
		return -1, Diagnostic{Summary: err.Error()}
	}
	x.Summary = lowerFirst(strings.TrimSuffix(p.Message, "."))
	for _, s := range plainer {
		if strings.Contains(p.Message, s.message) {
			x.Expected, x.Try = s.expected, s.try
			if s.summary != "" {
				x.Summary = s.summary
			}
			break
		}
	}
	if found.unclosed >= 0 && strings.HasPrefix(p.Message, "unexpected EOF") {
		return found.unclosed, x
	}
	return d.stoppedAt(p), x
}

// stoppedAt is where the parser stopped. It tells the token it was at, and a
// line that is often one too many. The token's start is the better place, save
// in one of several lines, which it had read up to the mistake. An escape is
// quoted in the message, so that it can be found.
func (d *Document) stoppedAt(p toml.ParseError) int {
	start := min(max(0, p.Position.Start), len(d.text))
	end := min(max(start, start+p.Position.Len), len(d.text))
	token := d.text[start:end]
	if _, quoted, ok := strings.Cut(p.Message, `'\`); ok {
		escape, _, _ := strings.Cut(quoted, "'")
		if i := strings.LastIndex(token, `\`+escape); i >= 0 {
			return start + i
		}
	}
	if i := strings.LastIndexByte(token, '\n'); i >= 0 && i < len(token)-1 {
		_, size := utf8.DecodeLastRuneInString(token)
		return end - size
	}
	if strings.HasPrefix(d.text[start:], "\n") { // the end of a line of either kind
		return len(strings.TrimSuffix(d.text[:start], "\r"))
	}
	return start
}

// lowerFirst makes the parser's sentences look like ours.
func lowerFirst(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToLower(r)) + s[size:]
}
