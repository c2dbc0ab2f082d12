package checklist

import (
	"strings"
	"testing"

	"lotgauge/valuation/diag"
)

// largest is the text of the largest family of the project.
func largest(b *testing.B) string {
	b.Helper()
	text := ""
	for _, name := range families(b) {
		if s := read(b, name); len(s) > len(text) {
			text = s
		}
	}
	return text
}

// BenchmarkRead is loading the largest family from its text: Document is the
// share of the TOML parser and the locator, All includes it.
func BenchmarkRead(b *testing.B) {
	text, parts := largest(b), folder(b, "../../checklists")
	b.Run("Document", func(b *testing.B) {
		b.SetBytes(int64(len(text)))
		b.ReportAllocs()
		for b.Loop() {
			diag.ReadDocument("f.toml", strings.NewReader(text))
		}
	})
	b.Run("All", func(b *testing.B) {
		b.SetBytes(int64(len(text)))
		b.ReportAllocs()
		for b.Loop() {
			doc := diag.ReadDocument("f.toml", strings.NewReader(text))
			Read(doc, parts)
			if doc.Diagnostics().HasErrors() {
				b.Fatal(doc.Diagnostics())
			}
		}
	})
}

// BenchmarkProve is proving the largest family once it is read.
func BenchmarkProve(b *testing.B) {
	doc := diag.ReadDocument("f.toml", strings.NewReader(largest(b)))
	f := Read(doc, folder(b, "../../checklists"))
	b.ReportAllocs()
	for b.Loop() {
		Prove(f, doc)
	}
}
