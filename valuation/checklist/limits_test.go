package checklist

import (
	"fmt"
	"strings"
	"testing"

	"lotgauge/valuation/diag"
)

// TestLimits: MaxEach entries are read, one more is refused with one diagnostic.
func TestLimits(t *testing.T) {
	for _, row := range []struct {
		name string
		text func(entries string) string // the document with a list of entries
		item string                      // one entry, %d for its number
		want string
	}{
		{"options", func(s string) string { return least + "[[feature]]\nid = \"x\"\noptions = [" + s + "]\n" }, `"o%d"`,
			"feature[1].options: 256 options: expected at most 255"},
		{"features", func(s string) string { return strings.Replace(least, "variant", "feature = ["+s+"]\nvariant", 1) }, `{ id = "f%d", options = ["a", "b"] }`,
			"feature: 256 entries: expected at most 255"},
		{"states", func(s string) string { return least + "[[point]]\nid = \"q\"\nstate = [" + s + "]\n" }, `{ id = "s%d" }`,
			"point[2].state: 256 entries: expected at most 255"},
		{"symptoms", func(s string) string { return strings.Replace(least, "variant", "symptom = ["+s+"]\nvariant", 1) }, `{ id = "s%d", leak = 0.1 }`,
			"symptom: 256 entries: expected at most 255"},
		{"histories", func(s string) string { return strings.Replace(least, "variant", "history = ["+s+"]\nvariant", 1) }, `{ id = "h%d" }`,
			"history: 256 entries: expected at most 255"},
		{"variants", func(s string) string { return strings.Replace(least, `{ id = "v" }`, s, 1) }, `{ id = "v%d" }`,
			"variant: 256 entries: expected at most 255"},
	} {
		t.Run(row.name, func(t *testing.T) {
			for _, n := range []int{MaxEach, MaxEach + 1} {
				entries := make([]string, n)
				for i := range entries {
					entries[i] = fmt.Sprintf(row.item, i)
				}
				doc := diag.ReadDocument("", strings.NewReader(row.text(strings.Join(entries, ", "))))
				Read(doc, nil)
				var about []string
				for _, d := range doc.Diagnostics() {
					if strings.Contains(d.Summary, "256") {
						about = append(about, d.Key+": "+d.Summary+": expected "+d.Expected)
					}
				}
				got := strings.Join(about, "\n")
				if n == MaxEach && got != "" || n > MaxEach && got != row.want {
					t.Errorf("%d: %q, want %q", n, got, row.want)
				}
			}
		})
	}
}

func TestPieces(t *testing.T) {
	for _, row := range []struct{ text, want string }{
		{"", ""},
		{"lamp", "lamp"},
		{"lamp-{lamps}", "lamp-|<lamps>"},
		{"{a}{b}", "<a>|<b>"},
		{"{a}-{b} x", "<a>|-|<b>| x"},
		{"ümlaut {größe}", "ümlaut |<größe>"},
		{"{", "no"}, {"}", "no"}, {"{}", "no"}, {"a{b", "no"}, {"a}b", "no"}, {"{a{b}}", "no"}, {"{a}}", "no"}, {"}{", "no"},
	} {
		split, ok := pieces(row.text)
		var parts []string
		for _, p := range split {
			if p.name {
				p.text = "<" + p.text + ">"
			}
			parts = append(parts, p.text)
		}
		got := strings.Join(parts, "|")
		if !ok {
			got = "no"
		}
		if got != row.want {
			t.Errorf("%q: %s, want %s", row.text, got, row.want)
		}
	}
}

// TestMaxStates: a family is bounded as a whole, not only list by list.
func TestMaxStates(t *testing.T) {
	family := func(points int) string {
		var b strings.Builder
		b.WriteString("format = 1\nid = \"x\"\ntitle = \"x\"\ngrade = [{ id = \"good\", score = 80, factor = 1.0 }]\n")
		for v := range 250 {
			fmt.Fprintf(&b, "[[variant]]\nid = \"v%d\"\ntitle = \"v\"\n", v)
		}
		for i := range points {
			fmt.Fprintf(&b, "[[point]]\nid = \"p%d\"\ntitle = \"p\"\nweight = 1\nstate = [{ id = \"a\" }, { id = \"b\" }]\n", i)
		}
		return b.String()
	}
	for _, c := range []struct {
		points int
		want   bool
	}{{100, false}, {101, true}} {
		doc := diag.ReadDocument("x.toml", strings.NewReader(family(c.points)))
		Read(doc, nil)
		err := doc.Diagnostics().Err()
		if refused := err != nil && strings.Contains(err.Error(), "states of points for 250 variants"); refused != c.want || err != nil && !refused {
			t.Errorf("%d points: %v", c.points, err)
		}
	}
}
