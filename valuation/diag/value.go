package diag

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// What getters expect, in words. Only what is wrong with a value, and what would
// have been right, is said here; that a value may be left out is not.
const (
	aText = "a quoted string"
	anID  = "a quoted string of letters, digits, - and _"
	aDate = "a date such as 2026-03-14"
)

// An accept function takes a decoded value as a T if it is one. Values are what
// the parser makes of TOML: string, int64, float64, bool, time.Time, []any,
// map[string]any, and []map[string]any for [[name]].
type accept[T any] func(value any) (T, bool)

// scalar is the value at key as a T. What is no T is reported; what is not
// there is not.
func scalar[T any](t *Table, key, expected string, as accept[T]) (v T, ok bool) {
	value, p, ok := t.find(key)
	if !ok {
		return v, false
	}
	if v, ok = as(value); ok {
		return v, true
	}
	return element(t, value, p, join(t.path, key), expected, as)
}

// element is one value at p as a T; what is no T is reported.
func element[T any](t *Table, value any, p *place, path, expected string, as accept[T]) (v T, ok bool) {
	if v, ok = as(value); ok {
		return v, true
	}
	t.refuse(p, path, found(value), expected, requoted(value, as))
	var zero T
	return zero, false
}

// Parse is an optional string read by a parser, and whether there is one that
// it accepts. The parser's error is what is wrong; expected names what it reads,
// with an example: `an amount such as "45 EUR"`. A number is refused, since its
// digits would not survive: a quoted string is expected.
func Parse[T any](t *Table, key, expected string, parse func(string) (T, error)) (v T, ok bool) {
	value, p, ok := t.find(key)
	if !ok {
		return v, false
	}
	path := join(t.path, key)
	text, ok := value.(string)
	if !ok {
		return element(t, value, p, path, aText+", "+expected, func(value any) (v T, ok bool) {
			if text, ok := value.(string); ok {
				v, err := parse(text)
				return v, err == nil
			}
			return v, false
		})
	}
	parsed, err := parse(text)
	if err != nil {
		t.refuse(p, path, err.Error(), expected, reparsed(text, func(way string) bool {
			_, err := parse(way)
			return err == nil
		}))
		return v, false
	}
	return parsed, true
}

// is takes a value that the parser has made a T of.
func is[T any](value any) (T, bool) {
	v, ok := value.(T)
	return v, ok
}

// What the getters accept.

func asText(value any) (string, bool) { return is[string](value) }

func asTable(value any) (map[string]any, bool) { return is[map[string]any](value) }

func asID(value any) (string, bool) {
	s, ok := value.(string)
	return s, ok && s != "" && !strings.ContainsFunc(s, notInID)
}

// asDate is a local date at midnight UTC. The parser marks one by the name of
// its time zone.
func asDate(value any) (time.Time, bool) {
	d, ok := value.(time.Time)
	if !ok || d.Location().String() != "date-local" {
		return time.Time{}, false
	}
	return time.Date(d.Year(), d.Month(), d.Day(), 0, 0, 0, 0, time.UTC), true
}

// asList is an array of anything. The parser has a type of its own for arrays
// of tables.
func asList(value any) ([]any, bool) {
	tables, ok := value.([]map[string]any)
	if !ok {
		return is[[]any](value)
	}
	list := make([]any, len(tables))
	for i, table := range tables {
		list[i] = table
	}
	return list, true
}

// requoted is what to try where only the quotes are wrong: a number that would
// do as text, text that would do as a number or date, if need be in another
// notation. It is "" where that is not it. The
// number is tried as it was decoded, so one written in another way (1_000) is
// shown as 1000.
func requoted[T any](value any, as accept[T]) string {
	switch v := value.(type) {
	case int64, float64:
		if s := plain(v); accepts(as, s) {
			return strconv.Quote(s)
		}
	case string:
		if len(v) > 40 || strings.Contains(v, "\n") {
			return ""
		}
		for _, way := range []string{v, isoDate(v), strings.Replace(v, ",", ".", 1)} {
			if data, err := decode("x = " + way); err == nil && accepts(as, data["x"]) {
				return fmt.Sprintf("%s without quotes", way)
			}
		}
	}
	return ""
}

// accepts reports whether a value is a T, whatever T it is.
func accepts[T any](as accept[T], value any) bool {
	_, ok := as(value)
	return ok
}
