package csvtext

import (
	"archive/zip"
	"bytes"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
	"lotgauge/valuation/prices"
)

// bank is a part of the European Central Bank's history as published.
func bank(t testing.TB) []byte {
	t.Helper()
	text, err := os.ReadFile("../../../../testdata/reference/ecb-sample.csv")
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func TestMergeRates(t *testing.T) {
	for _, test := range []struct{ name, old, newer, want string }{
		{"newest first", "Date,USD,GBP,\n2026-03-12,1.16,0.864,\n2026-03-10,1.15,0.86,\n",
			"Date,USD,GBP,\n2026-03-13,1.17,0.865,\n2026-03-11,1.155,0.862,\n2026-03-09,1.14,N/A,\n",
			"Date,USD,GBP,\n2026-03-13,1.17,0.865,\n2026-03-12,1.16,0.864,\n2026-03-11,1.155,0.862,\n2026-03-10,1.15,0.86,\n2026-03-09,1.14,N/A,\n"},
		{"oldest first, remarks, CRLF, no end", "# mine\r\nDate,USD\r\n2026-03-10,1.15\r\n# the twelfth\r\n2026-03-12,1.16",
			"Date,USD\n2026-03-13,1.17\n2026-03-11,1.155\n",
			"# mine\r\nDate,USD\r\n2026-03-10,1.15\r\n2026-03-11,1.155\r\n# the twelfth\r\n2026-03-12,1.16\r\n2026-03-13,1.17\r\n"},
		{"the bank's file of one day", "Date,USD\n2026-03-12,1.16\n2026-03-11,1.15\n", "Date, USD, JPY, \n13 March 2026, 1.17, 161.59, \n",
			"Date,USD,JPY\n2026-03-13,1.17,161.59\n2026-03-12,1.16,\n2026-03-11,1.15,\n"},
		{"columns in another order, new ones", "Date,GBP,USD,\n2026-03-12,0.864,1.16,\n", "Date,JPY,USD,CHF,GBP,\n2026-03-12,161,1.16,N/A,0.864,\n",
			"Date,GBP,USD,JPY,\n2026-03-12,0.864,1.16,161,\n"},
		{"another rate, one that was missing, one that is", "Date,USD,GBP,CHF\n2026-03-12,1.1600,N/A,0.95\n", "Date,USD,GBP,CHF\n2026-03-12,1.17,0.86,N/A\n",
			"Date,USD,GBP,CHF\n2026-03-12,1.17,0.86,0.95\n"},
		{"the same", "Date, USD ,GBP\n\"2026-03-12\", 1.1600 ,\n\n", "Date,USD,GBP,\n2026-03-12,1.16,N/A,\n", "Date, USD ,GBP\n\"2026-03-12\", 1.1600 ,\n\n"},
		{"a byte order mark and no day yet", "\uFEFFDate,USD\n", "Date,USD\n2026-03-12,1.16\n", "\uFEFFDate,USD\n2026-03-12,1.16\n"},
	} {
		m, err := MergeRates("rates.csv", []byte(test.old), "bank.csv", []byte(test.newer))
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
		} else if string(m.Text) != test.want {
			t.Errorf("%s: got\n%s\nwant\n%s", test.name, m.Text, test.want)
		}
	}
}

func TestMergeSaysWhatIsNew(t *testing.T) {
	m, err := MergeRates("rates.csv", []byte("Date,USD,GBP\n2026-03-12,1.1600,\n"), "bank.csv",
		[]byte("Date,GBP,USD,JPY\n2026-03-13,0.87,1.18,160\n2026-03-12,0.86,1.17,161\n2026-03-01,0.85,1.2,N/A\n"))
	if err != nil {
		t.Fatal(err)
	}
	day := func(d int) time.Time { return time.Date(2026, 3, d, 0, 0, 0, 0, time.UTC) }
	if want := []time.Time{day(1), day(13)}; !slices.Equal(m.New, want) {
		t.Errorf("new days %v", m.New)
	}
	if want := []Change{{day(12), "GBP", "", "0.86"}, {day(12), "USD", "1.1600", "1.17"}}; !slices.Equal(m.Changed, want) {
		t.Errorf("changed %v", m.Changed)
	}
	if !slices.Equal(m.Currencies, []string{"JPY"}) {
		t.Errorf("new currencies %v", m.Currencies)
	}
}

