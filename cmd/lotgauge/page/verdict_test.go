package page

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
)

// plainly sets hard blanks as plain ones, for tests to be readable.
func plainly(s string) string { return strings.NewReplacer(hardSpace, " ", thinSpace, " ").Replace(s) }

func shorts(all []words) []string {
	var out []string
	for _, w := range all {
		out = append(out, plainly(w.Short))
	}
	return out
}

func TestVerdict(t *testing.T) {
	for name, c := range map[string]struct {
		change func(a *valuation.Appraisal)
		tone   string
		word   string
		lines  []string
	}{
		"buy at auction": {
			func(a *valuation.Appraisal) { a.Reading.Verdict = valuation.Buy },
			"good", "Stop at 42.00 GBP", []string{"The 38.00 GBP asked is a careful price."},
		},
		"buy without ask": {
			func(a *valuation.Appraisal) { a.Reading.Verdict = valuation.Buy; a.Purchase.Ask = nil },
			"good", "Stop at 42.00 GBP", []string{"Up to there it is worth what it costs, on average."},
		},
		"buy at a fixed price": {
			func(a *valuation.Appraisal) { a.Reading.Verdict = valuation.Buy; a.Purchase.Fixed = true },
			"good", "Buy at 38.00 GBP", []string{"It would still pay at 42.00 GBP."},
		},
		"above the careful bid": {
			func(*valuation.Appraisal) {},
			"mind", "Stop at 42.00 GBP", []string{"The 38.00 GBP asked pays on average, but loses money more often than in 20 of 100."},
		},
		"no careful bid": {
			func(a *valuation.Appraisal) { a.Purchase.CarefulBid = nil },
			"mind", "Stop at 42.00 GBP", []string{"The 38.00 GBP asked pays on average. No bid is a careful one: each loses money more often than in 20 of 100."},
		},
		"no careful bid, no ask": {
			func(a *valuation.Appraisal) { a.Purchase.CarefulBid, a.Purchase.Ask = nil, nil },
			"mind", "Stop at 42.00 GBP", []string{"On average that pays. No bid is a careful one: each loses money more often than in 20 of 100."},
		},
		"a fixed price off the ladder": {
			func(a *valuation.Appraisal) {
				a.Reading.Verdict, a.Purchase.Fixed = valuation.Buy, true
				a.Purchase.BreakEvenBid, a.Purchase.CarefulBid = nil, nil
			},
			"good", "Buy at 38.00 GBP", nil,
		},
		"a fixed price off the ladder, not careful": {
			func(a *valuation.Appraisal) {
				a.Purchase.Fixed = true
				a.Purchase.BreakEvenBid, a.Purchase.CarefulBid = nil, nil
			},
			"mind", "It pays at 38.00 GBP, on average", []string{"The 38.00 GBP asked pays on average, but loses money more often than in 20 of 100."},
		},
		"too dear, off the ladder": {
			func(a *valuation.Appraisal) {
				a.Reading.Verdict, a.Purchase.BreakEvenBid = valuation.TooDear, nil
			},
			"bad", "Too dear at 38.00 GBP", []string{"It costs more than it is worth to you."},
		},
		"too dear": {
			func(a *valuation.Appraisal) { a.Reading.Verdict = valuation.TooDear; a.Purchase.Ask = cashPtr("60.00") },
			"bad", "Too dear at 60.00 GBP", []string{"Stop at 42.00 GBP: above that it costs more than it is worth to you."},
		},
		"a deal-breaker": {
			func(a *valuation.Appraisal) { a.Reading.Verdict = valuation.WalkAway },
			"bad", "Walk away", nil,
		},
		"no bid pays": {
			func(a *valuation.Appraisal) { a.Reading.Verdict = valuation.WalkAway; a.Purchase.BreakEvenBid = nil },
			"bad", "Walk away", nil,
		},
		"no price": {
			func(a *valuation.Appraisal) {
				a.Reading.Verdict = valuation.Unpriceable
				a.Reading.Missing = []valuation.MissingPrice{{ID: "rotor"}, {Title: "Frame"}, {Title: "Box"}}
			},
			"none", "No figure: a price is missing", []string{"There is no price for rotor and 2 more. Without it no bid can be named; below is how to mend that."},
		},
		"no verdict": {
			func(a *valuation.Appraisal) { a.Reading.Verdict = 0 },
			"none", "No figure: a price is missing", []string{"Without it no bid can be named."},
		},
	} {
		t.Run(name, func(t *testing.T) {
			a := rich()
			c.change(a)
			got := newView(a).Verdict
			if got.Tone != c.tone || plainly(got.Word) != c.word {
				t.Errorf("%s %q, want %s %q", got.Tone, plainly(got.Word), c.tone, c.word)
			}
			if diff := cmp.Diff(c.lines, shorts(got.Lines)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestReasons(t *testing.T) {
	want := []string{
		"The frame has zinc pest, and cannot be cured (frame cracked or swollen: 90% likely).",
		"No bid pays: it is worth 4.10 EUR to you, less than the lowest bid lands at.",
	}
	if diff := cmp.Diff(want, shorts(newView(walkAway()).Verdict.Reasons)); diff != "" {
		t.Error(diff)
	}
}

func TestLimits(t *testing.T) {
	rows := func(a *valuation.Appraisal) []string {
		var out []string
		for _, l := range newView(a).Verdict.Limits {
			out = append(out, plainly(strings.Join([]string{l.Name, l.Bid, l.Landed, l.Risk}, " | ")))
		}
		return out
	}
	fixed := rich()
	fixed.Purchase.Fixed, fixed.Purchase.LossChance = true, nil
	nameless := walkAway()
	nameless.Purchase.Ask = nil
	for name, c := range map[string]struct {
		a    *valuation.Appraisal
		want []string
	}{
		"auction": {rich(), []string{
			"Stop at | 42.00 GBP | 78.20 EUR | In 49 of 100 such purchases you would lose money.",
			"Careful | 28.00 GBP | 56.67 EUR | In 19 of 100 such purchases you would lose money.",
			"Asked | 38.00 GBP | 72.05 EUR | In 39 of 100 such purchases you would lose money.",
		}},
		"fixed price": {fixed, []string{
			"Stop at | 42.00 GBP | 78.20 EUR | In 49 of 100 such purchases you would lose money.",
			"Careful | 28.00 GBP | 56.67 EUR | In 19 of 100 such purchases you would lose money.",
			"Price | 38.00 GBP | 72.05 EUR | ",
		}},
		"no bid, no ask": {nameless, []string{"Stop at | no bid |  | ", "Careful | no bid |  | ", "Asked | not named |  | "}},
		"no figure":      {unpriced(), []string{"Stop at | no figure |  | ", "Careful | no figure |  | ", "Asked | 38.00 GBP | 72.05 EUR | "}},
	} {
		if diff := cmp.Diff(c.want, rows(c.a)); diff != "" {
			t.Errorf("%s:\n%s", name, diff)
		}
	}
}

// The bids of one to walk away from are set small: nobody should take them for
// advice.
func TestWalkAwayDoesNotSayStopAt(t *testing.T) {
	a := rich()
	if newView(a).Verdict.Alone || strings.Contains(written(t, a), "By the figures alone") {
		t.Error("the bids of one to buy are set small")
	}
	a.Reading.Verdict = valuation.WalkAway
	if text := written(t, a); !strings.Contains(text, "By the figures alone") || !strings.Contains(text, `class="limits small"`) {
		t.Error("the bids of one to walk away from are not set small")
	}
	if newView(walkAway()).Verdict.Alone {
		t.Error("there is no bid to be set small")
	}
}
