package csvtext

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"lotgauge/valuation/prices"
)

func TestGuard(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "a": "a", "1": "1", " =1": " =1", "'": "'", "'a": "'a", "''": "''",
		"=1+2": "'=1+2", "+1": "'+1", "-1": "'-1", "@x": "'@x", "\tx": "'\tx", "\rx": "'\rx",
		"'=1": "''=1", "''@": "'''@", "=": "'=",
	} {
		got := Guard(text)
		if got != want || Unguard(got) != text {
			t.Errorf("Guard(%q) = %q, want %q; and back %q", text, got, want, Unguard(got))
		}
	}
}

// Whatever the text, no spreadsheet takes what is written for a formula, and it
// comes back unchanged.
func FuzzGuard(f *testing.F) {
	for _, seed := range []string{"", "=1+2", "'=1", "a,\"b\"\r\nc", "'\r\n", "\t'", "''"} {
		f.Add(seed, "a")
	}
	f.Fuzz(func(t *testing.T, a, b string) {
		if got := Unguard(Guard(a)); got != a {
			t.Fatalf("%q came back as %q", a, got)
		}
		if g := Guard(a); g != "" && strings.IndexByte(formula, g[0]) >= 0 {
			t.Fatalf("%q is written as %q", a, g)
		}
		var plain, guarded []byte
		for _, nl := range []string{"\n", "\r\n"} {
			plain = appendCells(plain, []string{a, b, "x"}, nl)
			guarded = appendCells(guarded, []string{Guard(a), Guard(b), "x"}, nl)
		}
		if got, want := records(string(Unguarded(guarded))), records(string(plain)); !slices.Equal(got, want) {
			t.Fatalf("got %q, want %q from %q", got, want, guarded)
		}
	})
}

func TestUnguarded(t *testing.T) {
	for text, want := range map[string]string{
		"":                                "",
		"a,'b\n":                          "a,'b\n",
		"'=a,'=b\n":                       "=a,=b\n",
		"\uFEFF'=a,\"'=b\"\r\n'\r\n":      "\uFEFF=a,\"=b\"\r\n'\r\n",
		"# '=a,'=b\n'+c,\"'\"\"\"\n":      "# '=a,'=b\n+c,\"'\"\"\"\n",
		"\"x\n'=y\",'=z\n":                "\"x\n'=y\",=z\n",
		"''=a,\"''=b\",'''@":              "'=a,\"'=b\",''@",
		"\"'=not closed":                  "\"=not closed",
		"a'=b,\"c\"'=d,'e=\n'-1,=1,\n\n'": "a'=b,\"c\"'=d,'e=\n-1,=1,\n\n'",
	} {
		if got := string(Unguarded([]byte(text))); got != want {
			t.Errorf("Unguarded(%q) = %q, want %q", text, got, want)
		}
	}
}

// An export begins no cell as a formula, and is a price table that reads back
// as the rows.
func TestExport(t *testing.T) {
	rows := []prices.Row{noted(tyre("1"), "=HYPERLINK(\"http://x\")"), noted(tyre("2"), "'=1"), noted(tyre("3"), "plain")}
	rows[2].Item, rows[2].Source = "-tyre", "@fair"
	for _, note := range []string{"plain", "Größe"} {
		rows[2].Note = note
		out := Export(rows)
		if got := bytes.HasPrefix(out, mark); got != (note != "plain") {
			t.Errorf("%q: byte order mark is %v", note, got)
		}
		for _, record := range records(string(out)) {
			for _, cell := range strings.Split(record, "\x00") {
				if cell != "" && strings.IndexByte(formula, cell[0]) >= 0 {
					t.Errorf("a cell is %q", cell)
				}
			}
		}
		table, diags := prices.ReadTable("export.csv", bytes.NewReader(Unguarded(out)))
		if len(diags) > 0 {
			t.Fatal(diags)
		}
		got := append(table.Rows("tyre"), table.Rows("-tyre")...)
		for i := range rows {
			if content(got[i]) != content(rows[i]) {
				t.Errorf("%+v came back as %+v", rows[i], got[i])
			}
		}
	}
}
