package main

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"path/filepath"
	"testing"
	"time"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/cmd/lotgauge/load/csvtext"
)

// largeTable is a price table of so many rows of some four hundred items, every
// third with a note and every fifth of those in quotes.
func largeTable(rows int) []byte {
	random := rand.New(rand.NewPCG(1, 2))
	var b bytes.Buffer
	b.WriteString("date,item,kind,grade,lacking,price,currency,postage,qty,source,note\n")
	first := time.Date(2015, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range rows {
		note := ""
		switch i % 15 {
		case 0:
			note = fmt.Sprintf("\"lot %d, \"\"as new\"\"\"", i)
		case 3, 6, 9, 12:
			note = fmt.Sprintf("lot %d", i)
		}
		item := fmt.Sprintf("part-%d", random.IntN(400))
		if i%10 == 0 {
			item = "tyre"
		}
		fmt.Fprintf(&b, "%s,%s,sold,,,%d.%02d,EUR,%d.50,%d,source-%d,%s\n", first.AddDate(0, 0, i*4000/rows).Format(time.DateOnly),
			item, 5+random.IntN(200), random.IntN(100), random.IntN(9), 1+random.IntN(3), random.IntN(12), note)
	}
	return b.Bytes()
}

// BenchmarkPricesAdd adds a row to a table of a hundred thousand, all of it: the
// data folder is found, the item looked up, the table read, proved to end where
// a row may begin, copied twice, written and synced. Of it writing is the most.
func BenchmarkPricesAdd(b *testing.B) {
	for _, rows := range []int{1000, 100_000} {
		b.Run(fmt.Sprintf("rows=%d", rows), func(b *testing.B) {
			dir := stocked(b)
			text := largeTable(rows)
			file := filepath.Join(dir, pricesFile)
			s := newScreenful()
			s.Out = io.Discard
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				b.StopTimer()
				if err := load.Replace(file, func(w io.Writer) error { _, err := w.Write(text); return err }); err != nil { // and synced
					b.Fatal(err)
				}
				b.StartTimer()
				if code := run([]string{"prices", "add", "--data", dir, "--date", "2026-03-01", "tyre", "1 EUR"}, s.streams); code != exitDone {
					b.Fatal(&s.err)
				}
			}
		})
	}
}

// BenchmarkAppend is the part of it that is done in memory.
func BenchmarkAppend(b *testing.B) {
	text := largeTable(100_000)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := csvtext.Append(pricesFile, text, nil); err != nil {
			b.Fatal(err)
		}
	}
}