func TestMergeIntoNothing(t *testing.T) {
	text := bank(t)
	m, err := MergeRates("rates.csv", nil, "bank.csv", text)
	if err != nil || !bytes.Equal(m.Text, text) || len(m.New) != 64 || !m.New[0].Equal(time.Date(1999, 1, 4, 0, 0, 0, 0, time.UTC)) {
		t.Errorf("%v, %d days", err, len(m.New))
	}
	if len(m.Currencies) != 41 {
		t.Errorf("%d currencies", len(m.Currencies))
	}
}

// Merging the published file into any part of itself gives the rates of the
// whole, and merging again gives the same bytes.
func TestMergeLaws(t *testing.T) {
	text := bank(t)
	lines := strings.SplitAfter(string(text), "\n")
	for _, every := range []int{2, 3, 7} {
		part := lines[0]
		for i, line := range lines[1:] {
			if i%every == 0 {
				part += line
			}
		}
		m, err := MergeRates("rates.csv", []byte(part), "bank.csv", text)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(m.Text, text) {
			t.Errorf("every %d. day: the merged file is not the published one", every)
		}
		again, err := MergeRates("rates.csv", m.Text, "bank.csv", text)
		if err != nil || !bytes.Equal(again.Text, m.Text) || again.New != nil || again.Changed != nil || again.Currencies != nil {
			t.Errorf("merged again: %v, %d days, %v", err, len(again.New), again.Changed)
		}
	}
}

func TestMergeRefuses(t *testing.T) {
	const good = "Date,USD\n2026-03-12,1.16\n"
	for _, test := range []struct{ old, newer, want string }{
		{good, "", "bank.csv: the file is empty"},
		{good, "<html>", "bank.csv:1:1: the first column is"},
		{good, "Date,USD\n2026-03-13,1,16\n", "bank.csv:2:"},
		{"Date,USD\n2026-03-12,x\n", good, "rates.csv:2:"},
		{good, "Date,USD\n2026-03-12,1.16\n12 March 2026,1.17\n", "bank.csv:3:1: there are two rows of 2026-03-12"},
	} {
		m, err := MergeRates("rates.csv", []byte(test.old), "bank.csv", []byte(test.newer))
		if err == nil || m != nil && err == nil || !strings.HasPrefix(err.Error(), test.want) {
			t.Errorf("%q into %q: %v, want %s", test.newer, test.old, err, test.want)
		}
	}
}

