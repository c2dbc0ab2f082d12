package diag

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	gocmp "github.com/google/go-cmp/cmp"
)

// read is a document that can be read.
func read(t testing.TB, text string) *Table {
	t.Helper()
	d := ReadDocument("f.toml", strings.NewReader(text))
	if d.Broken() {
		t.Fatal(d.Diagnostics())
	}
	return d.Root()
}

// TestGetters asks each getter for each kind of value. What it says is in the
// archives of cases; here is what it returns.
func TestGetters(t *testing.T) {
	table := read(t, `
text = "some"
empty = ""
whole = 3
broken = 0.5
flag = false
day = 2026-03-14
moment = 2026-03-14T09:30:00+14:00
list = [1, 2]
inline = { a = 1 }
nan = nan
`)
	day := time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)
	date := func(key string) (time.Time, bool) { return table.Date(key) }
	check := func(name string, got, want any) {
		t.Helper()
		if diff := gocmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
	for key, want := range map[string]string{"text": "some", "empty": "", "whole": "", "day": "", "list": "", "absent": ""} {
		check("Text "+key, table.Text(key), want)
		check("Required "+key, table.Required(key), want)
		check("ID "+key, table.ID(key), want)
	}
	for key, want := range map[string]string{"text": "some", "empty": "other", "whole": "other", "inline": "other", "absent": "other"} {
		check("Choice "+key, table.Choice(key, "other", "some", "other"), want)
	}
	for key, want := range map[string]float64{"whole": 3, "broken": 0.5, "nan": 7, "text": 7, "flag": 7, "absent": 7} {
		check("Number "+key, table.Number(key, 7, math.Inf(-1), math.Inf(1)), want)
	}
	for key, want := range map[string]int{"whole": 3, "broken": 7, "text": 7, "absent": 7} {
		check("Integer "+key, table.Integer(key, 7, 0, 9), want)
	}
	for key, want := range map[string]bool{"flag": false, "whole": true, "absent": true} {
		check("Flag "+key, table.Flag(key, true), want)
	}
	for key, want := range map[string]bool{"day": true, "moment": false, "text": false, "absent": false} {
		got, ok := date(key)
		check("Date "+key, ok, want)
		if ok {
			check("Date "+key, got, day)
		}
	}
}

// TestBounds: a bound is within the range.
func TestBounds(t *testing.T) {
	table := read(t, "zero = 0\none = 1.0\nhalf = 0.5\nten = 10\n")
	for _, test := range []struct {
		key      string
		min, max float64
		want     float64
	}{
		{"zero", 0, 1, 0}, {"one", 0, 1, 1}, {"half", 0.5, 0.5, 0.5},
		{"zero", 0.1, 1, 7}, {"one", 0, 0.9, 7}, {"ten", math.Inf(-1), 10, 10},
	} {
		if got := table.Number(test.key, 7, test.min, test.max); got != test.want {
			t.Errorf("%s from %v to %v is %v, want %v", test.key, test.min, test.max, got, test.want)
		}
	}
	for _, test := range []struct{ min, max, want int }{{10, 10, 10}, {0, 9, 7}, {11, 20, 7}, {math.MinInt, math.MaxInt, 10}} {
		if got := table.Integer("ten", 7, test.min, test.max); got != test.want {
			t.Errorf("ten from %v to %v is %v, want %v", test.min, test.max, got, test.want)
		}
	}
}

func TestIDCharacters(t *testing.T) {
	for id, want := range map[string]bool{
		"6043": true, "a-b_C9": true, "AZaz09": true, "-": true,
		"": false, "a b": false, "a.b": false, "größe": false, "a/b": false, "a:b": false, "{roof}": false, "a\n": false,
	} {
		table := read(t, "id = "+strconv.Quote(id))
		got := table.ID("id")
		if ok := got == id && !table.doc.Diagnostics().HasErrors(); ok != want {
			t.Errorf("%q is an id: %v, want %v", id, ok, want)
		}
	}
}

func TestParse(t *testing.T) {
	table := read(t, "price = \"45\"\nnone = \"\"\nword = \"many\"\nnumber = 45\n")
	atoi := func(s string) (int, error) {
		n, err := strconv.Atoi(s)
		if err != nil {
			return -1, errors.New("no number")
		}
		return n, nil
	}
	for key, want := range map[string]int{"price": 45, "none": 0, "word": 0, "number": 0, "absent": 0} {
		got, ok := Parse(table, key, `digits such as "45"`, atoi)
		if got != want || ok != (want != 0) {
			t.Errorf("%s is %v, %v", key, got, ok)
		}
	}
	want := "f.toml:2:8: none: no number: expected digits such as \"45\"\n" +
		"f.toml:3:8: word: no number: expected digits such as \"45\"\n" +
		"f.toml:4:10: number: found the number 45: expected a quoted string, digits such as \"45\"; try \"45\""
	if diff := gocmp.Diff(want, said(table.doc)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestLists: an element that is refused leaves its place, so that others keep
// theirs.
func TestLists(t *testing.T) {
	table := read(t, `
texts = ["a", 1, "", ["b"]]
numbers = [1, "2", 3.0, -4]
days = [2026-03-14, "x", 2026-03-14T00:00:00]
empty = []
text = "a"
`)
	day := time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)
	for _, test := range []struct {
		name      string
		got, want any
	}{
		{"texts", table.Texts("texts"), []string{"a", "", "", ""}},
		{"integers", table.Integers("numbers"), []int{1, 0, 0, -4}},
		{"dates", table.Dates("days"), []time.Time{day, {}, {}}},
		{"empty", table.Texts("empty"), []string{}},
		{"text", table.Texts("text"), []string(nil)},
		{"absent", table.Integers("absent"), []int(nil)},
	} {
		if diff := gocmp.Diff(test.want, test.got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", test.name, diff)
		}
	}
}

func TestTables(t *testing.T) {
	table := read(t, `
inline = { a = 1 }
mixed = ["a", { b = 2 }, 3, { c = 4 }]
[header]
x = 1
[[many]]
n = 1
[[many]]
n = 2
`)
	for key, want := range map[string]bool{"inline": true, "header": true, "many": false, "mixed": false, "absent": false} {
		if got := table.IsTable(key); got != want {
			t.Errorf("%s is a table: %v", key, got)
		}
		if got := table.Child(key) != nil; got != want {
			t.Errorf("%s has a table: %v", key, got)
		}
	}
	var paths []string
	for i, many := range table.Children("many") {
		paths = append(paths, many.Path())
		if got := many.Integer("n", 0, 0, 9); got != i+1 {
			t.Errorf("%s has %d", many.Path(), got)
		}
	}
	for _, item := range table.Items("mixed") {
		paths = append(paths, item.Text+item.Table.Path()+" "+item.Pos.String())
	}
	want := []string{"many[1]", "many[2]", "a f.toml:3:10", "mixed[2] f.toml:3:15", "mixed[4] f.toml:3:29"}
	if diff := gocmp.Diff(want, paths); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if got := len(table.Children("mixed")); got != 2 {
		t.Errorf("%d tables among others", got)
	}
	if table.Children("absent") != nil || table.Children("header") != nil || table.Items("inline") != nil {
		t.Error("tables where none are")
	}
}

func TestIsNumber(t *testing.T) {
	table := read(t, "a = 1\nb = 1.5\nc = \"1\"\nd = nan\n")
	for key, want := range map[string]bool{"a": true, "b": true, "c": false, "d": true, "absent": false} {
		if got := table.IsNumber(key); got != want {
			t.Errorf("%s is a number: %v", key, got)
		}
	}
}
