package table

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"lotgauge/valuation"
)

// sideBySide are the printouts that are not of one appraisal.
var sideBySide = map[string]func(io.Writer, Options) error{
	"explanation": func(w io.Writer, o Options) error {
		return Explanation(w, "Red alpine electric", explanation(), Guide{"pantograph-black": "34.00 EUR"}, true, o)
	},
	"explanation-variant": func(w io.Writer, o Options) error {
		return Explanation(w, "\x1b[2JRed", explainedVariant(), Guide{"6043": "120.00 EUR"}, false, o)
	},
	"identification": func(w io.Writer, o Options) error {
		return Identification(w, identification(), tankEngine(), true, o)
	},
	"identification-valued": func(w io.Writer, o Options) error {
		id := identification()
		id.Currency, id.Next[0].Worth, id.Next[1].Worth = "EUR", cash("2.10"), cash("0.00")
		return Identification(w, id, tankEngine(), false, o)
	},
	"identified": func(w io.Writer, o Options) error {
		id := &valuation.Identification{Family: "quillmore-t3", Title: "Quillmore T3", Variants: []valuation.Chance{{ID: "310", Title: "black, relay", Chance: 1}}}
		return Identification(w, id, tankEngine(), false, o)
	},
	"twins": func(w io.Writer, o Options) error {
		id := identification()
		id.Next = nil
		return Identification(w, id, tankEngine(), false, o)
	},
	"ranking": func(w io.Writer, o Options) error { return Ranking(w, lots(), true, o) },
	"ranking-hostile": func(w io.Writer, o Options) error {
		all := lots()
		for i := range all {
			all[i].Listing, all[i].Title, all[i].Reason = "here/"+hostile().Title, long().Title, hostile().Title
			all[i].Careful = cash("999999999999999.99")
		}
		return Ranking(w, all, false, o)
	},
}

func TestGoldenSideBySide(t *testing.T) {
	for name, print := range sideBySide {
		t.Run(name, func(t *testing.T) { golden(t, name, print) })
	}
}

// explanation is a point that two findings moved and two did not.
func explanation() *valuation.Explanation {
	e := &valuation.Explanation{
		ID: "pantograph-front", Title: "Front pantograph", Answers: []string{"sound", "wrong type", "missing"},
		Usual: []float64{0.7, 0.2, 0.1}, Currency: "EUR",
	}
	believed := e.Usual
	for _, m := range []struct {
		finding valuation.FindingLine
		likely  []float64
	}{
		{valuation.FindingLine{Title: "Livery", Value: "red", By: "photo"}, []float64{1, 1, 1}},
		{valuation.FindingLine{Title: "Front pantograph", Value: "missing", By: "photo"}, []float64{0.025, 0.025, 0.95}},
		{valuation.FindingLine{Title: "Box", Value: "worn", By: "photo"}, []float64{1.001, 1, 1.0005}},
		{valuation.FindingLine{Title: "Interior", By: "hidden"}, []float64{0.4, 0.6, 0.6}},
	} {
		now := posterior(believed, m.likely)
		move := valuation.Move{Finding: m.finding, Chance: now}
		for i := range now {
			move.Factor = append(move.Factor, now[i]/(1-now[i])*(1-believed[i])/believed[i])
		}
		e.Moves = append(e.Moves, move)
		believed = now
	}
	e.Now = believed
	for _, n := range parts()[1:3] {
		n.Seen = sightings()
		e.Parts = append(e.Parts, n)
		n.Seen = nil
	}
	e.Parts[1].Seen = nil
	return e
}

func posterior(prior, likely []float64) []float64 {
	sum := 0.0
	out := make([]float64, len(prior))
	for i := range prior {
		out[i] = prior[i] * likely[i]
		sum += out[i]
	}
	for i := range out {
		out[i] /= sum
	}
	return out
}

func sightings() []valuation.Sighting {
	day := func(y int, m time.Month, d int) time.Time { return time.Date(y, m, d, 0, 0, 0, 0, time.UTC) }
	return []valuation.Sighting{
		{Line: 9, Day: day(2024, 3, 1), Price: money("35.50"), Counts: money("52.40"), Grade: "good", Lacking: "box:missing inner-tray:missing", Weight: 0.5},
		{Line: 21, Day: day(2025, 7, 31), Price: money("390.00"), Weight: 0.8, SetAside: true},
		{Line: 1040, Day: day(2026, 2, 14), Price: money("44.00"), Counts: money("37.40"), Asked: true, Weight: 0.48},
	}
}

