package diag

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
)

func at(file string, line, column int, summary string) Diagnostic {
	return Diagnostic{Severity: Error, Pos: Pos{file, line, column}, Summary: summary}
}

func warning(file string, line int, summary string) Diagnostic {
	return Diagnostic{Severity: Warning, Pos: Pos{file, line, 0}, Summary: summary}
}

func TestPosString(t *testing.T) {
	for _, test := range []struct {
		pos  Pos
		want string
	}{
		{Pos{"a.toml", 3, 7}, "a.toml:3:7"},
		{Pos{"a.toml", 3, 0}, "a.toml:3"},
		{Pos{"a.toml", 0, 7}, "a.toml"},
		{Pos{"", 3, 7}, "3:7"},
		{Pos{}, ""},
	} {
		if got := test.pos.String(); got != test.want {
			t.Errorf("%#v is %q, want %q", test.pos, got, test.want)
		}
	}
}

func TestDiagnosticError(t *testing.T) {
	all := Diagnostic{Error, Pos{"a.toml", 3, 7}, "point[2].id", "found the number 3", "a quoted string", `"3"`}
	for _, test := range []struct {
		change func(d *Diagnostic)
		want   string
	}{
		{func(*Diagnostic) {}, `a.toml:3:7: point[2].id: found the number 3: expected a quoted string; try "3"`},
		{func(d *Diagnostic) { d.Severity = Warning }, `a.toml:3:7: warning: point[2].id: found the number 3: expected a quoted string; try "3"`},
		{func(d *Diagnostic) { d.Try = "" }, `a.toml:3:7: point[2].id: found the number 3: expected a quoted string`},
		{func(d *Diagnostic) { d.Expected = "" }, `a.toml:3:7: point[2].id: found the number 3: try "3"`},
		{func(d *Diagnostic) { d.Key, d.Pos, d.Expected, d.Try = "", Pos{}, "", "" }, `found the number 3`},
		{func(d *Diagnostic) { d.Summary, d.Try = "a\nb", "\x1b[31m" }, `a.toml:3:7: point[2].id: a\nb: expected a quoted string; try \x1b[31m`},
	} {
		d := all
		test.change(&d)
		if got := d.Error(); got != test.want {
			t.Errorf("got  %s\nwant %s", got, test.want)
		}
	}
}

// TestSorted shuffles a list: the order of what it holds must not matter, but
// of what stands at one place the first added stays first.
func TestSorted(t *testing.T) {
	want := List{
		at("", 9, 9, "x"),
		at("a", 0, 0, "x"), at("a", 1, 2, "x"), at("a", 1, 10, "x"), at("a", 2, 1, "x"),
		warning("b", 1, "x"), at("b", 10, 0, "x"),
	}
	random := rand.New(rand.NewPCG(1, 1))
	for range 20 {
		l := slices.Concat(want, want)
		random.Shuffle(len(l), func(i, j int) { l[i], l[j] = l[j], l[i] })
		if diff := gocmp.Diff(want, l.Sorted()); diff != "" {
			t.Fatalf("(-want +got):\n%s", diff)
		}
	}
	stable := List{at("a", 1, 1, "z"), at("a", 1, 1, "y"), at("a", 1, 1, "z")}
	if diff := gocmp.Diff(stable[:2], stable.Sorted()); diff != "" {
		t.Errorf("at one place (-want +got):\n%s", diff)
	}
}

