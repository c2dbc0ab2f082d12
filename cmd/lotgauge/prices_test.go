package main

import (
	"bytes"
	"errors"
	"maps"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/cmd/lotgauge/load/csvtext"
	"lotgauge/valuation"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// parsed runs a command's line as far as its options.
func parsed(t *testing.T, cmd *cobra.Command, args ...string) error {
	t.Helper()
	cmd.SilenceErrors, cmd.SilenceUsage = true, true
	cmd.SetArgs(args)
	return cmd.Execute()
}

func TestPricesAddOptions(t *testing.T) {
	for _, test := range []struct {
		args []string
		want map[string]string
	}{
		{nil, map[string]string{}},
		{[]string{"tyre"}, map[string]string{"item": "tyre"}},
		{[]string{"tyre", "34 EUR"}, map[string]string{"item": "tyre", "price": "34 EUR"}},
		{[]string{"tyre", "34", "EUR"}, map[string]string{"item": "tyre", "price": "34 EUR"}},
		{[]string{"--grade", "", "tyre", "--qty", "2", "--note=-1", "--", "-34"},
			map[string]string{"item": "tyre", "price": "-34", "grade": "", "qty": "2", "note": "-1"}},
	} {
		var got *pricesAddOptions
		s := newScreenful()
		cmd := newPricesAddCmd(&environment{streams: s.streams}, func(o *pricesAddOptions) error { got = o; return nil })
		if err := parsed(t, cmd, test.args...); err != nil {
			t.Errorf("%v: %v", test.args, err)
		} else if !maps.Equal(got.Given, test.want) || got.Wait != defaultWait {
			t.Errorf("%v: %v", test.args, got.Given)
		}
	}
}

// The day as of which something is asked is today, where it is today.
func TestDayFlag(t *testing.T) {
	east := time.FixedZone("east", 14*3600)
	for _, test := range []struct {
		text string
		now  time.Time
		want string
	}{
		{"", time.Date(2026, 3, 14, 23, 59, 0, 0, time.UTC), "2026-03-14"},
		{"", time.Date(2026, 3, 15, 1, 0, 0, 0, east), "2026-03-15"}, // the 14th in UTC
		{"2020-02-29", time.Now(), "2020-02-29"},
		{"2021-02-29", time.Now(), ""},
		{"yesterday", time.Now(), ""},
	} {
		got, err := (&dayFlag{test.text}).day(test.now)
		if (err != nil) != (test.want == "") || err == nil && got != time.Date(got.Year(), got.Month(), got.Day(), 0, 0, 0, 0, time.UTC) ||
			err == nil && got.Format(time.DateOnly) != test.want {
			t.Errorf("%q: %v, %v", test.text, got, err)
		}
	}
}

func TestMisuse(t *testing.T) {
	one := diag.Diagnostic{Severity: diag.Error, Summary: "no such thing", Expected: "another", Try: "this"}
	for _, err := range []error{one, diag.List{one}} {
		u, ok := errors.AsType[*usageError](misuse(err))
		if !ok || u.what != "no such thing" || !cmp.Equal(u.hints, []string{"expected another", "try this"}) {
			t.Errorf("misuse(%v) = %#v", err, misuse(err))
		}
	}
	broken := errors.New("broken")
	if misuse(broken) != broken || misuse(nil) != nil {
		t.Error("what is no diagnostic was changed")
	}
}

// A second process is waited for, as long as was said, and named.
func TestAddWaitsForTheLock(t *testing.T) {
	dir := stocked(t)
	held, release := make(chan bool), make(chan bool)
	go func() {
		_ = load.Editor{}.Edit(filepath.Join(dir, ratesFile), func(text []byte) ([]byte, error) { // any file of the folder
			held <- true
			<-release
			return text, nil
		})
		held <- false
	}()
	<-held
	s := newScreenful()
	s.run(t, exitFailed, "prices", "add", "--data", dir, "--wait", "20ms", "tyre", "1 EUR")
	if !strings.Contains(s.err.String(), "is being changed by another lotgauge, process ") || !strings.Contains(s.err.String(), "and was so for 20ms") {
		t.Errorf("%s", &s.err)
	}
	go func() {
		time.Sleep(20 * time.Millisecond)
		release <- true
	}()
	s.run(t, exitDone, "prices", "add", "--data", dir, "--wait", "1m", "tyre", "1 EUR")
	<-held
}

// The questions, and what comes of the answers, without a terminal.
func TestQuestions(t *testing.T) {
	library := valuation.Open(load.Guarded(base), "", false)
	ask := func(given map[string]string, answers ...string) (*addition, string, error) {
		var out bytes.Buffer
		a := &addition{library: library, today: time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC)}
		q := &questioner{in: strings.NewReader(strings.Join(answers, "\n")), out: &out, open: true}
		err := a.fill(given, q)
		return a, out.String(), err
	}
	a, out, err := ask(nil, "tyre", "4 EUR", "", "", "2.50", "3", "fair", "a note")
	if err != nil || rowText(a.row) != "2026-03-14,tyre,sold,,,4.00,EUR,2.50,3,fair,a note" {
		t.Errorf("%s, %v\n%s", rowText(a.row), err, out)
	}
	a, out, err = ask(map[string]string{"item": "quillmore-t1/110", "price": "80 EUR"}, "mint", "fine")
	if err != nil || a.row.Grade != "fine" || strings.Count(out, "Grade (fair, fine): ") != 2 || !strings.Contains(out, `no grade "mint"`) {
		t.Errorf("%s, %v\n%s", rowText(a.row), err, out)
	}
	_, _, err = ask(map[string]string{"item": "tyre"}, "", "", "x")
	if err == nil || !strings.Contains(err.Error(), "no more answers") {
		t.Errorf("an end of the answers: %v", err)
	}
	_, _, err = ask(map[string]string{"item": "tyer", "price": "80 EUR"})
	if err == nil {
		t.Error("what was given wrong is asked for again")
	}
}

