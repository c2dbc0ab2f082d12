package prices

import (
	"encoding/csv"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

func TestNumberFormat(t *testing.T) {
	german, plain := numberFormat{',', '.'}, numberFormat{'.', 0}
	swiss, french := numberFormat{'.', '\''}, numberFormat{',', ' '}
	for _, c := range []struct {
		format     numberFormat
		text, want string // "" where it is refused
	}{
		{plain, "12", "12"}, {plain, "12.50", "12.50"}, {plain, "0.5", "0.5"}, {plain, "007", "007"},
		{plain, "1,234", ""}, {plain, "12.", ""}, {plain, ".5", ""}, {plain, "1.2.3", ""}, {plain, "", ""}, {plain, "1e3", ""}, {plain, "+1", ""}, {plain, "-1", ""}, {plain, "１２", ""},
		{german, "1.234,50", "1234.50"}, {german, "1234,5", "1234.5"}, {german, "12", "12"}, {german, "1.234.567", "1234567"},
		// In the other notation: refused, not read as another number.
		{german, "12.50", ""}, {german, "1,234.50", ""}, {german, "1.23", ""}, {german, ".123", ""}, {german, "1..234", ""}, {german, "1234.567", ""}, {german, "1.234,", ""}, {german, "1.234,5,0", ""},
		// Marks that look alike.
		{swiss, "1'234.50", "1234.50"}, {swiss, "1’234.50", "1234.50"},
		{french, "1 234,50", "1234.50"}, {french, "1\u00a0234,50", "1234.50"}, {french, "1\u202f234,50", "1234.50"}, {french, "1  234", ""},
	} {
		got, err := c.format.plain(c.text)
		if got != c.want || (err == nil) != (c.want != "") {
			t.Errorf("%q with %q and %q is %q, %v; want %q", c.text, c.format.decimal, c.format.thousands, got, err, c.want)
		}
	}
}

// A number that is refused says how the map has numbers.
func TestNumberRefused(t *testing.T) {
	for text, want := range map[string]string{
		"12.50": `"12.50" is not a number with decimals after ',' and thousands grouped with '.'`,
		"-5":    `"-5" is negative`,
		"−5,00": `"−5,00" is negative`,
	} {
		if _, err := (numberFormat{',', '.'}).plain(text); err == nil || err.Error() != want {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
	if _, err := (numberFormat{'.', 0}).plain("1,5"); err == nil || err.Error() != `"1,5" is not a number with decimals after '.' and digits not grouped` {
		t.Error(err)
	}
}

func TestSplitMoney(t *testing.T) {
	for text, want := range map[string][2]string{
		"12,50": {"12,50", ""}, "12,50 €": {"12,50", "€"}, "€12,50": {"12,50", "€"}, "EUR 12,50": {"12,50", "EUR"}, "12,50\u00a0EUR": {"12,50", "EUR"},
		"Fr. 12.50": {"12.50", "Fr."}, "1 234,50 kr": {"1 234,50", "kr"}, "US$ 5": {"5", "US$"},
		// What is no currency stays, and is refused as a number.
		"-12,50": {"-12,50", ""}, "-12,50 €": {"-12,50 €", ""}, "12,-": {"12,-", ""}, "12,–": {"12,–", ""}, ".50": {".50", ""}, "EUR 12 sFr": {"EUR 12 sFr", ""},
		"free": {"free", ""}, "": {"", ""}, "(12)": {"(12)", ""}, "12'": {"12'", ""},
	} {
		number, label := splitMoney(text)
		if number != want[0] || label != want[1] {
			t.Errorf("%q is %q and %q, want %q", text, number, label, want)
		}
	}
}

func TestDatePatterns(t *testing.T) {
	german := []string{"Januar", "Februar", "März", "April", "Mai", "Juni", "Juli", "August", "September", "Oktober", "November", "Dezember"}
	for _, c := range []struct {
		pattern, text, want string // "" where it is none
		months              []string
	}{
		{"dd.mm.yyyy", "14.03.2026", "2026-03-14", nil}, {"dd.mm.yyyy", "4.3.2026", "", nil}, {"d.m.yyyy", "4.3.2026", "2026-03-04", nil}, {"d.m.yyyy", "14.12.2026", "2026-12-14", nil},
		{"dd.mm.yyyy", "14.03.2026 10:00", "", nil}, {"dd.mm.yyyy*", "14.03.2026 10:00", "2026-03-14", nil}, {"dd.mm.yyyy*", "14.03.2026", "2026-03-14", nil},
		{"yyyy-mm-ddT*", "2026-03-14T10:00:00Z", "2026-03-14", nil}, {"yyyymmdd", "20260314", "2026-03-14", nil}, {"yyyymmdd", "2026031", "", nil},
		{"mm/dd/yy", "03/14/26", "2026-03-14", nil}, {"mm/dd/yy", "03/14/68", "2068-03-14", nil}, {"mm/dd/yy", "03/14/69", "1969-03-14", nil},
		{"mm/dd/yyyy", "14/03/2026", "", nil}, {"dd.mm.yyyy", "29.02.2025", "", nil}, {"dd.mm.yyyy", "29.02.2024", "2024-02-29", nil}, {"dd.mm.yyyy", "31.04.2024", "", nil}, {"dd.mm.yyyy", "00.01.2024", "", nil}, {"dd.mm.yyyy", "01.01.1899", "", nil},
		{"mmm d, yyyy", "March 4, 2026", "2026-03-04", englishMonths}, {"mmm d, yyyy", "mar 4, 2026", "2026-03-04", englishMonths}, {"mmm d, yyyy", "Ma 4, 2026", "", englishMonths}, {"mmm d, yyyy", "4 4, 2026", "", englishMonths}, {"d mmm yyyy", "4 Maybe 2026", "", englishMonths},
		{"dd. mmm yyyy", "14. März 2026", "2026-03-14", german}, {"dd. mmm yyyy", "14. MÄR 2026", "2026-03-14", german}, {"dd. mmm yyyy", "14. Jul 2026", "2026-07-14", german}, {"dmmmyyyy", "4Mai2026", "2026-05-04", german},
		{"dd.mm.yyyy", "", "", nil}, {"dd.mm.yyyy", "14", "", nil}, {"dd.mm.yyyy", "１４.03.2026", "", nil},
	} {
		pattern, err := newDatePattern(c.pattern, c.months)
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		if d, ok := pattern.parse(c.text); ok {
			got = d.String()
		}
		if got != c.want {
			t.Errorf("%q by %q is %q, want %q", c.text, c.pattern, got, c.want)
		}
	}
}

// Every day written by time.Format is read by the pattern of the same layout.
func TestDatePatternsAgainstTime(t *testing.T) {
	for pattern, layout := range map[string]string{
		"dd.mm.yyyy": "02.01.2006", "d.m.yy": "2.1.06", "yyyy-mm-dd": time.DateOnly, "mmm d, yyyy": "January 2, 2006", "d-mmm-yy": "2-Jan-06", "yyyymmdd": "20060102", "dd/mm/yyyy*": "02/01/2006 15:04",
	} {
		p, err := newDatePattern(pattern, englishMonths)
		if err != nil {
			t.Fatal(err)
		}
		for at := on("1970-01-01"); at.Year() < 2068; at = at.AddDate(0, 0, 13) {
			text := at.Format(layout)
			if d, ok := p.parse(text); !ok || !d.time().Equal(at) {
				t.Fatalf("%s by %s is %s, %v", text, pattern, d, ok)
			}
		}
	}
}

// A row has the cells of the columns that are there, in their order.
func TestFormatRow(t *testing.T) {
	row := Row{Day: on("2026-03-14"), Item: "pellworth-ce4/6043", Asked: true, Grade: "good", Lacking: "box:missing papers:missing",
		Price: decimal.RequireFromString("12.5"), Postage: decimal.RequireFromString("4.125"), Currency: "EUR", Qty: 3, Source: "fair", Note: "loft find"}
	for _, c := range []struct{ columns, want string }{
		{"date,item,kind,grade,lacking,price,currency,postage,qty,source,note",
			"2026-03-14|pellworth-ce4/6043|asked|good|box:missing papers:missing|12.50|EUR|4.125|3|fair|loft find"},
		{"mine,Price , CURRENCY,item,,date,kind", "|12.50|EUR|pellworth-ce4/6043||2026-03-14|asked"},
		{"", ""},
	} {
		if got := strings.Join(FormatRow(strings.Split(c.columns, ","), row), "|"); got != c.want {
			t.Errorf("%s: %s, want %s", c.columns, got, c.want)
		}
	}
	// Nothing is written where there is nothing to say, and what a currency has
	// no decimals for has none.
	row = Row{Day: on("2026-03-14"), Item: "lamp", Price: decimal.RequireFromString("1200"), Currency: "JPY", Qty: 1}
	if got := strings.Join(FormatRow(columnNames[:], row), "|"); got != "2026-03-14|lamp|sold|1200|JPY||||||" {
		t.Error(got)
	}
}

func TestOneLine(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "a": "a", "a b": "a b", " a": "a", "a ": "a", "a  b": "a b", " ": "", "a\tb\r\nc": "a b c", "a\x00\x1bb": "a b", "ä  ö": "ä ö", "a\u00a0b": "a b", "~!": "~!", "a\x7f": "a",
	} {
		if got := oneLine(text); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}

func TestRowCheck(t *testing.T) {
	good := Row{Day: on("2026-03-14"), Item: "lamp", Price: decimal.RequireFromString("12.50"), Currency: "EUR", Qty: 1}
	if err := good.Check(); err != nil {
		t.Errorf("a good row: %v", err)
	}
	for want, spoil := range map[string]func(*Row){
		`date: "1899-12-31" is not a day: expected year-month-day such as 2026-03-14, from 1900 on`:                       func(r *Row) { r.Day = on("1899-12-31") },
		`date: "12026-03-14" is not a day: expected year-month-day such as 2026-03-14, from 1900 on`:                      func(r *Row) { r.Day = good.Day.AddDate(10000, 0, 0) },
		`item: "a b" is not an item: expected a part such as lamp-black, or family/variant such as pellworth-ce4/6043`:    func(r *Row) { r.Item = "a b" },
		`item: "a/" is not an item: expected a part such as lamp-black, or family/variant such as pellworth-ce4/6043`:     func(r *Row) { r.Item = "a/" },
		`grade: "very good" is not a grade: expected the id of a grade, such as good`:                                     func(r *Row) { r.Grade = "very good" },
		`lacking: "box" is not what a model lacks: expected point:state such as box:missing, with spaces between several`: func(r *Row) { r.Lacking = "box" },
		`price: the price is 0: expected a price above 0; try to leave the row out if nothing was paid`:                   func(r *Row) { r.Price = decimal.Zero },
		`price: an amount cannot be negative: expected a plain number such as 12.50`:                                      func(r *Row) { r.Price = decimal.RequireFromString("-1") },
		`price: "0.123456789" has more than 8 decimals: expected a plain number such as 12.50`:                            func(r *Row) { r.Price = decimal.RequireFromString("0.123456789") },
		`price: the number has more than 18 digits: expected a plain number such as 12.50`:                                func(r *Row) { r.Price = decimal.RequireFromString("123456789012345.1234") },
		`postage: an amount cannot be negative: expected a plain number such as 12.50`:                                    func(r *Row) { r.Postage = decimal.RequireFromString("-1") },
		`currency: unknown currency "EURO": expected an ISO 4217 code such as EUR`:                                        func(r *Row) { r.Currency = "EURO" },
		`currency: unknown currency "": expected an ISO 4217 code such as EUR`:                                            func(r *Row) { r.Currency = "" },
		`qty: "0" is not a number of pieces: expected a whole number from 1`:                                              func(r *Row) { r.Qty = 0 },
		`qty: "4294967296" is not a number of pieces: expected a whole number from 1`:                                     func(r *Row) { r.Qty = 1 << 32 },
		`source: "a\nb" has line ends, control characters or spaces too many: expected one line of text`:                  func(r *Row) { r.Source = "a\nb" },
		`note: " a" has line ends, control characters or spaces too many: expected one line of text`:                      func(r *Row) { r.Note = " a" },
		`note: "a\x00" has line ends, control characters or spaces too many: expected one line of text`:                   func(r *Row) { r.Note = "a\x00" },
		`note: the text is not UTF-8: expected UTF-8`:                                                                     func(r *Row) { r.Note = "a\xff" },
		`note: the text is too long: expected at most 8 KiB`:                                                              func(r *Row) { r.Note = strings.Repeat("x", maxText+1) },
	} {
		row := good
		spoil(&row)
		if err := row.Check(); err == nil || err.Error() != want {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

// randomRow is a row that a table may hold, with texts that are hard to quote.
func randomRow(random *rand.Rand) Row {
	pick := func(texts ...string) string { return texts[random.IntN(len(texts))] }
	return Row{
		Day: (day(random.IntN(40_000)) - 20_000).time(), Item: pick("lamp", "a_b-C", "family/1", "0"), Asked: random.IntN(2) == 0,
		Grade: pick("", "good", "very-good"), Lacking: pick("", "box:missing", "box:missing  papers:worn"),
		Price:    decimal.New(1+random.Int64N(1_000_000_000), -int32(random.IntN(9))),
		Postage:  decimal.New(random.Int64N(3)*random.Int64N(10_000), -int32(random.IntN(5))),
		Currency: money.Currency(pick("EUR", "JPY", "KWD", "GBP")), Qty: 1 + random.IntN(3)*random.IntN(1000),
		Source: pick("", "fair", "#1", `a "b", c`, "=1+2", "ä; ö"), Note: pick("", "“quoted”", `"`, "# no comment", ",,,", "x y"),
	}
}

// writeRows writes a table as a program that adds rows would: encoding/csv, with
// the first cell quoted where it would begin a comment.
func writeRows(columns []string, rows []Row) string {
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.Write(columns)
	for _, r := range rows {
		cells := FormatRow(columns, r)
		w.Flush()
		if strings.HasPrefix(cells[0], "#") {
			b.WriteString(`"` + strings.ReplaceAll(cells[0], `"`, `""`) + `"`)
			cells[0] = ""
		}
		w.Write(cells)
	}
	w.Flush()
	return b.String()
}

// What Check finds nothing wrong with comes back from a table as it was, in any
// order of columns.
func TestFormattedRowsReadBack(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 1))
	for range 200 {
		columns := append([]string{"mine"}, columnNames[:]...)
		random.Shuffle(len(columns), func(i, j int) { columns[i], columns[j] = columns[j], columns[i] })
		var rows []Row
		for range 20 {
			r := randomRow(random)
			if err := r.Check(); err != nil {
				t.Fatalf("%+v: %v", r, err)
			}
			rows = append(rows, r)
		}
		back := allRows(readTable(t, writeRows(columns, rows)))
		slices.SortFunc(back, func(a, b Row) int { return a.Line - b.Line })
		for i := range back {
			back[i].Line = 0
		}
		if diff := cmp.Diff(rows, back); diff != "" {
			t.Fatalf("columns %v (-written +read):\n%s", columns, diff)
		}
	}
}

// A row is refused by Check when, and only when, ReadTable refuses it.
func TestCheckAgainstTable(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 2))
	refused := 0
	for range 3000 {
		r := randomRow(random)
		switch random.IntN(9) {
		case 0:
			r.Price = decimal.New(random.Int64N(3)-1, int32(random.IntN(30)-12))
		case 1:
			r.Postage = decimal.New(random.Int64N(3)-1, int32(random.IntN(30)-12))
		case 2:
			r.Item = []string{"", "/", "a/b/c", "ä", "a b"}[random.IntN(5)]
		case 3:
			r.Qty = random.IntN(3) - 1
		case 4:
			r.Currency = []money.Currency{"", "eur", "XYZ"}[random.IntN(3)]
		case 5:
			r.Lacking = []string{"box", ":", "a:b c:", "a:b:c"}[random.IntN(4)]
		}
		table, faults := ReadTable("prices.csv", strings.NewReader(writeRows(columnNames[:], []Row{r})))
		if err := r.Check(); (err != nil) != faults.HasErrors() || (err == nil) != (table.Len() == 1) {
			t.Fatalf("%+v: check says %v, the table %v", r, err, faults)
		} else if err != nil {
			refused++
		}
	}
	if refused < 300 {
		t.Errorf("only %d rows were refused", refused)
	}
}
