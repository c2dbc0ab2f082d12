package diag

import (
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// A slip is a frequent mistake in a value, known by how the text looks. The
// habits come from other files and programs: dates and decimal commas as people
// write them, text without quotes as in YAML, True as in Python, the quotes of a
// word processor, the paths of Windows. Which ones are frequent is common
// practice, no source.
type slip struct {
	shape    func() *regexp.Regexp // of the value and what may follow one; the first group is the value
	only     string                // the slip is one only where the parser's message has this in it
	stay     bool                  // the place and the words of the parser are the better ones
	summary  string
	expected string
	try      func(match []string) string // from the groups of shape; "" where it is no such slip after all; may be nil
}

// pattern is a regular expression that is compiled when it is first asked for:
// most files have no mistake to try it on.
func pattern(text string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(text) })
}

// shaped is the shape of a value, which ends where a value may.
func shaped(value string) func() *regexp.Regexp {
	return pattern(`^(` + value + `)[ \t]*(?:[,\]}#]|$)`)
}

// What a value that should be in quotes lacks, in words.
const (
	unquotedText = "text without quotes"
	inQuotes     = "quotes around it"
)

// slips are tried in this order.
var slips = []slip{
	{shape: shaped(`(\d{1,4})([-/.])(\d{1,2})[-/.](\d{1,4})`),
		summary: "a date is not written like this", expected: aDate, try: func(m []string) string { return isoDate(m[1]) }},
	{shape: shaped(`\d{1,2}[/.]\d{1,2}[/.]\d{4}|\d{4}[/.]\d{1,2}[/.]\d{1,2}`), summary: "no calendar has this day", expected: aDate},
	{shape: shaped(`\d[\d.,]*[ \t]?(?:[A-Z]{3}|[€£])|[€£][ \t]?\d[\d.,]*|[A-Z]{3}[ \t]\d[\d.,]*`),
		summary: unquotedText, expected: inQuotes, try: quotedFigure},
	{shape: shaped(`\d[\d.,]*[ \t]?%|\d+/\d+`), summary: unquotedText, expected: inQuotes, try: quotedFigure},
	{shape: shaped(`[“”„‟«»]([^“”„‟«»"]*)[“”„‟«»"]|"([^“”„‟«»"]*)[“”„‟«»]|[‘’‚‛]([^‘’‚‛']*)[‘’‚‛']`),
		summary: "curly quotes", expected: `straight quotes, "…"`,
		try: func(m []string) string { return strconv.Quote(figure(m[2] + m[3] + m[4])) }},
	{shape: shaped(`-?\d+,\d+`), summary: "a number with a decimal comma", expected: "a decimal point",
		try: func(m []string) string { return strings.Replace(m[1], ",", ".", 1) }},
	{shape: shaped(`[Tt][Rr][Uu][Ee]|[Yy][Ee][Ss]|[Oo][Nn]`), summary: "this is no value",
		expected: "true or false, or text in quotes", try: func([]string) string { return "true" }},
	{shape: shaped(`[Ff][Aa][Ll][Ss][Ee]|[Nn][Oo]|[Oo][Ff][Ff]`), summary: "this is no value",
		expected: "true or false, or text in quotes", try: func([]string) string { return "false" }},
	{shape: shaped(`"([^"']*\\[^"']*)"`), only: "escape", stay: true,
		try: func(m []string) string { return "'" + m[2] + "', in single quotes" }},
	{shape: shaped(`(?:[\d:]+[ ])*\pL[\pL\d _./:&+-]*`), summary: unquotedText,
		expected: "text in quotes, a number, a date, true, false, a [list] or a { table }",
		try:      func(m []string) string { return strconv.Quote(strings.TrimRight(m[1], " \t")) }},
}

// findSlip is the slip that a value looks like, and the bytes of the value. The
// text goes to the end of the line. What the parser said becomes what the slip
// says, in words and with what to try.
func findSlip(text string, x Diagnostic) (s *slip, length int, better Diagnostic) {
	for i := range slips {
		s := &slips[i]
		m := s.shape().FindStringSubmatch(text)
		if m == nil || !strings.Contains(x.Summary, s.only) {
			continue
		}
		try := ""
		if s.try != nil {
			if try = s.try(m); try == "" {
				continue
			}
		}
		x.Try = try
		if !s.stay {
			x.Summary, x.Expected = s.summary, s.expected
		}
		return s, len(m[1]), x
	}
	return nil, 0, x
}

// quotedFigure is a figure in quotes, with a decimal point.
func quotedFigure(m []string) string { return strconv.Quote(figure(m[1])) }
