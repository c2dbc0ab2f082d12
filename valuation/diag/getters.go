package diag

import (
	"math"
	"slices"
	"strconv"
	"time"
)

// Text is an optional string, "" where the key is not there.
func (t *Table) Text(key string) string {
	s, _ := scalar(t, key, aText, asText)
	return s
}

// Required is a string that must be there and not be empty.
func (t *Table) Required(key string) string {
	if !t.Need(key, aText) {
		return ""
	}
	s, ok := scalar(t, key, aText, asText)
	if ok && s == "" {
		t.Report(key, "empty", "some text", "")
	}
	return s
}

// ID is a required identifier of letters, digits, - and _, such as "6043".
// Where it is none, "" is returned.
func (t *Table) ID(key string) string {
	if !t.Need(key, anID) {
		return ""
	}
	s, _ := scalar(t, key, anID, asID)
	return s
}

// Choice is one of the allowed strings, or def where the key is not there or
// holds another. The nearest allowed one is what to try.
func (t *Table) Choice(key, def string, allowed ...string) string {
	value, p, ok := t.find(key)
	if !ok {
		return def
	}
	s, isText := value.(string)
	if isText && slices.Contains(allowed, s) {
		return s
	}
	try := ""
	if near, ok := Nearest(s, allowed); ok {
		try = strconv.Quote(near)
	}
	t.refuse(p, join(t.path, key), found(value), oneOf(quoted(allowed)), try)
	return def
}

// Number is a finite number from min to max (either may be infinite), or def
// where the key is not there or holds something else. Whole numbers will do.
func (t *Table) Number(key string, def, min, max float64) float64 {
	expected := between("a number", min, max, math.Inf(-1), math.Inf(1))
	n, ok := scalar(t, key, expected, func(v any) (float64, bool) {
		n, ok := v.(float64)
		if i, whole := v.(int64); whole {
			n, ok = float64(i), true
		}
		return n, ok && !math.IsInf(n, 0) && min <= n && n <= max
	})
	if !ok {
		return def
	}
	return n
}

// Integer is a whole number from min to max, or def where the key is not there
// or holds something else.
func (t *Table) Integer(key string, def, min, max int) int {
	expected := between("a whole number", min, max, math.MinInt, math.MaxInt)
	n, ok := scalar(t, key, expected, func(v any) (int64, bool) {
		n, ok := v.(int64)
		return n, ok && int64(min) <= n && n <= int64(max)
	})
	if !ok {
		return def
	}
	return int(n)
}

// Flag is true or false, or def where the key is not there or holds something
// else.
func (t *Table) Flag(key string, def bool) bool {
	b, ok := scalar(t, key, "true or false", is[bool])
	if !ok {
		return def
	}
	return b
}

// Date is a day (a TOML local date) as midnight UTC, and whether there is one.
func (t *Table) Date(key string) (time.Time, bool) {
	return scalar(t, key, aDate, asDate)
}
