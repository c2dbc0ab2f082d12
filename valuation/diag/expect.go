package diag

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// found says what a value is, in words of people rather than of TOML: a list is
// an array there. Text is shown as far as it helps to find it.
func found(value any) string {
	switch v := value.(type) {
	case string:
		return "found the text " + strconv.Quote(clip(v))
	case int64:
		return "found the number " + plain(v)
	case float64:
		return "found the number " + plain(v) + pointZero(v)
	case bool:
		return fmt.Sprintf("found %v", v)
	case time.Time:
		if _, ok := asDate(v); ok {
			return "found the date " + v.Format(time.DateOnly)
		}
		return "found a time"
	case map[string]any:
		return "found a table"
	}
	return "found a list"
}

// clip shortens a long text.
func clip(s string) string {
	const most = 40
	n := 0
	for i := range s {
		if n == most {
			return s[:i] + "…"
		}
		n++
	}
	return s
}

// plain writes a number (an int, int64 or float64), without an exponent where it
// is of a usual size.
func plain(number any) string {
	f, ok := number.(float64)
	if size := math.Abs(f); !ok || size > 0 && size < 1e-6 || size >= 1e15 {
		return fmt.Sprint(number)
	}
	return strconv.FormatFloat(f, 'f', -1, 64)
}

// pointZero tells 2.0 from 2.
func pointZero(f float64) string {
	if f == math.Trunc(f) && math.Abs(f) < 1e15 {
		return ".0"
	}
	return ""
}

// between says a kind of number in a range; a bound at lowest or highest is
// none.
func between[T int | float64](kind string, min, max, lowest, highest T) string {
	switch {
	case min == max:
		return "the number " + plain(min)
	case min > lowest && max < highest:
		return fmt.Sprintf("%s from %s to %s", kind, plain(min), plain(max))
	case min > lowest:
		return fmt.Sprintf("%s of at least %s", kind, plain(min))
	case max < highest:
		return fmt.Sprintf("%s of at most %s", kind, plain(max))
	}
	return kind
}

// oneOf lists names: "a, b or c". Of very many only the first are named.
func oneOf(names []string) string {
	const most = 20
	if len(names) > most {
		return fmt.Sprintf("%s or one of %d others", strings.Join(names[:most], ", "), len(names)-most)
	}
	last := len(names) - 1
	if last <= 0 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// quoted puts quotes around names that are to be typed with them.
func quoted(names []string) []string {
	list := make([]string, len(names))
	for i, name := range names {
		list[i] = strconv.Quote(name)
	}
	return list
}