// zipped is an archive of files, by their names.
func zipped(t testing.TB, files map[string][]byte) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for name, text := range files {
		f, err := w.Create(name)
		if err == nil {
			_, err = f.Write(text)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// bankXML is laid out as the bank's XML (from memory); the rates are those of
// its history of 19 February 2024.
const bankXML = `<?xml version="1.0" encoding="UTF-8"?>
<gesmes:Envelope xmlns:gesmes="http://www.gesmes.org/xml/2002-08-01" xmlns="http://www.ecb.int/vocabulary/2002-08-01/eurofxref">
	<gesmes:subject>Reference rates</gesmes:subject>
	<Cube>
		<Cube time='2024-02-19'>
			<Cube currency='USD' rate='1.0776'/>
			<Cube currency='JPY' rate='161.59'/>
		</Cube>
		<Cube time='2024-02-16'>
			<Cube currency='USD' rate='1.0764'/>
		</Cube>
	</Cube>
</gesmes:Envelope>`

func TestPublished(t *testing.T) {
	text := bank(t)
	for name, in := range map[string][]byte{"CSV": text, "ZIP": zipped(t, map[string][]byte{"eurofxref-hist.csv": text})} {
		if got, err := Published("file", in); err != nil || !bytes.Equal(got, text) {
			t.Errorf("%s: %v, %d bytes", name, err, len(got))
		}
	}
	got, err := Published("file", []byte(bankXML))
	if want := "Date,USD,JPY\n2024-02-19,1.0776,161.59\n2024-02-16,1.0764,N/A\n"; err != nil || string(got) != want {
		t.Errorf("XML: %v, %q", err, got)
	}
	for name, in := range map[string][]byte{
		"an archive that is none":     []byte("PK\x03\x04"),
		"two files in an archive":     zipped(t, map[string][]byte{"a.csv": text, "b.CSV": text}),
		"no file in an archive":       zipped(t, map[string][]byte{"a.xml": text}),
		"too much in an archive":      zipped(t, map[string][]byte{"a.csv": bytes.Repeat([]byte("2026-03-12,1\n"), prices.MaxRates/13+1)}),
		"XML that is none":            []byte("<Cube time='2024-02-19'><Cube currency='USD' rate='1'/></Kube>"),
		"XML without rates":           []byte("<html><p>Moved</p></html>"),
		"XML of too many currencies":  []byte("<Cube time='2024-02-19'>" + manyCubes() + "</Cube>"),
		"XML without an end":          []byte("<Cube time='2024-02-19'><Cube currency='USD' rate='1'/>"),
		"XML in an unknown character": []byte("<?xml version='1.0' encoding='koi8'?><a/>"),
	} {
		if got, err := Published("file", in); err == nil || got != nil || !strings.HasPrefix(err.Error(), "file: ") {
			t.Errorf("%s: %q, %v", name, got, err)
		}
	}
	trick, err := Published("file", []byte("<Cube time='2024-02-19'><Cube currency='USD,GBP' rate='1,2'/></Cube>"))
	if _, diags := prices.ReadRates("file", bytes.NewReader(trick)); err != nil || !diags.HasErrors() {
		t.Errorf("a cell that would be two is %q, %v", trick, err)
	}
}

func manyCubes() string {
	var b strings.Builder
	for i := range 2 * mostNames {
		b.WriteString("<Cube currency='" + strings.Repeat("A", i) + "' rate='1'/>")
	}
	return b.String()
}

// FuzzMergeRates: what can be read can be merged, the rates of the newer file
// hold afterwards, and doing it again changes nothing.
func FuzzMergeRates(f *testing.F) {
	const small = "Date,USD,GBP,\n2026-03-12,1.16,0.864,\n2026-03-10,1.15,N/A,\n"
	for _, old := range []string{small, "#x\r\nDate,GBP\r\n\r\n2026-03-09,0.8\r\n2026-03-11,0.9", "\uFEFFDate,JPY,,\n", bankXML} {
		f.Add(old, small)
		f.Add(small, old)
	}
	f.Fuzz(func(t *testing.T, old, newer string) {
		text, err := Published("bank", []byte(newer))
		if err != nil {
			return
		}
		m, err := MergeRates("rates", []byte(old), "bank", text)
		if err != nil {
			list, ok := err.(diag.List)
			if !ok || m != nil && !strings.Contains(list.Error(), "too large") {
				t.Fatalf("%T %v from\n%q\nand\n%q", err, err, old, newer)
			}
			return
		}
		want, _ := prices.ReadRates("bank", bytes.NewReader(text))
		got, _ := prices.ReadRates("rates", bytes.NewReader(m.Text))
		first, last, ok := want.Span()
		for _, day := range []time.Time{first, last} {
			for _, c := range []money.Currency{"USD", "GBP", "JPY", "CHF"} {
				w, wd, err := want.Rate(c, "EUR", day)
				if !ok || err != nil || !wd.Equal(day) {
					continue
				}
				if g, gd, err := got.Rate(c, "EUR", day); err != nil || !gd.Equal(day) || g.String() != w.String() {
					t.Fatalf("%s of %v is %v, want %v", c, day, g, w)
				}
			}
		}
		again, err := MergeRates("rates", m.Text, "bank", text)
		if err != nil || !bytes.Equal(again.Text, m.Text) || len(again.New)+len(again.Changed)+len(again.Currencies) > 0 {
			t.Fatalf("merged again: %v\n%q\n%q", err, m.Text, again.Text)
		}
	})
}
