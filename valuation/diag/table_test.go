package diag

import (
	"fmt"
	"math"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
)

func ExampleReadDocument() {
	doc := ReadDocument("settings.toml", strings.NewReader("draws = 0\ntrsut = { photo = 0.9 }\n"))
	t := doc.Root()
	draws := t.Integer("draws", 20000, 1, 1_000_000)
	photo := t.Child("trust").Number("photo", 0.95, 0, 1)
	t.Finish()
	fmt.Println(draws, photo)
	for _, d := range doc.Diagnostics() {
		fmt.Println(d.Error())
	}
	// Output:
	// 20000 0.95
	// settings.toml:1:9: draws: found the number 0: expected a whole number from 1 to 1000000
	// settings.toml:2:1: trsut: unknown key: try trust
}

// TestNilTable: a reader need not ask whether an optional table is there.
func TestNilTable(t *testing.T) {
	var none *Table
	none.Report("a", "x", "", "")
	none.Warn("a", "x", "", "")
	none.ReportItem("a", 0, "x", "", "")
	none.Finish()
	_, dated := none.Date("a")
	_, parsed := Parse(none, "a", "", func(s string) (string, error) { return s, nil })
	for what, wrong := range map[string]bool{
		"Path": none.Path() != "", "Keys": none.Keys() != nil, "Has": none.Has("a"), "Need": none.Need("a", ""),
		"Pos": none.Pos("a") != Pos{}, "ItemPos": none.ItemPos("a", 0) != Pos{},
		"Text": none.Text("a") != "", "Required": none.Required("a") != "", "ID": none.ID("a") != "",
		"Choice": none.Choice("a", "b", "c") != "b", "Number": none.Number("a", 2, 0, 1) != 2,
		"Integer": none.Integer("a", 2, 0, 1) != 2, "Flag": !none.Flag("a", true), "Date": dated, "Parse": parsed,
		"Dates": none.Dates("a") != nil, "Integers": none.Integers("a") != nil, "Texts": none.Texts("a") != nil,
		"Child": none.Child("a") != nil, "Children": none.Children("a") != nil, "Items": none.Items("a") != nil,
		"Unread": none.Unread("a"), "IsTable": none.IsTable("a"), "IsNumber": none.IsNumber("a"),
	} {
		if wrong {
			t.Errorf("%s of no table is something", what)
		}
	}
}