// setNumbers changes numbers and not a byte else.
func TestSetNumbers(t *testing.T) {
	text := "# Größe\na = { id = \"é\", f = 0.50 } # 0.50\nb = 1\n"
	at := func(line, column int, number string) numberAt {
		return numberAt{diag.Pos{Line: line, Column: column}, number}
	}
	for _, test := range []struct {
		changes []numberAt
		want    string
	}{
		{nil, text},
		{[]numberAt{at(2, 21, "0.7")}, strings.Replace(text, "0.50", "0.7", 1)},
		{[]numberAt{at(3, 5, "10.25"), at(2, 21, "1")}, "# Größe\na = { id = \"é\", f = 1 } # 0.50\nb = 10.25\n"},
	} {
		if got := string(setNumbers([]byte(text), test.changes)); got != test.want {
			t.Errorf("%v: got\n%s\nwant\n%s", test.changes, got, test.want)
		}
	}
}

// setFactors finds the factor of a grade and of a state however the file is laid
// out, and leaves what has none.
func TestSetFactors(t *testing.T) {
	const text = `format = 1
grade = [ { id = "fair", factor = 5e-1, score = 40 }, { id = "fine", score = 90, factor = 1.0 } ]
[[point]]
id = "box"
state = [ { id = "sound" }, { id = "missing", factor = 0.9 } ]
[[point]]
id = "paint"
[[point.state]]
id = "sound"
[[point.state]]
id = "gone"
factor = 0.25 # much
`
	out, set, left := setFactors("t.toml", []byte(text), []valuation.FittedFactor{
		{Kind: valuation.GradeFactor, ID: "fair", Title: "fair", Fitted: 0.61249},
		{Kind: valuation.LackingFactor, ID: "box:missing", Title: "box", Fitted: 0.8},
		{Kind: valuation.LackingFactor, ID: "paint:gone", Title: "paint", Fitted: 0.3333},
		{Kind: valuation.LackingFactor, ID: "box:sound", Title: "none", Fitted: 0.3},
		{Kind: valuation.LackingFactor, ID: "nosuch:sound", Title: "nosuch", Fitted: 0.3},
		{Kind: valuation.GradeFactor, ID: "mint", Title: "mint", Fitted: 2},
	})
	want := strings.NewReplacer("5e-1", "0.612", "0.9 }", "0.8 }", "0.25 #", "0.333 #").Replace(text)
	if diff := cmp.Diff(want, string(out)); diff != "" {
		t.Errorf("text (-want +got):\n%s", diff)
	}
	if !cmp.Equal(set, []string{"fair", "box", "paint"}) || !cmp.Equal(left, []string{"none", "nosuch", "mint"}) {
		t.Errorf("set %v, left %v", set, left)
	}
}

