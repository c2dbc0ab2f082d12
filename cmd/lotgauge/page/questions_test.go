package page

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
)

// Below a question stands what each of the likeliest answers would do.
func TestEffects(t *testing.T) {
	shown := func(m *maker, q *valuation.Question) []string {
		var out []string
		for _, s := range shorts(m.effects(q)) {
			out = append(out, plainly(s))
		}
		return out
	}
	a := rich()
	m := &maker{a: a}
	q := a.Questions[1]
	if diff := cmp.Diff([]string{"If missing: stop at 40.00 GBP (86%)", "If sound: stop at 65.00 GBP (10%)"}, shown(m, &q)); diff != "" {
		t.Error(diff)
	}
	q.Effects = []valuation.Effect{{Title: "yes", Chance: 0.98, Stop: cashPtr("7.00")}, {Title: "no", Chance: 0.02}}
	if diff := cmp.Diff([]string{"If yes: stop at 7.00 GBP (98%)", "If no: no bid pays (2%)"}, shown(m, &q)); diff != "" {
		t.Error(diff)
	}
	if got := shown(m, &a.Questions[2]); got != nil {
		t.Errorf("nothing is known, yet: %v", got)
	}
}

// Below the column stands where the bidding should end, and what that means.
func TestHammer(t *testing.T) {
	a := rich()
	at := func(x valuation.Margin) string {
		x.AtHammer, x.Price, x.Amount = true, cash("61.64"), cash("-27.44")
		a.Reading.Margin = &x
		return plainly((&maker{a: a}).hammer())
	}
	for _, test := range []struct{ got, want string }{
		{at(valuation.Margin{}), "Bidding should end near 61.64 GBP; there the gain is \u221227.44 EUR on average."},
		{at(valuation.Margin{Chance: sharePtr(0.12), Bidding: cashPtr("1.51")}),
			"Bidding should end near 61.64 GBP, but in 12 of 100 such auctions at or below your stop: bidding up to there gains 1.51 EUR on average over all of them."},
		{at(valuation.Margin{Chance: sharePtr(0), Bidding: cashPtr("0.00")}), "Bidding should end near 61.64 GBP, and hardly at or below your stop."},
	} {
		if test.got != test.want {
			t.Errorf("got  %s\nwant %s", test.got, test.want)
		}
	}
}
