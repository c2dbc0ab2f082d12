package diag

import (
	"math"
	"strings"
	"testing"
	"time"
)

func TestFound(t *testing.T) {
	for _, test := range []struct {
		value any
		want  string
	}{
		{"a \"b\"\n", `found the text "a \"b\"\n"`},
		{"", `found the text ""`},
		{int64(-3), "found the number -3"},
		{int64(math.MaxInt64), "found the number 9223372036854775807"},
		{2.0, "found the number 2.0"},
		{0.0, "found the number 0.0"},
		{-0.05, "found the number -0.05"},
		{1234567.25, "found the number 1234567.25"},
		{1e-6, "found the number 0.000001"},
		{9e-7, "found the number 9e-07"},
		{999999999999999.0, "found the number 999999999999999.0"},
		{1e15, "found the number 1e+15"},
		{math.Inf(1), "found the number +Inf"},
		{math.NaN(), "found the number NaN"},
		{true, "found true"},
		{time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC), "found a time"},
		{[]any{}, "found a list"},
		{[]map[string]any{}, "found a list"},
		{map[string]any{}, "found a table"},
	} {
		if got := found(test.value); got != test.want {
			t.Errorf("got %s, want %s", got, test.want)
		}
	}
}

func TestBetween(t *testing.T) {
	low, high := math.Inf(-1), math.Inf(1)
	for _, test := range []struct {
		min, max float64
		want     string
	}{
		{low, high, "a number"},
		{0, high, "a number of at least 0"},
		{low, 0.5, "a number of at most 0.5"},
		{-1, 1_000_000, "a number from -1 to 1000000"},
		{1, 1, "the number 1"},
	} {
		if got := between("a number", test.min, test.max, low, high); got != test.want {
			t.Errorf("got %s, want %s", got, test.want)
		}
	}
}

// TestRequoted: only where nothing but the quotes is wrong are they tried.
func TestRequoted(t *testing.T) {
	whole := func(v any) (int64, bool) { return is[int64](v) }
	for _, test := range []struct{ name, got, want string }{
		{"number as text", requoted(int64(6043), asText), `"6043"`},
		{"fraction as text", requoted(0.05, asText), `"0.05"`},
		{"number as id", requoted(int64(-1), asID), `"-1"`},
		{"fraction as id", requoted(0.05, asID), ""},
		{"truth as text", requoted(true, asText), ""},
		{"text as number", requoted("1_000", whole), "1_000 without quotes"},
		{"text as date", requoted("2026-03-14", asDate), "2026-03-14 without quotes"},
		{"no number", requoted("1.5", whole), ""},
		{"more than a number", requoted("1\ny = 2", whole), ""},
		{"forty digits", requoted(strings.Repeat(" ", 39)+"1", whole), strings.Repeat(" ", 39) + "1 without quotes"},
		{"more than forty", requoted(strings.Repeat(" ", 40)+"1", whole), ""},
	} {
		if test.got != test.want {
			t.Errorf("%s: got %q, want %q", test.name, test.got, test.want)
		}
	}
}

func TestOneOf(t *testing.T) {
	twenty := strings.Split("x"+strings.Repeat(" x", 19), " ")
	for _, test := range []struct {
		names []string
		want  string
	}{
		{nil, ""},
		{[]string{"a"}, "a"},
		{[]string{"a", "b"}, "a or b"},
		{[]string{"a", "b", "c"}, "a, b or c"},
		{twenty, strings.Repeat("x, ", 18) + "x or x"},
		{append(twenty, "y", "z"), strings.Repeat("x, ", 19) + "x or one of 2 others"},
	} {
		if got := oneOf(test.names); got != test.want {
			t.Errorf("%v: %q, want %q", test.names, got, test.want)
		}
	}
}

func TestClip(t *testing.T) {
	forty := strings.Repeat("ü", 40)
	for text, want := range map[string]string{"": "", forty: forty, forty + "x": forty + "…"} {
		if got := clip(text); got != want {
			t.Errorf("%q is clipped to %q", text, got)
		}
	}
}