// explainedVariant is a catalogue number out of nine, settled by one finding.
func explainedVariant() *valuation.Explanation {
	e := &valuation.Explanation{ID: valuation.VariantSubject, Title: "Catalogue number", Currency: "EUR", Models: reading().Models}
	m := valuation.Move{Finding: valuation.FindingLine{Title: "Catalogue number", Value: "6043", By: "hand"}}
	for i := range 9 {
		e.Answers = append(e.Answers, fmt.Sprintf("60%d a long way of writing it", 40+i))
		e.Usual, e.Now = append(e.Usual, 1.0/9), append(e.Now, 0)
		m.Factor, m.Chance = append(m.Factor, 0), append(m.Chance, 0)
	}
	e.Now[3], m.Factor[3], m.Chance[3] = 1, math.Inf(1), 1
	e.Moves = []valuation.Move{m}
	e.Models[0].Seen = sightings()
	return e
}

func identification() *valuation.Identification {
	return &valuation.Identification{
		Family: "quillmore-t3", Title: "Quillmore T3 tank engine, H0 three-rail", Bits: 1.379,
		Variants: []valuation.Chance{
			{ID: "310", Title: "black, relay", Chance: 0.571}, {ID: "325", Title: "black, decoder", Chance: 0.426}, {ID: "318", Title: "green, relay\x1b[31m", Chance: 0.003},
		},
		Next: []valuation.FeatureTell{
			{ID: "lamps", Title: "Lamps at both ends", Bits: 0.985, Options: []valuation.Chance{{ID: "brass", Title: "brass", Chance: 0.571}, {ID: "black", Title: "black", Chance: 0.429}}},
			{ID: "reverser", Title: "Reverser", Tell: "A relay clacks when it is switched", Bits: 0.0001,
				Options: []valuation.Chance{{ID: "relay", Title: "relay", Chance: 0.999}, {ID: "decoder", Title: "decoder", Chance: 0.001}, {ID: "none", Title: "none"}}},
		},
	}
}

// lots has one of every kind, in the order of a ranking.
func lots() []Lot {
	ask := valuation.Question{Kind: "point", ID: "interior", Title: "A lamp inside", Worth: money("1.10")}
	all := []Lot{
		{Listing: "found/set.toml", Title: "Cream set", Verdict: valuation.Unpriceable, Reason: "there is no price for Lamp and 1 more"},
		{Listing: "found/rich.toml", Title: "Red alpine electric", Verdict: valuation.Marginal, Careful: cash("28.00"), Stop: cash("42.00"), Ask: cash("38"),
			Loss: chance(0.39), Margin: &valuation.Margin{Amount: money("-27.44"), AtHammer: true, Price: money("61.64"), Chance: chance(0.12), Bidding: cash("1.51")}, Question: &ask},
		{Listing: "found/clean.toml", Title: "Red alpine electric with box", Fixed: true, Verdict: valuation.Buy, Careful: cash("1065.88"), Stop: cash("1086.63"), Ask: cash("958"),
			Loss: chance(0.12), Margin: &valuation.Margin{Amount: money("129.49"), Price: money("958.00")}},
		{Listing: "found/dear.toml", Title: "Green one", Fixed: true, Verdict: valuation.TooDear, Stop: cash("30.00"), Ask: cash("32.00"), Loss: chance(0.59),
			Margin: &valuation.Margin{Amount: money("-1.25"), Price: money("32.00")}, Question: &ask},
		{Listing: "found/open.toml", Title: "No price asked", Verdict: valuation.Buy, Careful: cash("7.00"), Stop: cash("9.00")},
		{Listing: "found/pest.toml", Title: "Early green", Verdict: valuation.WalkAway, Reason: "zinc pest", Ask: cash("26.00"), Loss: chance(0.99), Stop: cash("8.00"),
			Margin: &valuation.Margin{Amount: money("999.00"), Price: money("1.00")}},
	}
	for i := range all {
		all[i].Home, all[i].Currency, all[i].Coverage = "EUR", "GBP", 0.4
	}
	slices.SortStableFunc(all, CompareLots)
	return all
}

// A lot to walk away from stands below every lot to buy, whatever it would gain,
// and an auction that should end above the stop above one that is too dear.
func TestOrderOfLots(t *testing.T) {
	var got []string
	for _, l := range lots() {
		got = append(got, strings.TrimSuffix(strings.TrimPrefix(l.Listing, "found/"), ".toml"))
	}
	if want := "clean rich dear open pest set"; strings.Join(got, " ") != want {
		t.Errorf("got %v, want %s", got, want)
	}
}

