package valuation

import (
	"lotgauge/valuation/checklist"
	"strconv"
	"strings"
	"unicode"
)

// quoted is a name in quotes, for messages.
func quoted(s string) string { return strconv.Quote(s) }

// listed joins names for a message: "a, b or c".
func listed(names []string) string {
	switch len(names) {
	case 0:
		return "nothing"
	case 1:
		return names[0]
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// spoken turns an id into words: "wrong-type" is "wrong type".
func spoken(id string) string { return strings.ReplaceAll(id, "-", " ") }

// lacking is one "point:state" of a price row.
type lacking struct{ point, state string }

func lackings(text string) []lacking {
	var out []lacking
	for _, field := range strings.Fields(text) {
		point, state, _ := strings.Cut(field, ":")
		out = append(out, lacking{point, state})
	}
	return out
}

// lower starts a title in lower case, unless it starts with an abbreviation
// such as "VAT".
func lower(title string) string {
	r := []rune(title)
	if len(r) == 0 || len(r) > 1 && unicode.IsUpper(r[1]) {
		return title
	}
	r[0] = unicode.ToLower(r[0])
	return string(r)
}

// stateTitles are the states of a point in words.
func stateTitles(p *checklist.Point) []string {
	out := make([]string, len(p.States))
	for s := range p.States {
		out[s] = stateTitle(&p.States[s])
	}
	return out
}

// stateTitle is a state in words.
func stateTitle(s *checklist.State) string { return spoken(s.Title) }
