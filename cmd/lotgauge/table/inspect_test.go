package table

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

// standing is where an invented inspection stands at an appraisal's figures.
func standing(a *valuation.Appraisal) *valuation.Standing {
	return &valuation.Standing{
		Currency: a.Currency, Worth: a.Worth, Purchase: a.Purchase, Coverage: 0.31, Condition: 61.2, Verdict: a.Reading.Verdict,
		Reasons: a.Reading.Reasons, Rules: a.Rules, Missing: a.Reading.Missing, Minutes: 4.5, Checked: 3,
	}
}

// wheels is an invented check with all that one can have.
func wheels() InspectionCheck {
	return InspectionCheck{
		Number: 4, Currency: "EUR", Keys: []string{"1", "2", "3", ""}, Care: []string{"Mind the invented thing."}, Pays: true,
		Check: valuation.Check{
			Kind: valuation.CheckPoint, ID: "wheels", Title: "Wheels", Area: "running gear", How: "Hold the gauge between them", Minutes: 1.5,
			Worth: money("6.20"), Net: money("6.05"), Measure: &checklist.Measure{What: "back-to-back", Unit: "mm", Within: 0.1}, Right: "14.0 to 14.1 mm",
			Answers: []valuation.CheckAnswer{
				{ID: "sound", Title: "sound", Chance: 0.82}, {ID: "worn", Title: "worn", Chance: 0.17},
				{ID: "pest", Title: "zinc pest", Chance: 0.008, Stop: "The casting crumbles"}, {ID: "odd", Title: "of another model", Chance: 0.002},
			},
		},
	}
}

// inspections are all that is printed of an inspection.
func inspections() map[string]func(io.Writer, Options) error {
	a, b := standing(auction()), standing(bargain())
	paired, number := wheels(), wheels()
	paired.With, paired.Measure, paired.Area = "Front pantograph", nil, ""
	number.Kind, number.Pays, number.Care = valuation.CheckVariant, false, nil
	left := []valuation.Check{wheels().Check, wheels().Check, wheels().Check, wheels().Check}
	end := func(why string, s *valuation.Standing) func(io.Writer, Options) error {
		return func(w io.Writer, o Options) error {
			return InspectEnd(w, InspectionEnd{Why: why, File: "find.toml", Standing: s}, o)
		}
	}
	check := func(c InspectionCheck) func(io.Writer, Options) error {
		return func(w io.Writer, o Options) error { return InspectCheck(w, c, o) }
	}
	step := func(s InspectionStep) func(io.Writer, Options) error {
		return func(w io.Writer, o Options) error { return InspectStep(w, s, o) }
	}
	outlook := func(why valuation.Outlook, left []valuation.Check) func(io.Writer, Options) error {
		return func(w io.Writer, o Options) error { return InspectOutlook(w, why, left, a, o) }
	}
	head := func(h InspectionHead) func(io.Writer, Options) error {
		return func(w io.Writer, o Options) error { return InspectHead(w, h, o) }
	}
	dirty := hostile().Title
	hostileCheck := wheels()
	hostileCheck.Title, hostileCheck.Area, hostileCheck.How, hostileCheck.Answers[0].Title, hostileCheck.Answers[2].Stop = dirty, dirty, dirty, dirty, dirty
	return map[string]func(io.Writer, Options) error{
		"head":          head(InspectionHead{Title: "A find", Family: "Pellworth CE4", File: "find.toml", Cautions: []string{"Nothing is opened."}, Demonstration: true, Standing: a, Sheet: "Cash at a stall"}),
		"head, resumed": head(InspectionHead{Title: "Pellworth CE4", Family: "Pellworth CE4", File: "find.toml", Standing: b, Resumed: 2}),
		"head, hostile": head(InspectionHead{Title: dirty, Family: dirty, File: dirty, Standing: standing(hostile())}),
		"check":         check(wheels()), "check, paired": check(paired), "check, not paying": check(number), "check, hostile": check(hostileCheck),
		"step":           step(InspectionStep{Title: "Wheels", Answer: "worn", Before: a, Now: b, News: auction().Rules}),
		"step, unmoved":  step(InspectionStep{Title: "Wheels", Answer: "cannot be told", Before: a, Now: a}),
		"step, broken":   step(InspectionStep{Title: "Wheels", Answer: "zinc pest", Before: a, Now: standing(walkAway())}),
		"step, no price": step(InspectionStep{Title: dirty, Answer: dirty, Before: a, Now: standing(unpriced())}),
		"no longer pays": outlook(valuation.NoLongerPays, left), "one left": outlook(valuation.NoLongerPays, left[:1]),
		"no longer pays, marginal": func(w io.Writer, o Options) error {
			return InspectOutlook(w, valuation.NoLongerPays, left, marginalStanding(), o)
		},
		"all seen": outlook(valuation.AllSeen, nil), "deal broken": outlook(valuation.DealBroken, left), "no price": outlook(valuation.NotPriced, nil),
		"end": end("", a), "step, newer": step(InspectionStep{Title: "Wheels", Answer: "sound", Instead: "worn", Before: a, Now: b}),
		"end of answers": end("No more answers.", b),
		"objection": func(w io.Writer, o Options) error {
			return InspectObjection(w, diag.List{{Summary: "no answer \"x\"", Expected: "one of a or b", Try: "a"}, {Summary: dirty}}, o)
		},
	}
}

// marginalStanding is one whose ask loses money more often than is tolerated.
func marginalStanding() *valuation.Standing {
	s := standing(auction())
	ask := money("38.00")
	s.Verdict, s.Purchase.Ask = valuation.Marginal, &ask
	return s
}

func TestGoldenInspections(t *testing.T) {
	for name, print := range inspections() {
		t.Run(name, func(t *testing.T) {
			golden(t, "inspect-"+strings.NewReplacer(", ", "-", " ", "-").Replace(name), print)
		})
	}
}

// Every line of every printout fits and is clean, at widths of all kinds.
func TestEveryInspectionLine(t *testing.T) {
	for name, print := range inspections() {
		for columns := MinWidth; columns <= 120; columns += 5 {
			for _, colour := range []bool{false, true} {
				o := Options{Width: columns, Colour: colour}
				var b bytes.Buffer
				if err := print(&b, o); err != nil {
					t.Fatal(err)
				}
				for line := range strings.SplitSeq(b.String(), "\n") {
					checkLine(t, o, line)
				}
			}
			if t.Failed() {
				t.Fatalf("%s, %d columns", name, columns)
			}
		}
	}
}

func TestInspectionWriteErrors(t *testing.T) {
	for name, print := range inspections() {
		if err := print(brokenWriter{}, Options{Width: 80}); err == nil {
			t.Errorf("%s: written to nowhere", name)
		}
	}
}

// A check that pays only as one of a set says so.
func TestPaysAsOneOfASet(t *testing.T) {
	c := InspectionCheck{Currency: "EUR", Pays: true, Check: valuation.Check{Together: 4}}
	c.Minutes = 1
	if got := pays(&c); !strings.Contains(got, "Together with the 3 after it") || !strings.Contains(got, "for all of them") {
		t.Error(got)
	}
}

// Where no bid is a careful one none is offered.
func TestNothingCarefulToOffer(t *testing.T) {
	s := marginalStanding()
	s.Purchase.CarefulBid = nil
	if got := stillRisky(s); !strings.HasSuffix(got, "Leave it: no bid is a careful one.") {
		t.Error(got)
	}
}
