package diag

import (
	"fmt"
	"math"
	"strconv"
	"time"
)

// Text is an optional string, "" where the key is not there.
func (t *Table) Text(key string) string {
	s, _ := scalar(t, key, "a quoted string", asText)
	return s
}

// Required is a string that must be there and not be empty.
func (t *Table) Required(key string) string {
	if !t.Need(key, "a quoted string") {
		return ""
	}
	s, ok := scalar(t, key, "a quoted string", asText)
	if ok && s == "" {
		t.Report(key, "empty", "some text", "")
	}
	return s
}

// ID is a required identifier of letters, digits, - and _, such as "6043".
// Where it is none, "" is returned.
func (t *Table) ID(key string) string {
	const expected = "a quoted string of letters, digits, - and _"
	if !t.Need(key, expected) {
		return ""
	}
	s, _ := scalar(t, key, expected, func(v any) (string, bool) {
		s, ok := v.(string)
		return s, ok && isID(s)
	})
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
	for _, a := range allowed {
		if isText && s == a {
			return s
		}
	}
	quoted := make([]string, len(allowed))
	for i, a := range allowed {
		quoted[i] = strconv.Quote(a)
	}
	try := ""
	if near, ok := Nearest(s, allowed); ok {
		try = strconv.Quote(near)
	}
	t.refuse(p, t.keyPath(key), found(value), oneOf(quoted), try)
	return def
}

// Number is a finite number from min to max (either may be infinite), or def
// where the key is not there or holds something else. Whole numbers will do.
func (t *Table) Number(key string, def, min, max float64) float64 {
	expected := "a number" + within(min, max, math.Inf(-1), math.Inf(1))
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
	expected := "a whole number" + within(min, max, math.MinInt, math.MaxInt)
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
	b, ok := scalar(t, key, "true or false", as[bool])
	if !ok {
		return def
	}
	return b
}

// Date is a day (a TOML local date) as midnight UTC, and whether there is one.
func (t *Table) Date(key string) (time.Time, bool) {
	return scalar(t, key, aDate, asDate)
}

// Parse is an optional string read by a parser, and whether there is one that
// it accepts. The parser's error is what is wrong; expected names what it reads,
// with an example: `an amount such as "45 EUR"`. A number is refused, since its
// digits would not survive: a quoted string is expected.
func Parse[T any](t *Table, key, expected string, parse func(string) (T, error)) (v T, ok bool) {
	s, ok := scalar(t, key, "a quoted string: "+expected, asText)
	if !ok {
		return v, false
	}
	v, err := parse(s)
	if err != nil {
		var zero T
		_, p, _ := t.find(key)
		t.refuse(p, t.keyPath(key), err.Error(), expected, "")
		return zero, false
	}
	return v, true
}

// scalar is the value at key as accept takes it. What accept refuses is
// reported; what is not there is not.
func scalar[T any](t *Table, key, expected string, accept func(any) (T, bool)) (v T, ok bool) {
	value, p, ok := t.find(key)
	if !ok {
		return v, false
	}
	return element(t, value, p, t.keyPath(key), expected, accept)
}

// element is one value at p as accept takes it; what it refuses is reported.
func element[T any](t *Table, value any, p *place, path, expected string, accept func(any) (T, bool)) (v T, ok bool) {
	if v, ok = accept(value); ok {
		return v, true
	}
	t.refuse(p, path, found(value), expected, "")
	var zero T
	return zero, false
}

func as[T any](v any) (T, bool) {
	x, ok := v.(T)
	return x, ok
}

func asText(v any) (string, bool) { return as[string](v) }

const aDate = "a date without quotes such as 2026-03-14"

// asDate is a local date at midnight UTC. The parser marks one by the name of
// its time zone.
func asDate(v any) (time.Time, bool) {
	d, ok := v.(time.Time)
	if !ok || d.Location().String() != "date-local" {
		return time.Time{}, false
	}
	return time.Date(d.Year(), d.Month(), d.Day(), 0, 0, 0, 0, time.UTC), true
}

func isID(s string) bool {
	for _, r := range s {
		if notInID(r) {
			return false
		}
	}
	return s != ""
}

// within says a range in words; no bound is named at lowest and highest.
func within[T int | float64](min, max, lowest, highest T) string {
	switch {
	case min > lowest && max < highest:
		return fmt.Sprintf(" from %v to %v", min, max)
	case min > lowest:
		return fmt.Sprintf(" of at least %v", min)
	case max < highest:
		return fmt.Sprintf(" of at most %v", max)
	}
	return ""
}

// found says what a value is, for people.
func found(value any) string {
	switch v := value.(type) {
	case string:
		return "found the text " + strconv.Quote(clip(v))
	case int64, float64:
		return fmt.Sprintf("found the number %v", v)
	case bool:
		return fmt.Sprintf("found %v", v)
	case time.Time:
		if _, ok := asDate(v); ok {
			return "found a date"
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