// What is printed multiplies out: the usual odds times all factors of a column
// are the odds now, as far as three digits go.
func TestPrintedFactorsMultiplyOut(t *testing.T) {
	p := newPrinter(Options{Width: 120})
	e := explanation()
	g := p.moveGrid(e, 0, len(e.Answers))
	for column := 1; column <= len(e.Answers); column++ {
		odds, rows := 1.0, 0
		for _, r := range g.rows {
			text := strings.TrimPrefix(r.cells[column].lines[0], "x ")
			number, err := strconv.ParseFloat(text, 64)
			switch what := r.cells[0].lines[0]; {
			case what == "odds now":
				if !(math.Abs(odds/number-1) < 0.005*float64(rows)) {
					t.Errorf("%s: the factors come to %v, printed is %v", e.Answers[column-1], odds, number)
				}
			case strings.HasSuffix(what, "chance"), what == "chance now":
			case err != nil:
				t.Errorf("%s: %q", what, text)
			default:
				odds *= number
				rows++
			}
		}
		if rows != 4 { // the usual odds, two findings that moved it, and the others together
			t.Errorf("%d rows multiplied", rows)
		}
	}
}

func TestDigits(t *testing.T) {
	for _, test := range []struct {
		f    float64
		want string
	}{
		{1, "1.00"}, {0.999999, "1.00"}, {57.04, "57.0"}, {571, "571"}, {5714, "5710"}, {123456789, "123000000"},
		{0.0632, "0.0632"}, {0.00001234, "0.0000123"}, {1e-15, "0.000000000000"}, {0, "0.00"}, {9.996, "10.0"},
	} {
		if got := digits(test.f); got != test.want {
			t.Errorf("digits(%v) = %s, want %s", test.f, got, test.want)
		}
	}
}

func TestOddsAndFactors(t *testing.T) {
	for _, test := range []struct{ got, want string }{
		{odds(0), "never"}, {odds(1), "certain"}, {odds(0.6), "1.50"}, {odds(0.01), "0.0101"},
		{factor(0), "rules out"}, {factor(math.Inf(1)), "settles"}, {factor(2), "x 2.00"},
	} {
		if test.got != test.want {
			t.Errorf("got %q, want %q", test.got, test.want)
		}
	}
}

// A point that is there for certain is not said to be there.
func TestPointTitle(t *testing.T) {
	for _, test := range []struct {
		applies valuation.Share
		want    string
	}{
		{1, "Decoder"}, {0.999, "Decoder"}, {0.995, "Decoder"}, {0.9949, "Decoder (99% that it has one)"}, {0.03, "Decoder (3% that it has one)"},
	} {
		if got := pointTitle(&valuation.PointBelief{Title: "Decoder", Applies: test.applies}); got != test.want {
			t.Errorf("%v: got %q, want %q", test.applies, got, test.want)
		}
	}
}

func TestClipped(t *testing.T) {
	for _, test := range []struct {
		text string
		most int
		want string
	}{
		{"short", 5, "short"}, {"a longer one", 9, "a longer… (12 characters)"},
		{"abcde\u0301fgh", 5, "abcd… (9 characters)"},
		{"ab👩🏽\u200d🔧xyz", 4, "ab… (9 characters)"},
		{strings.Repeat("\u0301", 10), 4, "\u0301\u0301… (10 characters)"},
	} {
		if got := clipped(test.text, test.most); got != test.want {
			t.Errorf("clipped(%q, %d) = %q, want %q", test.text, test.most, got, test.want)
		}
	}
}

// The brief form has four lines where the width allows it, whatever the verdict.
func TestBriefIsFourLines(t *testing.T) {
	for name, fixture := range fixtures {
		var b bytes.Buffer
		if err := Brief(&b, fixture(), Options{Width: 2000}); err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(b.String(), "\n"); n != 4 {
			t.Errorf("%s: %d lines:\n%s", name, n, &b)
		}
	}
}

// In full at least as much is said as in short, and nothing gets lost.
func TestFullHoldsTheShort(t *testing.T) {
	for _, name := range []string{"auction", "bargain", "too-dear", "walk-away", "unpriced"} {
		var in, all bytes.Buffer
		if err := Appraisal(&in, fixtures[name](), Options{Width: 120}); err != nil {
			t.Fatal(err)
		}
		if err := Appraisal(&all, fixtures[name](), Options{Width: 120, Full: true}); err != nil {
			t.Fatal(err)
		}
		for _, heading := range []string{"How the figure comes about", "How sure that is", "What to ask", "Parts that may", "What to do with it", "What was found", "What is still unknown", "Mind"} {
			if strings.Contains(in.String(), "\n"+heading) && !strings.Contains(all.String(), "\n"+heading) {
				t.Errorf("%s: %q is missing in full", name, heading)
			}
		}
		if in.Len() > all.Len() {
			t.Errorf("%s: %d bytes in short, %d in full", name, in.Len(), all.Len())
		}
	}
}
