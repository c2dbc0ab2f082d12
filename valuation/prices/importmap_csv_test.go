package prices

import (
	"bufio"
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// recordsOf are the records of a text, one on each line: where it begins and its
// cells, or its fault.
func recordsOf(s csvSyntax, text string) []string {
	in := csvRecords{csvSyntax: s, lines: bufio.NewReader(strings.NewReader(text))}
	var records []string
	for rec, ok := in.next(); ok; rec, ok = in.next() {
		if rec.fault != "" {
			records = append(records, fmt.Sprintf("%d! %s", rec.line, rec.fault))
			continue
		}
		records = append(records, fmt.Sprintf("%d: %q", rec.line, rec.cells))
	}
	return records
}

func TestRecords(t *testing.T) {
	comma, semicolon := csvSyntax{separator: ',', quote: '"'}, csvSyntax{separator: ';', quote: '\'', comment: '#'}
	tab := csvSyntax{separator: '\t'}
	for _, c := range []struct {
		syntax csvSyntax
		text   string
		want   []string
	}{
		{comma, "", nil},
		{comma, "a,b\nc,d", []string{`1: ["a" "b"]`, `2: ["c" "d"]`}},
		{comma, "a,b\r\n\r\n,\r\n", []string{`1: ["a" "b"]`, `3: ["" ""]`}},
		{comma, "\n  \n\na\n", []string{`4: ["a"]`}},
		{comma, `"a,b","c ""d""",""` + "\n", []string{`1: ["a,b" "c \"d\"" ""]`}},
		{comma, "\"a\nb\r\n\nc\",d\ne", []string{`1: ["a\nb\n\nc" "d"]`, `5: ["e"]`}},
		// Spaces around quotes, and quotes that quote nothing.
		{comma, ` "a" , "b"` + "\n", []string{`1: ["a" "b"]`}},
		{comma, `12" wheel,the "old" one, x"` + "\n", []string{`1: ["12\" wheel" "the \"old\" one" " x\""]`}},
		// One bad line is one record, and the next is read.
		{comma, "a\n\"b\nc,d\n", []string{`1: ["a"]`, "2! a quoted text does not end", `3: ["c" "d"]`}},
		{comma, "\"b\"x,c\nd\n", []string{"1! text follows a quoted text before the next separator", `2: ["d"]`}},
		{comma, "x,\"b\nc\" d\ne\n", []string{"1! text follows a quoted text before the next separator", `2: ["c\" d"]`, `3: ["e"]`}},
		{comma, "\"", []string{"1! a quoted text does not end"}},
		// The second line is well-formed within the quotes of the first, and not by
		// itself; the third is still read.
		{comma, "a,\"b\n\"\",\"\"x\nc,d\n", []string{"1! a quoted text does not end",
			"2! text follows a quoted text before the next separator", `3: ["c" "d"]`}},
		{semicolon, "# a;b\n'x;y';'it''s'\n 'z' ;#\n", []string{`2: ["x;y" "it's"]`, `3: ["z" "#"]`}},
		{tab, "\"a\t'b'\n", []string{`1: ["\"a" "'b'"]`}},
		{csvSyntax{separator: '|', quote: '"'}, "ä|ö\n\xff|b\n", []string{`1: ["ä" "ö"]`, `2: ["\xff" "b"]`}},
		{csvSyntax{separator: '·', quote: '“'}, "a·“b·c“\n", []string{`1: ["a" "b·c"]`}},
	} {
		if diff := cmp.Diff(c.want, recordsOf(c.syntax, c.text)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", c.text, diff)
		}
	}
}

// A quote that is never closed costs one record, however much follows: a record
// has an end.
func TestOpenQuoteIsOneRecord(t *testing.T) {
	text := "a,b\nc,\"d\n" + strings.Repeat("e,f\n", 1000)
	got := recordsOf(csvSyntax{separator: ',', quote: '"'}, text)
	if len(got) != 1002 || got[1] != "2! a quoted text does not end" || got[2] != `3: ["e" "f"]` || got[1001] != `1002: ["e" "f"]` {
		t.Errorf("%d records, the second %s", len(got), got[1])
	}
	// One that is closed later than that is not a record either, and what is
	// between is read.
	text = "\"" + strings.Repeat("x\n", maxRecordLines+1) + "\",c\n"
	if got = recordsOf(csvSyntax{separator: ',', quote: '"'}, text); len(got) != maxRecordLines+2 || got[1] != `2: ["x"]` {
		t.Errorf("%d records, the second %s", len(got), got[1])
	}
	// One that is closed within the limit is a record.
	text = "a,b\n\"" + strings.Repeat("x\n", maxRecordLines-1) + "\",c\nd,e\n"
	got = recordsOf(csvSyntax{separator: ',', quote: '"'}, text)
	if len(got) != 3 || got[2] != fmt.Sprintf(`%d: ["d" "e"]`, maxRecordLines+2) {
		t.Errorf("%d records, the last %s", len(got), got[len(got)-1])
	}
}

func TestTooManyCells(t *testing.T) {
	got := recordsOf(csvSyntax{separator: ','}, strings.Repeat(",", maxCells)+"\n"+strings.Repeat(",", maxCells-1)+"\n")
	if len(got) != 2 || got[0] != "1! the row has more than 1000 cells" || strings.Contains(got[1], "!") {
		t.Errorf("%.60q", got)
	}
}

// Whatever encoding/csv writes is read as it reads it.
func TestRecordsAgainstCSV(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 3))
	texts := []string{"", "a", " b ", `"`, `""`, "x\ny", ",", ";", "\n", "ä", `a "b" c`, "#", "'"}
	for range 2000 {
		separator := []rune{',', ';', '\t', '|'}[random.IntN(4)]
		var b strings.Builder
		w := csv.NewWriter(&b)
		w.Comma, w.UseCRLF = separator, random.IntN(2) == 0
		width := 2 + random.IntN(3)
		for range 1 + random.IntN(4) {
			cells := make([]string, width)
			for i := range cells {
				cells[i] = texts[random.IntN(len(texts))]
			}
			w.Write(cells)
		}
		w.Flush()
		r := csv.NewReader(strings.NewReader(b.String()))
		r.Comma = separator
		var want []string
		for cells, err := r.Read(); err == nil; cells, err = r.Read() {
			line, _ := r.FieldPos(0)
			want = append(want, fmt.Sprintf("%d: %q", line, cells))
		}
		if diff := cmp.Diff(want, recordsOf(csvSyntax{separator: separator, quote: '"'}, b.String())); diff != "" {
			t.Fatalf("%q (-encoding/csv +ours):\n%s", b.String(), diff)
		}
	}
}
