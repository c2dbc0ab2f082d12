package prices

import (
	"fmt"
	"strings"
	"testing"
)

// germanExport is an export of n rows for germanMap.
func germanExport(n int) string {
	var b strings.Builder
	b.WriteString(germanHeader)
	for i := range n {
		fmt.Fprintf(&b, "Lok CE4 60%02d mit Karton;rot;%02d.%02d.%d 18:22;verkauft;1.%03d,50 \x80;7,00;1;sehr gut;B\xf6rse %d;Karton\n",
			i%100, 1+i%28, 1+i%12, 2000+i%25, i%1000, i%7)
	}
	return b.String()
}

// BenchmarkImport imports 100,000 rows, into nothing and into a table that has
// them all.
func BenchmarkImport(b *testing.B) {
	const rows = 100_000
	m, text := readMap(b, germanMap), germanExport(rows)
	first, _ := m.Import("export.csv", strings.NewReader(text), nil)
	if len(first.Rows) != rows {
		b.Fatalf("%d rows, %v", len(first.Rows), first.Failed[:1])
	}
	full, _ := ReadTable("prices.csv", strings.NewReader(writeRows(columnNames[:], first.Rows)))
	for name, known := range map[string]*Table{"new": nil, "seen": full} {
		b.Run(name, func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			b.ReportAllocs()
			for b.Loop() {
				if out, _ := m.Import("export.csv", strings.NewReader(text), known); len(out.Rows)+len(out.Seen) != rows {
					b.Fatal(len(out.Rows))
				}
			}
		})
	}
}