func TestOverlaidIsAFileSystem(t *testing.T) {
	below := fstest.MapFS{"families/a.toml": {Data: []byte("a")}, "prices.csv": {Data: []byte("p")}}
	over := overlaid{below, "prices.csv", []byte("new")}
	f, err := over.Open("prices.csv")
	if err != nil {
		t.Fatal(err)
	}
	info, err := f.Stat()
	if err != nil || info.Size() != 3 || info.IsDir() || !info.Mode().IsRegular() || f.Close() != nil {
		t.Errorf("%v, %v", info, err)
	}
	if f, err = over.Open("families/a.toml"); err != nil {
		t.Fatal(err)
	}
	f.Close()
}

// A map made of a header has the columns that a price table knows, by number.
func TestOwnMap(t *testing.T) {
	for header, want := range map[string]string{
		"date,item,kind,price,currency\n":   "date = 1\nitem = 2\nkind = 3\nprice = 4\ncurrency = 5\n",
		"# x\nshelf, Date ,NOTE\n":          "date = 2\nnote = 3\n",
		"":                                  "",
		"a\"b\n":                            "",
		"\uFEFFitem\n":                      "item = 1\n",
		"date,date\n":                       "date = 1\ndate = 2\n", // which no reader of TOML lets pass
		strings.Join(csvtext.Columns, ";"):  "",
		"[[item]],\"x = 1\",\"item\ny\"\n1": "",
	} {
		_, got, _ := strings.Cut(ownMap([]byte(header)), "[columns]\n")
		if got != want {
			t.Errorf("%q: %q, want %q", header, got, want)
		}
	}
}

// A vetter refuses what estimates could not use, by item once looked up.
func TestVetter(t *testing.T) {
	library := valuation.Open(load.Guarded(base), "", false)
	day := time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)
	in := &prices.Imported{Rows: []prices.Row{
		{Line: 2, Day: day, Item: "tyre"}, {Line: 3, Day: day, Item: "tyer"}, {Line: 4, Day: day.AddDate(0, 0, 1), Item: "tyre"},
		{Line: 5, Day: day, Item: "tyer"}, {Line: 6, Day: day, Item: "quillmore-t1/110", Grade: "mint"}, {Line: 7, Day: day, Item: "tyre"},
	}, Failed: []prices.Failure{{Line: 8}, {Line: 1}}}
	newVetter(library, day, false).sort(in)
	var kept, failed []int
	for _, r := range in.Rows {
		kept = append(kept, r.Line)
	}
	for _, f := range in.Failed {
		failed = append(failed, f.Line)
	}
	if !cmp.Equal(kept, []int{2, 7}) || !cmp.Equal(failed, []int{1, 3, 4, 5, 6, 8}) {
		t.Errorf("kept %v, failed %v", kept, failed)
	}
	if got := newVetter(library, day, true).objection(prices.Row{Day: day, Item: "tyer"}); got != "" {
		t.Errorf("a new item that may go in: %s", got)
	}
}

// Who stops reading wants no complaint, and a full disk is said.
func TestPricesToAClosedPipe(t *testing.T) {
	dir := stocked(t)
	for _, args := range [][]string{
		{"prices", "show", "tyre"}, {"prices", "show", "--json", "tyre"}, {"prices", "show", "--html", "-", "tyre"}, {"prices", "check"},
		{"prices", "export"}, {"prices", "due", lot}, {"prices", "add", "tyre", "1 EUR"}, {"prices", "add", "--json", "tyre", "1 EUR"},
		{"rates", "update", imports + "/eurofxref.csv"}, {"rates", "update", "--json", imports + "/eurofxref.csv"},
	} {
		s := newScreenful()
		s.Out = brokenWriter{errors.New("the disk is full")}
		s.run(t, exitFailed, append(args, "--data", dir)...)
		if !strings.HasPrefix(s.err.String(), "lotgauge: cannot write the result: the disk is full") && !strings.Contains(s.err.String(), "\nlotgauge: cannot write the result: ") {
			t.Errorf("%v: %s", args, &s.err)
		}
	}
}