func TestKeysInFileOrder(t *testing.T) {
	table := read(t, "z = 1\n\"a b\" = 2\nc.d = 3\n[m]\n[c.e]\n[[b]]\n[[b]]\n")
	if diff := gocmp.Diff([]string{"z", "a b", "c", "m", "b"}, table.Keys()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestPos(t *testing.T) {
	root := read(t, `a = 1
"b" = [ 2,
  { c = 3 } ]

  [[d]]
  e.f = 4
[d.g]
[[d]]
[h.i]
[h]
`)
	d := root.Children("d")
	for _, test := range []struct {
		name string
		got  Pos
		want string
	}{
		{"root", root.Pos(""), "f.toml"},
		{"value", root.Pos("a"), "f.toml:1:5"},
		{"absent key", root.Pos("x"), "f.toml"},
		{"array", root.Pos("b"), "f.toml:2:7"},
		{"element", root.ItemPos("b", 0), "f.toml:2:9"},
		{"table in an array", root.ItemPos("b", 1), "f.toml:3:3"},
		{"no such element", root.ItemPos("b", 2), "f.toml:2:7"},
		{"element before the first", root.ItemPos("b", -1), "f.toml:2:7"},
		{"element of a number", root.ItemPos("a", 0), "f.toml:1:5"},
		{"element of nothing", root.ItemPos("x", 0), "f.toml"},
		{"array of tables", root.Pos("d"), "f.toml:5:3"},
		{"its second", root.ItemPos("d", 1), "f.toml:8:1"},
		{"the second itself", d[1].Pos(""), "f.toml:8:1"},
		{"a key that the second has not", d[1].Pos("e"), "f.toml:8:1"},
		{"dotted key", d[0].Child("e").Pos("f"), "f.toml:6:9"},
		{"table made by a dotted key", d[0].Pos("e"), "f.toml:6:3"},
		{"table below", d[0].Child("g").Pos(""), "f.toml:7:1"},
		{"header after that of a child", root.Pos("h"), "f.toml:10:1"},
	} {
		if got := test.got.String(); got != test.want {
			t.Errorf("%s is at %s, want %s", test.name, got, test.want)
		}
	}
}

// TestPosOnLongLines counts characters by hand on lines longer than the
// distance of two marks.
func TestPosOnLongLines(t *testing.T) {
	text := "a = \"" + strings.Repeat("ü🚂x", 700) + "\"\nb = [" + strings.Repeat("\"日\", ", 900) + "]\n"
	d := read(t, text).doc
	line, column := 1, 1
	for i, r := range text {
		if got, want := d.pos(i), (Pos{"f.toml", line, column}); got != want {
			t.Fatalf("offset %d is at %v, want %v", i, got, want)
		}
		column++
		if r == '\n' {
			line, column = line+1, 1
		}
	}
	if got, want := d.pos(len(text)+5), (Pos{"f.toml", line, column}); got != want {
		t.Errorf("behind the end is at %v, want %v", got, want)
	}
}

func TestReports(t *testing.T) {
	root := read(t, "a = [1, 2]\n[b]\n\"c d\" = 3\n")
	root.Report("a", "first", "x", "y")
	root.ReportItem("a", 1, "second", "", "")
	root.Warn("missing", "third", "", "")
	b := root.Child("b")
	b.Report("", "fourth", "", "")
	b.Report("c d", "fifth", "", "")
	b.ReportItem("e", 4, "sixth", "", "")
	if !root.Need("a", "x") || b.Need("gone", "a whale") {
		t.Error("Need finds what is not there, or not what is")
	}
	want := `f.toml: warning: missing: third
f.toml:1:5: a: first: expected x; try y
f.toml:1:9: a[2]: second
f.toml:2:1: b: fourth
f.toml:2:1: b.e[5]: sixth
f.toml:2:1: b.gone: missing: expected a whale
f.toml:3:9: b."c d": fifth`
	if diff := gocmp.Diff(want, said(root.doc)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestOneMistakeOneDiagnostic asks for the same values in many ways.
func TestOneMistakeOneDiagnostic(t *testing.T) {
	root := read(t, "id = 3\nlist = [true]\n")
	for range 2 {
		root.ID("id")
		root.Required("id")
		root.Choice("id", "", "a", "b")
		root.Flag("id", true)
		root.Report("id", "unknown", "", "")
		root.Texts("list")
		root.Integers("list")
		root.ReportItem("list", 0, "unknown", "", "")
		root.Required("absent")
		root.ID("absent")
		root.Finish()
	}
	want := `f.toml: absent: missing: expected a quoted string
f.toml:1:6: id: found the number 3: expected a quoted string of letters, digits, - and _; try "3"
f.toml:2:9: list[1]: found true: expected a quoted string`
	if diff := gocmp.Diff(want, said(root.doc)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestFinish: tables that were got are finished with their parent, others are
// not looked into, and what one reader asked for counts for another.
func TestFinish(t *testing.T) {
	const text = `
got = { a = 1, x = 2 }
seen = { y = 3 }
[[many]]
z = 4
[[many]]
b = 5
`
	root := read(t, text)
	root.Child("got").Integer("a", 0, 0, 9)
	root.Has("seen")
	for _, m := range root.Children("many") {
		m.Integer("b", 0, 0, 9)
	}
	root.Finish()
	want := "f.toml:2:16: got.x: unknown key\nf.toml:5:1: many[1].z: unknown key: expected b"
	if diff := gocmp.Diff(want, said(root.doc)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}

	root = read(t, text)
	for _, key := range []string{"x", "a"} {
		if same := root.Child("got"); same.Integer(key, 0, 0, 9) == 0 || same != root.Child("got") {
			t.Errorf("got %v", same)
		}
	}
	root.Child("got").Finish()
	if got := said(root.doc); got != "" {
		t.Errorf("all was asked for, and yet: %s", got)
	}
}

// TestMisspeltKeyIsNotMissing: a key that must be there and is misspelt is one
// mistake, however often it is asked for; of two that look like it, each is.
func TestMisspeltKeyIsNotMissing(t *testing.T) {
	root := read(t, "titel = \"x\"\n[a]\nidd = \"y\"\nids = \"z\"\n[b]\nwhale = \"y\"\n")
	for range 2 {
		root.Required("title")
		root.Child("a").ID("id")
		root.Child("b").ID("id")
		root.Finish()
	}
	want := `f.toml:1:1: titel: unknown key: try title
f.toml:3:1: a.idd: unknown key: try id
f.toml:4:1: a.ids: unknown key: try id
f.toml:5:1: b.id: missing: expected a quoted string of letters, digits, - and _
f.toml:6:1: b.whale: unknown key: expected id`
	if diff := gocmp.Diff(want, said(root.doc)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestUnread: a key is there but not read where its value is refused or its name
// misspelt, before the table is finished and after it.
func TestUnread(t *testing.T) {
	root := read(t, "id = 3\ntitel = \"x\"\nscale = \"H0\"\nsee = [\"hand\", 7]\nyears = [1, 2]\n[[part]]\n[[prat]]\n[[rule]]\n")
	root.ID("id")
	root.Children("part")
	root.Children("rule")
	root.Texts("see")
	root.Integers("years")
	for _, key := range []string{"title", "scale", "note"} {
		root.Text(key)
	}
	for range 2 {
		for key, want := range map[string]bool{"id": true, "title": true, "scale": false, "note": false, "see": true, "years": false, "part": true, "rule": false} {
			if got := root.Unread(key); got != want {
				t.Errorf("%s: unread %v", key, got)
			}
		}
		root.Finish()
	}
}

// TestManyKeys: a table of many keys finds all of them, and says those nobody
// knows.
func TestManyKeys(t *testing.T) {
	var text strings.Builder
	for i := range 100 {
		fmt.Fprintf(&text, "key-%d = %d\n", i, i)
	}
	root := read(t, text.String())
	for i := range 99 {
		if got := root.Number(fmt.Sprint("key-", i), -1, 0, math.Inf(1)); got != float64(i) {
			t.Errorf("key-%d is %v", i, got)
		}
	}
	root.Finish()
	if got, want := said(root.doc), "f.toml:100:1: key-99: unknown key"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
