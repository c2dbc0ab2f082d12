package diag

import (
	"strconv"
	"strings"
	"time"
)

// figureShape is one number, in any notation, with a unit before or after it.
var figureShape = pattern(`^([^\d\s]*)\s*(\d[\d.,]*)\s*([^\d\s]*)$`)

// symbols are the currency signs that stand for one currency only.
var symbols = strings.NewReplacer("€", "EUR", "£", "GBP")

// figures are the ways in which a number with a unit may have been meant: with
// a decimal point, the unit behind it, with a space between and without, in
// capitals, a code for a sign. A parser has to say which of them it reads.
func figures(text string) []string {
	m := figureShape().FindStringSubmatch(strings.TrimSpace(text))
	if m == nil || m[1] != "" && m[3] != "" {
		return nil
	}
	number, ok := pointed(m[2])
	if !ok {
		return nil
	}
	unit := symbols.Replace(m[1] + m[3])
	if unit == "" {
		return []string{number}
	}
	return []string{number + " " + unit, number + unit, number + " " + strings.ToUpper(unit)}
}

// figure is the likeliest of the figures for a text, or the text.
func figure(text string) string {
	ways := figures(text)
	switch {
	case len(ways) == 0:
		return text
	case len(ways) > 1 && strings.HasSuffix(ways[1], "%"):
		return ways[1]
	}
	return ways[0]
}

// pointed is a number with a decimal point and without other marks, where it is
// clear what they were: the last mark divides if there are two kinds, and a lone
// comma if it is not followed by three digits, as one between thousands is.
func pointed(number string) (string, bool) {
	point, comma := strings.LastIndexByte(number, '.'), strings.LastIndexByte(number, ',')
	mark, other := ".", ","
	if comma > point {
		mark, other = ",", "."
	}
	whole, decimals, divided := strings.Cut(number, mark)
	switch {
	case !divided:
		return number, true
	case strings.ContainsAny(decimals, ".,") || decimals == "" || whole == "":
		return "", false
	case mark == "," && len(decimals) == 3 && whole != "0" && !strings.Contains(whole, other):
		return "", false
	}
	groups := strings.Split(whole, other)
	for _, group := range groups[1:] {
		if len(group) != 3 {
			return "", false
		}
	}
	return strings.Join(groups, "") + "." + decimals, true
}

// isoDate is a date in another notation as TOML wants it, "2026-03-14", two of
// them where day and month cannot be told apart, or "" if it is no date. Points
// and hyphens go with the day first, slashes with either.
func isoDate(text string) string {
	parts := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune("-/.", r) })
	if len(parts) != 3 {
		return ""
	}
	if len(parts[0]) == 4 {
		return calendarDay(parts[0], parts[1], parts[2])
	}
	if len(parts[2]) != 4 {
		return ""
	}
	european, american := calendarDay(parts[2], parts[1], parts[0]), calendarDay(parts[2], parts[0], parts[1])
	switch {
	case european == "":
		return american
	case american == "" || american == european || !strings.Contains(text, "/"):
		return european
	}
	return european + " or " + american + ", whichever day is meant"
}

// calendarDay is a day as TOML writes it, "" if no calendar has it.
func calendarDay(year, month, day string) string {
	t, err := time.Parse("2006-1-2", year+"-"+strings.TrimLeft(month, "0")+"-"+strings.TrimLeft(day, "0"))
	if err != nil {
		return ""
	}
	return t.Format(time.DateOnly)
}

// reparsed is what to try where a parser refuses a text: the first of the
// figures it may be meant as that the parser accepts, in quotes; "" for none.
func reparsed(text string, accepted func(string) bool) string {
	for _, way := range figures(text) {
		if way != text && accepted(way) {
			return strconv.Quote(way)
		}
	}
	return ""
}
