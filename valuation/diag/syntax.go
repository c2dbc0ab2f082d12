package diag

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// plainer says in a user's words what the parser says in its own. The parser's
// message is known by its start.
var plainer = []struct{ message, summary, expected, try string }{
	{"expected a top-level item to end", "more text after the value", "the end of the line", `quotes around text, as in "45 EUR"`},
	{"expected value but found", "this is no value", `text in quotes, a number, a date, true, false, a [list] or a { table }`, ""},
	{"expected '.' or '='", "a key without a value", "key = value", ""},
	{"strings cannot contain newlines", "the closing quote is missing", "it on the same line", ""},
	{"invalid escape in string", "", `\\ where a backslash is meant`, "single quotes around the text"},
	{"invalid datetime", "", "a day of the calendar such as 2026-03-14", ""},
}

// syntaxError is where the parser stopped, as a byte offset, and why.
func syntaxError(err error, found location) (offset int, x Diagnostic) {
	var p toml.ParseError
	if !errors.As(err, &p) {
		return -1, Diagnostic{Summary: err.Error()}
	}
	if strings.Contains(p.Message, "already been defined") && found.twice != nil {
		return found.again, Diagnostic{
			Summary:  fmt.Sprintf("the key %q is defined twice", found.twice.name),
			Expected: "each key once",
		}
	}
	x.Summary = lowerFirst(strings.TrimSuffix(p.Message, "."))
	for _, s := range plainer {
		if strings.HasPrefix(p.Message, s.message) {
			x.Expected, x.Try = s.expected, s.try
			if s.summary != "" {
				x.Summary = s.summary
			}
		}
	}
	return max(0, p.Position.Start), x
}

func lowerFirst(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToLower(r)) + s[size:]
}
