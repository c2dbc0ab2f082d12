package checklist

import (
	"fmt"
	"slices"
	"strings"

	"lotgauge/valuation/diag"
)

// readStates reads the states of a point, each with some of the keys in
//
//	{ id = "missing", title = "…", score = 0.0, factor = 0.9, original = true,
//	  complete = false, odds = { cabinet = 2, tampered = 25 }, needs = ["shoe"],
//	  spend = "0.30 EUR", minutes = 10, cure = "none", yields = ["spring"],
//	  stop = "why to walk away", range = { from = 14.0, to = 14.1 } }
func (r *reader) readStates(t *diag.Table, p Point) []State {
	known := newRoster("state of " + p.ID)
	var states []State
	for i, c := range list(t, "state", known) {
		s := State{
			ID:        r.id(c, known),
			Score:     c.Number("score", 1, 0, 1),
			Factor:    c.Number("factor", 1, 0, maxFactor),
			Original:  c.Flag("original", true),
			Complete:  c.Flag("complete", true),
			Odds:      r.odds(c),
			Needs:     r.supplies(c, "needs", p.Applies),
			Spend:     amount(c, "spend"),
			Minutes:   c.Number("minutes", 0, 0, maxMinutes),
			Incurable: c.Choice("cure", "", "none") != "",
			Yields:    r.supplies(c, "yields", p.Applies),
			Stop:      c.Text("stop"),
			Range:     readings(c),
		}
		s.Title = titled(c, s.ID)
		if i == 0 && !t.Unread("state") {
			warnUnsound(c, s)
		}
		states = append(states, s)
	}
	r.states = append(r.states, known)
	if !t.Unread("state") {
		r.checkStates(t, states)
	}
	known.partial = known.partial || len(states) == 0
	return states
}

// warnUnsound warns of a first state that does not look like the sound one.
// Every remedy leads to it, a hidden point is weighed by it, and a remedy of its
// own is never carried out, so that a list in the wrong order gives figures that
// are wrong without looking it.
func warnUnsound(t *diag.Table, s State) {
	var expected []string
	for _, x := range []struct {
		fault  bool
		should string
	}{
		{s.Score != 1, "score 1"},
		{s.Factor != 1, "factor 1"},
		{!s.Original, "original"},
		{!s.Complete, "complete"},
		{len(s.Needs) > 0 || s.Spend != nil || s.Minutes > 0, "no remedy"},
		{s.Incurable, "no cure"},
		{s.Stop != "", "no stop"},
	} {
		if x.fault {
			expected = append(expected, x.should)
		}
	}
	if len(expected) > 0 {
		t.Warn("", "the first state is the sound one, and this is not", strings.Join(expected, ", "), "putting the sound state first")
	}
}

// odds reads the weights of a state, one per history, from a number or from a
// table by history.
func (r *reader) odds(t *diag.Table) []float64 {
	const key = "odds"
	if !t.IsTable(key) {
		return slices.Repeat([]float64{t.Number(key, 1, 0, maxWeight)}, len(r.fam.Histories))
	}
	odds := slices.Repeat([]float64{1}, len(r.fam.Histories))
	c := t.Child(key)
	for _, name := range c.Keys() {
		w := c.Number(name, 1, 0, maxWeight)
		if h := r.histories.find(name, at(c, name)); h >= 0 {
			odds[h] = w
		}
	}
	return odds
}

// checkStates reports a point with nothing to choose between, and a history
// under which none of its states is possible.
func (r *reader) checkStates(t *diag.Table, states []State) {
	if len(states) < 2 {
		t.Report("state", "a point needs a sound state and another", "at least two states", "")
		return
	}
	for h, x := range r.fam.Histories {
		possible := func(s State) bool { return s.Odds[h] > 0 }
		if !slices.ContainsFunc(states, possible) {
			t.Report("state", fmt.Sprintf("no state has odds for history %s", quoted(x.ID)), "odds above 0 for at least one", "")
		}
	}
}
