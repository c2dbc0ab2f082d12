package valuation_test

import (
	"testing"

	"lotgauge/valuation"
)

// A newer answer to a check takes the place of the older one, and taken back it
// leaves the older one again; what else was found stays.
func TestNewerAnswers(t *testing.T) {
	for _, row := range []struct{ key, first, second string }{
		{"point:wheels", "other", "sound"}, {"point:wheels", "13.9 mm", "40 mm"}, {"variant:f", "1", "2"},
		{"point:wheels", "other", valuation.CannotTell},
	} {
		const two = `variant = [{ id = "1", guide = "100 EUR" }, { id = "2", guide = "90 EUR" }]`
		n := inspect(t, bench(t, two+gauged[len(only):]), "60", valuation.InspectOptions{Options: valuation.Options{Draws: 500}})
		answer(t, n, row.key, row.first)
		before := n.Standing().Worth.Mean
		if n.Instead() != "" {
			t.Errorf("%v: the first is in the place of %q", row, n.Instead())
		}
		answer(t, n, row.key, row.second)
		if got := n.Replies(); len(got) != 1 || got[0].Answer != row.second || n.Instead() != row.first || len(n.Listing().Findings) != found(row.second) {
			t.Errorf("%v: %v, in the place of %q", row, got, n.Instead())
		}
		c, _ := n.Check(row.key)
		if diags := n.Answer(c, "nonsense"); !diags.HasErrors() || n.Instead() != row.first {
			t.Errorf("%v: after a refusal in the place of %q", row, n.Instead())
		}
		if !n.Back() || len(n.Replies()) != 1 || n.Replies()[0].Answer != row.first || !n.Standing().Worth.Mean.Equal(before.Decimal) {
			t.Errorf("%v: taken back it is %v", row, n.Replies())
		}
	}
}

// A state stands beside a reading, and beside what the seller says of it.
func TestAnswersBesideOthers(t *testing.T) {
	l := bench(t, gauged)
	x, _ := l.NewFind("f", "60", "", aDay)
	x.Findings = []valuation.Finding{{Point: "wheels", State: "sound", By: "seller", Present: true}}
	n := inspectListing(t, l, x, valuation.InspectOptions{Options: valuation.Options{Draws: 500}})
	answer(t, n, "point:wheels", "13.9 mm")
	answer(t, n, "point:wheels", "other")
	if got := n.Listing().Findings; len(got) != 3 || n.Instead() != "" {
		t.Errorf("%+v", got)
	}
}

// found is how many findings come of an answer.
func found(answer string) int {
	if answer == valuation.CannotTell {
		return 0
	}
	return 1
}

// The same answer again is in the place of nothing else, and "cannot tell" leaves a
// reading as it is.
func TestAnswersThatChangeNothing(t *testing.T) {
	n := inspect(t, bench(t, gauged), "60", valuation.InspectOptions{Options: valuation.Options{Draws: 500}})
	for _, row := range []struct {
		with  string
		found int
	}{{"other", 1}, {"other", 1}, {"13.9 mm", 2}, {valuation.CannotTell, 1}, {valuation.CannotTell, 1}} {
		answer(t, n, "point:wheels", row.with)
		if got := n.Listing().Findings; len(got) != row.found {
			t.Errorf("after %s: %+v", row.with, got)
		}
	}
	if f := n.Listing().Findings[0]; f.Reading != "13.9 mm" || n.Instead() != "" {
		t.Errorf("%+v, in the place of %q", f, n.Instead())
	}
}
