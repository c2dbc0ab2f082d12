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

// BenchmarkReadTable reads tables, and the same bytes with encoding/csv alone,
// as it comes and with ReuseRecord.
func BenchmarkReadTable(b *testing.B) {
	for _, size := range []struct {
		rows int
		text func() []byte
	}{{100_000, table100k}, {1_000_000, table1M}} {
		for name, reuse := range map[string]bool{"plain": false, "plain-reuse": true} {
			b.Run(fmt.Sprintf("rows=%d/%s", size.rows, name), func(b *testing.B) {
				benchmarkText(b, size.rows, size.text, func(text []byte) int { return plainPass(b, text, reuse) })
			})
		}
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
func plainPass(b *testing.B, text []byte, reuse bool) int {
	r := csv.NewReader(bytes.NewReader(text))
	r.ReuseRecord = reuse
	for rows := -1; ; rows++ {
		if _, err := r.Read(); err == io.EOF {
			return rows
		} else if err != nil {
			b.Fatal(err)
		}
	}
}

// makeRates is a file of 7,000 days and 41 currencies, as the European Central
// Bank's history had in 2026, with every third cell N/A.
func makeRates() []byte {
	var b bytes.Buffer
	b.WriteString("Date,USD,JPY,BGN,CYP,CZK,DKK,EEK,GBP,HUF,LTL,LVL,MTL,PLN,ROL,RON,SEK,SIT,SKK,CHF,ISK,NOK," +
		"HRK,RUB,TRL,TRY,AUD,BRL,CAD,CNY,HKD,IDR,ILS,INR,KRW,MXN,MYR,NZD,PHP,SGD,THB,ZAR,\n")
	for i := range 7000 {
		b.WriteString((civil(2026, 4, 13) - day(i)).String())
		for c := range 41 {
			if c%3 == 2 {
				b.WriteString(",N/A")
			} else {
				fmt.Fprintf(&b, ",%d.%04d", 1+c*c%180, 1000+(i*c)%9000)
			}
		}
		b.WriteString(",\n")
	}
	return b.Bytes()
}

func BenchmarkReadRates(b *testing.B) {
	text := makeRates()
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if rates, faults := ReadRates("rates.csv", bytes.NewReader(text)); len(faults) > 0 || len(rates.days) != 7000 {
			b.Fatal(len(rates.days), faults)
		}
	}
}

func BenchmarkRate(b *testing.B) {
	rates, _ := ReadRates("rates.csv", bytes.NewReader(makeRates()))
	on := civil(2015, 6, 1).time()
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := rates.Rate("GBP", "USD", on); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkEstimate estimates an item of 250 rows, three quarters of them
// converted, out of a table of 100,000.
func BenchmarkEstimate(b *testing.B) {
	table, _ := ReadTable("prices.csv", bytes.NewReader(table100k()))
	rates, _ := ReadRates("rates.csv", bytes.NewReader(makeRates()))
	rules := Rules{Home: "EUR", HalfLifeDays: 730, AskedFactor: 0.85, AskedWeight: 0.5, Spread: 0.25}
	b.ReportAllocs()
	for b.Loop() {
		e, err := table.Estimate(Item{ID: "part-7"}, rules, rates, civil(2025, 1, 1).time())
		if err != nil || !e.Priced || e.Observations < 200 {
			b.Fatal(e.Observations, err)
		}
	}
}

func BenchmarkScarcity(b *testing.B) {
	table, _ := ReadTable("prices.csv", bytes.NewReader(table100k()))
	for b.Loop() {
		if s := table.Scarcity("part-7", Rules{FindWithinDays: 180}, civil(2025, 1, 1).time()); s.Sightings < 200 {
			b.Fatal(s)
		}
	}
}

// BenchmarkPrices is the part of an estimate that does not depend on the rows.
func BenchmarkPrices(b *testing.B) {
	s := Student{Freedom: 13.7, Mu: 3, Scale: 0.3}
	for b.Loop() {
		if p := pricesOf(s); p[0] <= 0 {
			b.Fatal(p)
		}
	}
}
