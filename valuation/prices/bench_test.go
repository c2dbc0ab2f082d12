package prices

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"math/rand/v2"
	"sync"
	"testing"
)

// Two tables and the rates, made once, for all benchmarks.
var (
	table100k = sync.OnceValue(func() []byte { return makeTable(100_000) })
	table1M   = sync.OnceValue(func() []byte { return makeTable(1_000_000) })
)

// makeTable is a price table of n rows: 400 items, four currencies, 12 sources
// and a note on every third row.
func makeTable(n int) []byte {
	random := rand.New(rand.NewPCG(1, 2))
	var b bytes.Buffer
	b.WriteString("date,item,kind,grade,lacking,price,currency,postage,qty,source,note\n")
	for i := range n {
		d := civil(2015, 1, 1) + day(i*3650/n)
		item, kind, grade, lacking, note := fmt.Sprintf("part-%d", random.IntN(300)), "sold", "", "", ""
		if random.IntN(4) == 0 {
			item, grade = fmt.Sprintf("family-%d/%d", random.IntN(10), 6000+random.IntN(10)), "good"
			if random.IntN(2) == 0 {
				lacking = "box:missing pantograph-front:missing"
			}
		}
		if random.IntN(3) == 0 {
			kind = "asked"
		}
		if random.IntN(3) == 0 {
			note = fmt.Sprintf("lot %d", i)
		}
		currency := []string{"EUR", "EUR", "GBP", "CHF", "USD"}[random.IntN(5)]
		fmt.Fprintf(&b, "%s,%s,%s,%s,%s,%d.%02d,%s,%d.50,%d,source-%d,%s\n", d, item, kind, grade, lacking,
			5+random.IntN(200), random.IntN(100), currency, random.IntN(9), 1+random.IntN(3), random.IntN(12), note)
	}
	return b.Bytes()
}

func BenchmarkReadTable(b *testing.B) {
	for _, size := range []struct {
		rows int
		text func() []byte
	}{{100_000, table100k}, {1_000_000, table1M}} {
		b.Run(fmt.Sprintf("rows=%d/plain", size.rows), func(b *testing.B) {
			benchmarkText(b, size.rows, size.text, func(text []byte) int { return plainPass(b, text) })
		})
		b.Run(fmt.Sprintf("rows=%d/table", size.rows), func(b *testing.B) {
			benchmarkText(b, size.rows, size.text, func(text []byte) int {
				table, faults := ReadTable("prices.csv", bytes.NewReader(text))
				if len(faults) > 0 {
					b.Fatal(faults)
				}
				return table.Len()
			})
		})
	}
}

// benchmarkText measures read, which must find all rows of the text.
func benchmarkText(b *testing.B, rows int, text func() []byte, read func([]byte) int) {
	if rows > 100_000 && testing.Short() {
		b.Skip("a million rows")
	}
	source := text()
	b.SetBytes(int64(len(source)))
	b.ReportAllocs()
	for b.Loop() {
		if n := read(source); n != rows {
			b.Fatalf("%d rows of %d", n, rows)
		}
	}
}

// plainPass counts the rows with encoding/csv alone: what any reader built on
// it has to spend.
func plainPass(b *testing.B, text []byte) int {
	r := csv.NewReader(bytes.NewReader(text))
	r.ReuseRecord = true
	for rows := -1; ; rows++ {
		if _, err := r.Read(); err == io.EOF {
			return rows
		} else if err != nil {
			b.Fatal(err)
		}
	}
}
