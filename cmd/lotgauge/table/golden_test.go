package table

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
	"github.com/shopspring/decimal"

	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

var update = flag.Bool("update", false, "write the golden files anew")

// layouts are the widths and colours that everything is printed in.
var layouts = []Options{{Width: 80}, {Width: 50}, {Width: 120}, {Width: 80, Colour: true}}

func (o Options) name() string {
	if o.Colour {
		return fmt.Sprintf("%d columns, colour", o.Width)
	}
	return fmt.Sprintf("%d columns", o.Width)
}

// golden compares what print prints in every layout with testdata/NAME.txtar,
// in which the escape character is written as ^[.
func golden(t *testing.T, name string, print func(io.Writer, Options) error) {
	t.Helper()
	file := filepath.Join("testdata", name+".txtar")
	got := &txtar.Archive{}
	for _, o := range layouts {
		var b bytes.Buffer
		if err := print(&b, o); err != nil {
			t.Fatal(err)
		}
		text := strings.ReplaceAll(b.String(), "\x1b", "^[")
		got.Files = append(got.Files, txtar.File{Name: o.name(), Data: []byte(text)})
	}
	if *update {
		if err := os.WriteFile(file, txtar.Format(got), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatalf("%v; -update writes it", err)
	}
	if diff := cmp.Diff(string(want), string(txtar.Format(got))); diff != "" {
		t.Errorf("%s (-want +got); -update accepts it:\n%s", file, diff)
	}
}

func TestGoldenAppraisals(t *testing.T) {
	for name, fixture := range fixtures {
		t.Run(name, func(t *testing.T) {
			golden(t, name, func(w io.Writer, o Options) error { return Appraisal(w, fixture(), o) })
		})
	}
	for _, name := range []string{"auction", "unpriced", "hostile"} {
		golden(t, name+"-full", func(w io.Writer, o Options) error {
			o.Full = true
			return Appraisal(w, fixtures[name](), o)
		})
	}
	for _, name := range []string{"auction", "bargain", "walk-away", "unpriced", "hostile"} {
		golden(t, name+"-brief", func(w io.Writer, o Options) error { return Brief(w, fixtures[name](), o) })
	}
}

// printouts are all the ways in which everything is printed.
func printouts() map[string]func(io.Writer, Options) error {
	all := map[string]func(io.Writer, Options) error{}
	for name, fixture := range fixtures {
		all[name] = func(w io.Writer, o Options) error { return Appraisal(w, fixture(), o) }
		all[name+" in full"] = func(w io.Writer, o Options) error {
			o.Full = true
			return Appraisal(w, fixture(), o)
		}
		all[name+" in brief"] = func(w io.Writer, o Options) error { return Brief(w, fixture(), o) }
	}
	for name, print := range sideBySide {
		all[name] = print
	}
	return all
}

// Every line of every printout, at widths of all kinds: it fits, it ends without
// blanks, and it has no escape code but those of the printer, and those only
// with colour, and each turned off again.
func TestEveryLine(t *testing.T) {
	for name, print := range printouts() {
		for columns := MinWidth; columns <= 140; columns++ {
			for _, colour := range []bool{false, true} {
				o := Options{Width: columns, Colour: colour}
				var b bytes.Buffer
				if err := print(&b, o); err != nil {
					t.Fatal(err)
				}
				for line := range strings.SplitSeq(b.String(), "\n") {
					checkLine(t, o, line)
				}
				if t.Failed() {
					t.Fatalf("%s, %s", name, o.name())
				}
			}
		}
	}
}

func checkLine(t *testing.T, o Options, line string) {
	t.Helper()
	if got := width(line); got > o.Width {
		t.Errorf("%d columns: %q", got, line)
	}
	if strings.TrimRight(line, " ") != line {
		t.Errorf("blanks at the end: %q", line)
	}
	text := line
	if o.Colour {
		for _, c := range codes {
			text = strings.ReplaceAll(text, c.EscapeSeq(), "")
		}
		on := strings.Count(line, "\x1b") - strings.Count(line, "\x1b[0m")
		if off := strings.Count(line, "\x1b[0m"); on != off {
			t.Errorf("colour turned on %d times, off %d: %q", on, off, line)
		}
		text = strings.ReplaceAll(text, "\x1b[0m", "")
	}
	if diag.Clean(text) != text {
		t.Errorf("%q", line)
	}
}

// Colour changes nothing but colour.
func TestColourKeepsTheText(t *testing.T) {
	for name, print := range printouts() {
		var with, without bytes.Buffer
		if err := print(&with, Options{Width: 80, Colour: true}); err != nil {
			t.Fatal(err)
		}
		if err := print(&without, Options{Width: 80}); err != nil {
			t.Fatal(err)
		}
		stripped := with.String()
		for _, c := range codes {
			stripped = strings.ReplaceAll(stripped, c.EscapeSeq(), "")
		}
		stripped = strings.ReplaceAll(stripped, "\x1b[0m", "")
		if diff := cmp.Diff(without.String(), stripped); diff != "" {
			t.Errorf("%s (-without +with):\n%s", name, diff)
		}
	}
}

func firstLine(t *testing.T, a *valuation.Appraisal) string {
	t.Helper()
	var b bytes.Buffer
	if err := Appraisal(&b, a, Options{Width: 120}); err != nil {
		t.Fatal(err)
	}
	line, _, _ := strings.Cut(b.String(), "\n")
	return line
}

func TestFirstLine(t *testing.T) {
	noAsk := auction()
	noAsk.Purchase.Ask, noAsk.Purchase.Landed = nil, nil
	noAsk.Reading.Verdict = valuation.Buy
	bold := auction()
	bold.Purchase.CarefulBid = cash("50.00")
	for _, test := range []struct {
		a    *valuation.Appraisal
		want string
	}{
		{auction(), "Stop at 50.00 GBP (84.10 EUR in all); careful: 35.00 GBP (60.02 EUR in all)."},
		{noAsk, "Stop at 50.00 GBP (84.10 EUR in all); careful: 35.00 GBP (60.02 EUR in all)."},
		{bold, "Stop at 50.00 GBP (84.10 EUR in all), which is careful too."},
		{bargain(), "Buy at 31.00 EUR; stop at 50.00 EUR; careful: 36.00 EUR."},
		{tooDear(), "Too dear at 60.00 EUR: stop at 50.00 EUR; no bid is a careful one."},
		{walkAway(), "Walk away: zinc pest in the frame: it will go on crumbling (frame cracked or swollen: 90% likely)."},
		{stopped(), "Walk away: repairs are more than half of what it is worth."},
		{unpriced(), "No bid can be named: there is no price for Pantograph, black and 1 more."},
		{&valuation.Appraisal{Reading: valuation.Reading{Verdict: valuation.WalkAway}}, "Walk away: no bid pays."},
		{offLadder(valuation.Buy), "Buy at 31.00 EUR."},
		{offLadder(valuation.Marginal), "The price of 31.00 EUR pays on average, but you lose money in 31 of 100 such purchases, more often than you tolerate."},
		{offLadder(valuation.TooDear), "Too dear at 31.00 EUR: no bid pays."},
	} {
		if got := firstLine(t, test.a); got != test.want {
			t.Errorf("got  %s\nwant %s", got, test.want)
		}
	}
}

// A reason is said with all that is believed that makes it one, of a point or of a
// symptom; one of money as it is.
func TestReasonsSayHowLikely(t *testing.T) {
	r := walkAway().Reading.Reasons[0]
	r.Grounds = append(r.Grounds, valuation.Ground{Title: "Does not move", Chance: 0.997})
	want := "zinc pest in the frame: it will go on crumbling (frame cracked or swollen: 90% likely; does not move: >99% likely)"
	if got := r.Because(percent); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got := (&valuation.Reason{Text: "No bid pays."}).Because(percent); got != "No bid pays." {
		t.Errorf("got %s", got)
	}
}

// What the answers to a question would do: the likeliest three, none that is
// hardly possible, and one by which no bid would pay.
func TestEffects(t *testing.T) {
	q := questions()[0]
	if got, want := effects(&q, "GBP"), "If sound: stop at 52.00\u00a0GBP\u00a0(78%); if incomplete: 41.00\u00a0GBP\u00a0(16%); if missing: no bid pays\u00a0(5%)."; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	q.Effects = []valuation.Effect{{Title: "yes", Chance: 0.98}, {Title: "no", Chance: 0.02, Stop: cash("5.00")}}
	if got, want := effects(&q, "GBP"), "If yes: no bid pays\u00a0(98%); if no: stop at 5.00\u00a0GBP\u00a0(2%)."; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got := effects(&valuation.Question{}, "GBP"); got != "" {
		t.Errorf("nothing is known, yet: %s", got)
	}
}

// What is doubtful at a place of the listing stands right below the headline,
// and what has no place at the foot; each once.
func TestAlerts(t *testing.T) {
	a := auction()
	a.Reading.Warnings = diag.List{
		{Severity: diag.Warning, Pos: diag.Pos{File: "lot.toml", Line: 12}, Summary: "another number"},
		{Severity: diag.Warning, Summary: "two rows set aside"},
	}
	var b bytes.Buffer
	if err := Appraisal(&b, a, Options{Width: 80}); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	alert, foot := strings.Index(text, "another number"), strings.Index(text, "two rows")
	if alert < 0 || alert > strings.Index(text, "DEMONSTRATION") || foot < strings.Index(text, "\nMind\n") {
		t.Error(text)
	}
	if strings.Count(text, "another number") != 1 || strings.Count(text, "two rows") != 1 {
		t.Error("said more than once")
	}
}

// At an auction it is said how likely the stop is enough, and what that gains.
func TestAtHammer(t *testing.T) {
	a := auction()
	margin := func(m valuation.Margin) string {
		m.AtHammer, m.Price, m.Amount = true, money("61.64"), money("-27.44")
		a.Reading.Margin = &m
		return strings.ReplaceAll(atHammer(a), "\u00a0", " ")
	}
	for _, test := range []struct{ got, want string }{
		{margin(valuation.Margin{}), "Bidding should end near 61.64 GBP; there you lose 27.44 EUR on average."},
		{margin(valuation.Margin{Chance: chance(0.12), Bidding: cash("1.51")}),
			"Bidding should end near 61.64 GBP, but in 12 of 100 such auctions at or below your stop: bidding up to there you gain 1.51 EUR on average over all of them."},
		{margin(valuation.Margin{Chance: chance(0), Bidding: cash("0.00")}), "Bidding should end near 61.64 GBP, and hardly at or below your stop."},
	} {
		if test.got != test.want {
			t.Errorf("got  %s\nwant %s", test.got, test.want)
		}
	}
}

func TestBroken(t *testing.T) {
	for _, test := range []struct {
		line string
		want []string
	}{
		{"short", []string{"short"}},
		{"lotgauge: one two three", []string{"lotgauge:", "  one two", "  three"}},
		{"    one two six", []string{"    one", "      two", "      six"}},
		{"", []string{""}},
	} {
		if diff := cmp.Diff(test.want, Broken(test.line, 12)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", test.line, diff)
		}
	}
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestWriteErrorsAreReported(t *testing.T) {
	for name, print := range printouts() {
		if err := print(brokenWriter{}, Options{Width: 80}); err != io.ErrClosedPipe {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The column from the price of a sound one to the bid adds up as it is printed,
// whatever the width: each amount below a rule is the sum of all above it.
func TestPrintedStepsAddUp(t *testing.T) {
	for _, o := range layouts {
		var b bytes.Buffer
		p := newPrinter(o)
		p.colour = false
		p.steps(auction())
		if err := p.writeTo(&b); err != nil {
			t.Fatal(err)
		}
		sum, sums, ruled := decimal.Zero, 0, false
		for line := range strings.SplitSeq(b.String(), "\n") {
			fields := strings.Fields(line)
			switch n := len(fields); {
			case strings.HasSuffix(line, "---"):
				ruled = true
			case n < 3 || fields[n-1] != "EUR":
			case ruled:
				if got := decimal.RequireFromString(fields[n-2]); !got.Equal(sum) {
					t.Errorf("%s: %s, but the lines above come to %s", o.name(), line, sum)
				}
				sums, ruled = sums+1, false
			default:
				sum = sum.Add(decimal.RequireFromString(fields[n-2]))
			}
		}
		if sums != 2 {
			t.Errorf("%s: %d sums in\n%s", o.name(), sums, &b)
		}
	}
}

// Decimal points of one column stand below each other.
func TestPrintedAmountsAlign(t *testing.T) {
	p := newPrinter(Options{Width: 80})
	a := auction()
	a.Reading.Steps[9] = valuation.Step{Title: "which is a bid of", Amount: money("9000"), Currency: "JPY", Sum: true}
	p.steps(a)
	column := -1
	for line := range strings.SplitSeq(p.out.String(), "\n") {
		at := strings.IndexByte(line, '.')
		if i := strings.Index(line, " JPY"); i >= 0 {
			at = i
		}
		if at >= 0 && column >= 0 && at != column {
			t.Errorf("column %d, not %d: %s", at, column, line)
		}
		if at >= 0 {
			column = at
		}
	}
	if column < 0 {
		t.Error("no amount at all")
	}
}