// TestSortedDuplicates: the same said twice of a key and place is one
// diagnostic, whatever each expected; of another key it is another.
func TestSortedDuplicates(t *testing.T) {
	first := at("a", 1, 1, "missing")
	first.Key = "title"
	second := first
	second.Expected = "some text"
	other := first
	other.Key = "id"
	if diff := gocmp.Diff(List{first, other}, List{first, second, other}.Sorted()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestErr(t *testing.T) {
	for _, test := range []struct {
		name string
		list List
		want string // "" for none
	}{
		{"nothing", nil, ""},
		{"warnings", List{warning("a", 1, "old"), warning("a", 2, "older")}, ""},
		{"one error", List{at("a", 1, 1, "bad")}, "a:1:1: bad"},
		{"the first error, though a warning stands before it", List{at("a", 9, 1, "worse"), warning("a", 1, "old"), at("a", 3, 1, "bad")}, "a:3:1: bad (and 2 more)"},
		{"no severity", List{{Summary: "unsaid"}}, "unsaid"},
	} {
		err := test.list.Err()
		if (err == nil) != (test.want == "") || err != nil && err.Error() != test.want {
			t.Errorf("%s: got %v, want %q", test.name, err, test.want)
		}
		if got := test.list.HasErrors(); got != (test.want != "") {
			t.Errorf("%s: HasErrors is %v", test.name, got)
		}
	}
	if got := (List{}).Error(); got != "nothing is wrong" {
		t.Errorf("an empty list says %q", got)
	}
	var list List
	list.Add(at("a", 1, 1, "bad"))
	var back List
	if !errors.As(fmt.Errorf("reading: %w", list.Err()), &back) || len(back) != 1 {
		t.Error("the list is lost in a wrapped error")
	}
}

func TestSeverityString(t *testing.T) {
	if Error.String() != "error" || Warning.String() != "warning" || Severity(0).String() != "error" {
		t.Errorf("%v %v %v", Error, Warning, Severity(0))
	}
}

func TestNearest(t *testing.T) {
	known := []string{"pantograph", "pantograph-front", "roof", "id", "by", "see", "break_minutes", "title"}
	for _, test := range []struct{ name, want string }{
		{"pantogarph", "pantograph"},
		{"pantographfront", "pantograph-front"},
		{"Roof", "roof"},
		{"rof", "roof"},
		{"rooof", "roof"},
		{"orof", "roof"},
		{"ruef", "roof"},
		{"break-minutes", "break_minutes"},
		{"breakminute", "break_minutes"},
		{"titel", "title"},
		{"ix", "id"},
		{"roof", "roof"},
		{"ox", ""},
		{"i", ""},
		{"rail", ""},
		{"box", ""},
		{"", ""},
		{"livery", ""},
		{strings.Repeat("roof", 100), ""},
		{"panto", "pantograph"},
		{"pan", ""},
		{"brake", ""},
		{"braek", "break_minutes"},
		{"breka", "break_minutes"},
	} {
		got, ok := Nearest(test.name, known)
		if got != test.want || ok != (test.want != "") {
			t.Errorf("nearest to %q is %q, %v, want %q", test.name, got, ok, test.want)
		}
	}
	if got, _ := Nearest("lax", []string{"lab", "lap", "wax"}); got != "lab" {
		t.Errorf("of equals got %q, want the first", got)
	}
	sheets := []string{"northquay-rooms", "northquay", "pellworth-ce4", "pellworth-re460", "quillmore-t3/318"}
	for name, want := range map[string]string{"pelworth": "pellworth-ce4", "nortquay": "northquay", "pellworth-re461": "pellworth-re460",
		"Quilmore": "quillmore-t3/318", "quillmore-t33": "quillmore-t3/318", "nortquay-room": "northquay-rooms", "southquay": "northquay", "tarnside": ""} {
		if got, _ := Nearest(name, sheets); got != want {
			t.Errorf("nearest to %q is %q, want %q", name, got, want)
		}
	}
	if got, _ := Nearest("lax", nil); got != "" {
		t.Errorf("of none got %q", got)
	}
}

// TestDistance compares with published values: "kitten" and "sitting" from the
// usual illustration of Levenshtein's distance, "ca" and "abc" from that of how
// optimal string alignment (3) differs from Damerau's distance (2). The others
// can be counted by hand.
func TestDistance(t *testing.T) {
	for _, test := range []struct {
		a, b string
		want int
	}{
		{"kitten", "sitting", 3},
		{"ca", "abc", 3},
		{"ab", "ba", 1},
		{"", "abc", 3},
		{"same", "same", 0},
		{"größe", "grösse", 2},
	} {
		for range 2 {
			if got := distance([]rune(test.a), []rune(test.b), 9); got != test.want {
				t.Errorf("%q to %q is %d, want %d", test.a, test.b, got, test.want)
			}
			test.a, test.b = test.b, test.a
		}
	}
}
