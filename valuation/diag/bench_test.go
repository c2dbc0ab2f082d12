package diag

import (
	"fmt"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
)

// family is a document shaped like the checklists that are read most, of at
// least size bytes.
func family(size int) string {
	var b strings.Builder
	b.WriteString("format = 1\nid = \"tarnside-d2\"\ntitle = \"Tarnside D2, invented\"\n")
	for i := 1; b.Len() < size; i++ {
		fmt.Fprintf(&b, `
[[point]]
id = "point-%d"
title = "Point number %d"
how = "Hold it against the light: nothing may be bent" # by daylight
weight = %d
see = ["photo", "hand"]
only = { reverser = ["relay", "electronic"] }
state = [
  { id = "sound", odds = { cabinet = 80, tampered = 20 }, yields = ["part-%d"] },
  { id = "bent", score = 0.5, odds = { cabinet = 2, tampered = 25 }, minutes = 10 },
  { id = "wrong-type", score = 0.5, original = false, odds = 3, needs = ["part-%d"] },
  { id = "missing", score = 0.0, complete = false, odds = 4, needs = ["part-%d"] },
]
`, i, i, i, i, i, i)
	}
	return b.String()
}

// BenchmarkReadDocument reads documents as families are: 16 KB is a usual one.
func BenchmarkReadDocument(b *testing.B) {
	for _, kb := range []int{16, 64} {
		text := family(kb << 10)
		b.Run(fmt.Sprintf("%dKB", kb), func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				if d := ReadDocument("f.toml", strings.NewReader(text)); d.Broken() {
					b.Fatal(d.Diagnostics())
				}
			}
		})
	}
}

// BenchmarkParts splits the time of a 16 KB document between parser and locator.
func BenchmarkParts(b *testing.B) {
	text := family(16 << 10)
	b.Run("parser", func(b *testing.B) {
		for b.Loop() {
			var data map[string]any
			if _, err := toml.Decode(text, &data); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("locator", func(b *testing.B) {
		for b.Loop() {
			locate(text)
		}
	})
	b.Run("positions", func(b *testing.B) {
		for b.Loop() {
			d := Document{text: text}
			d.pos(len(text) / 2)
		}
	})
}

// BenchmarkGetters asks a document that is already read for all it has: what a
// reader adds to ReadDocument.
func BenchmarkGetters(b *testing.B) {
	text := family(16 << 10)
	for b.Loop() {
		b.StopTimer()
		root := ReadDocument("f.toml", strings.NewReader(text)).Root()
		b.StartTimer()
		for _, p := range root.Children("point") {
			p.ID("id")
			p.Required("title")
			p.Text("how")
			p.Integer("weight", 1, 0, 100)
			p.Texts("see")
			p.Child("only").Texts("reverser")
			for _, s := range p.Children("state") {
				readState(s)
				s.Texts("yields")
				s.Flag("original", true)
				s.Flag("complete", true)
				s.Number("minutes", 0, 0, 1000)
			}
		}
		root.Finish()
	}
}

// BenchmarkWorstCase is what a file full of mistakes may cost: a diagnostic
// every few bytes, all on one line.
func BenchmarkWorstCase(b *testing.B) {
	text := "x = [" + strings.Repeat("1,", MaxDocument/2-10) + "]"
	for b.Loop() {
		d := ReadDocument("f.toml", strings.NewReader(text))
		d.Root().Texts("x")
		if len(d.Diagnostics()) == 0 {
			b.Fatal("nothing found")
		}
	}
}
