package diag

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// TestMeant: a getter gets what was meant, or what it gives for nothing, and
// reports no word more of it.
func TestMeant(t *testing.T) {
	d := ReadDocument("f.toml", strings.NewReader("day = 10.11.2026\nguide = 12 EUR\nweight = 0,5\nopen = no\nodds = @\nnote = @\nsee = [“a”, \"b\"]\nid \"x\"\n"))
	if d.Broken() {
		t.Fatal(d.Diagnostics())
	}
	root := d.Root()
	day, _ := root.Date("day")
	if want := time.Date(2026, 11, 10, 0, 0, 0, 0, time.UTC); !day.Equal(want) {
		t.Errorf("the day is %v", day)
	}
	if got := root.Required("guide"); got != "12 EUR" {
		t.Errorf("the guide is %q", got)
	}
	if got := root.Number("weight", 9, 0, 1); got != 0.5 {
		t.Errorf("the weight is %v", got)
	}
	if root.Flag("open", true) {
		t.Error("it is open")
	}
	if root.Child("odds") != nil || root.IsTable("odds") || root.IsNumber("odds") || root.Required("note") != "" || !root.Has("note") {
		t.Error("something was read where nothing is")
	}
	if got := root.Texts("see"); len(got) != 2 || got[0] != "a" || got[1] != "b" {
		t.Errorf("seen by %q", got)
	}
	if !root.Refused("note") || !root.Refused("guide") || root.Refused("absent") || (*Table)(nil).Refused("note") {
		t.Error("what was refused is not known")
	}
	if got := len(d.Diagnostics()); got != 8 {
		t.Errorf("%d diagnostics:\n%s", got, said(d))
	}
}

// TestMendsAreCapped: after so many mistakes, or in a very long document, the
// next is the last.
func TestMendsAreCapped(t *testing.T) {
	var b strings.Builder
	for i := range 2 * maxMends {
		fmt.Fprintf(&b, "k%d = @\n", i)
	}
	d := ReadDocument("f.toml", strings.NewReader(b.String()))
	if got := len(d.Diagnostics()); got != maxMends+1 || !d.Broken() {
		t.Errorf("%d diagnostics, broken %v", got, d.Broken())
	}
	long := "a = @\nb = @\n# " + strings.Repeat("x", mendable)
	if d = ReadDocument("f.toml", strings.NewReader(long)); len(d.Diagnostics()) != 1 || !d.Broken() {
		t.Errorf("a long document: %v", d.Diagnostics())
	}
}

// TestMendsKeepLength: a stand-in shifts nothing.
func TestMendsKeepLength(t *testing.T) {
	for _, text := range corpus(t) {
		d := &Document{text: text}
		found := locate(text)
		data, offset, x, final := d.decode(text, found)
		if data != nil || final {
			continue
		}
		m, at, _ := mendFor(text, found, offset, x)
		if m.text != "" && (len(m.text) != m.to-m.from || m.text == text[m.from:m.to] || len(m.apply(text)) != len(text)) {
			t.Errorf("%+v in\n%s", m, text)
		}
		if at > len(text) {
			t.Errorf("at %d of %d", at, len(text))
		}
	}
}

// BenchmarkMends reads a document of usual size with as many mistakes as are
// gone past, spread over it: the dearest that reading one can be.
func BenchmarkMends(b *testing.B) {
	text := strings.Replace(family(16<<10), "tampered = 20 }", "tampered = 20% }", maxMends)
	for b.Loop() {
		if d := ReadDocument("f.toml", strings.NewReader(text)); d.Broken() || len(d.Diagnostics()) != maxMends {
			b.Fatal(d.Diagnostics())
		}
	}
}
