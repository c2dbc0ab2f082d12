package valuation_test

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"lotgauge/valuation"
)

// TestTwoStepsAhead: of two faults at 30 EUR each only both make the model too
// dear at 45 EUR, so neither check is worth anything by itself: with one fault
// it is worth 55. Both together save 5 EUR in a quarter of the cases, and take
// three minutes at 10 cents.
func TestTwoStepsAhead(t *testing.T) {
	n := inspect(t, bench(t, twoFaults), "45", valuation.InspectOptions{})
	c := &comparison{T: t}
	c.money("worth", &n.Standing().Worth.Mean, 70, cent)
	first, ok := n.Next()
	if !ok || first.Key() != "point:left" || first.With != "The right one" {
		t.Fatalf("next %+v", first)
	}
	c.money("worth of knowing both", &first.Worth, 1.25, cent)
	c.money("less the time", &first.Net, 0.95, cent)
	for _, x := range n.Checks() {
		c.money(x.ID+" by itself", &x.Worth, 0, cent)
		c.money(x.ID+" by itself, less the time", &x.Net, -0.1*x.Minutes, cent)
	}
	answer(t, n, "point:left", "sound") // now nothing can make it too dear
	if key, why := next(n); key != "" || why != valuation.NoLongerPays {
		t.Errorf("after a sound one: %q, %v", key, why)
	}
	n.Back()
	answer(t, n, "point:left", "faulty") // now half the cases are, by 15 EUR less 10
	second, ok := n.Next()
	if !ok || second.Key() != "point:right" || second.With != "" {
		t.Fatalf("next %+v", second)
	}
	c.money("worth of the second", &second.Worth, 2.5, cent)
	c.money("less its time", &second.Net, 2.3, cent)
	answer(t, n, "point:right", "faulty")
	s := n.Standing()
	c.money("stop", s.Purchase.BreakEvenBid, 40, cent)
	c.money("careful", s.Purchase.CarefulBid, 40, 0.2) // prices hardly spread
	if key, why := next(n); key != "" || why != valuation.AllSeen || s.Verdict != valuation.TooDear || s.Minutes != 3 || s.Checked != 2 {
		t.Errorf("at the end: %q, %v, %+v", key, why, s)
	}
}

// TestTimeCounts: checks that take longer than they are worth are not offered,
// and of two that are worth the same the quicker comes first.
func TestTimeCounts(t *testing.T) {
	slow := strings.Replace(twoFaults, "minutes = 2", "minutes = 11.6", 1)
	for _, row := range []struct {
		points, ask string
		want        string
	}{
		{twoFaults, "70", "point:left"}, // each halves a loss of 15 EUR
		{strings.Replace(twoFaults, "minutes = 1\n", "minutes = 3\n", 1), "70", "point:right"},
		{slow, "45", ""}, // 1.25 EUR, and 12.6 minutes
		{strings.Replace(twoFaults, "minutes = 2", "minutes = 11.4", 1), "45", "point:left"},
		{twoFaults, "20", ""},  // cheap whatever is wrong
		{twoFaults, "120", ""}, // dear whatever is right
	} {
		n := inspect(t, bench(t, row.points), row.ask, valuation.InspectOptions{})
		if key, _ := next(n); key != row.want {
			t.Errorf("ask %s: next is %q, want %q", row.ask, key, row.want)
		}
	}
}

// TestCourses: which checks a find gets at a price, until no check pays. With no
// fault it is worth 100 EUR, with one 70, with both 40.
func TestCourses(t *testing.T) {
	for _, row := range []struct {
		ask    string
		always string // the answer to every check
		want   []string
	}{
		{"20", "sound", nil},
		{"45", "sound", []string{"left"}},
		{"45", "faulty", []string{"left", "right"}},
		{"65", "sound", []string{"left"}},
		{"65", "faulty", []string{"left", "right"}},
		{"75", "faulty", []string{"left"}},
		{"75", "sound", []string{"left", "right"}},
		{"95", "sound", []string{"left", "right"}},
		{"95", "faulty", []string{"left"}},
		{"120", "sound", nil},
	} {
		n := inspect(t, bench(t, twoFaults), row.ask, valuation.InspectOptions{})
		var got []string
		for c, ok := n.Next(); ok; c, ok = n.Next() {
			got = append(got, c.ID)
			answer(t, n, c.Key(), row.always)
		}
		if diff := cmp.Diff(row.want, got); diff != "" {
			t.Errorf("ask %s, always %s (-want +got):\n%s", row.ask, row.always, diff)
		}
		bought := n.Standing().Verdict == valuation.Buy || n.Standing().Verdict == valuation.Marginal
		pays := map[string]bool{"sound": row.ask != "120", "faulty": false}[row.always]
		if bought != pays && row.ask != "20" {
			t.Errorf("ask %s, always %s: verdict %v", row.ask, row.always, n.Standing().Verdict)
		}
	}
}

// answersOf are the findings that answer a check, each with its chance.
func answersOf(t *testing.T, c valuation.Check) (findings []valuation.Finding, chances []float64) {
	t.Helper()
	for _, a := range c.Answers {
		if a.Chance == 0 {
			continue
		}
		f := valuation.Finding{By: c.By, Present: a.ID == valuation.AnswerYes}
		switch c.Kind {
		case valuation.CheckPoint:
			f.Point, f.State = c.ID, a.ID
		case valuation.CheckSymptom:
			f.Symptom = c.ID
		case valuation.CheckVariant:
			f.Variant = a.ID
		}
		findings = append(findings, f)
		chances = append(chances, float64(a.Chance))
	}
	return findings, chances
}

// oracle values checks by appraising the listing with each answer added: what
// the expected gain then is, less what it is now.
type oracle struct {
	*testing.T
	l      *valuation.Library
	x      *valuation.Listing
	landed float64
}

func (o *oracle) with(more ...valuation.Finding) *valuation.Inspection {
	x := *o.x
	x.Findings = append(append([]valuation.Finding(nil), o.x.Findings...), more...)
	return inspectListing(o.T, o.l, &x, valuation.InspectOptions{
		Options: valuation.Options{Draws: 100}, Here: []string{"hand", "track"},
	})
}

// gain is what a buyer who knows so much expects to gain.
func (o *oracle) gain(more ...valuation.Finding) float64 {
	return math.Max(0, amount(o.T, &o.with(more...).Standing().Worth.Mean)-o.landed)
}

// worth is what knowing the answers to checks is worth, given findings.
func (o *oracle) worth(given []valuation.Finding, keys ...string) float64 {
	return o.informed(given, keys) - o.gain(given...)
}

func (o *oracle) informed(given []valuation.Finding, keys []string) float64 {
	if len(keys) == 0 {
		return o.gain(given...)
	}
	c, _ := o.with(given...).Check(keys[0])
	sum := 0.0
	findings, chances := answersOf(o.T, c)
	for i, f := range findings {
		sum += chances[i] * o.informed(append(given[:len(given):len(given)], f), keys[1:])
	}
	return sum
}

// TestNextAgainstAppraisals holds what every check is worth against the oracle.
// The reference folder is small enough for its expectations to be exact.
func TestNextAgainstAppraisals(t *testing.T) {
	l := openReference(t)
	for _, ask := range []float64{28, 33, 38} {
		o := &oracle{T: t, l: l, x: referenceListing(t, ask), landed: ask}
		n := o.with()
		best := 0.0
		for _, c := range n.Checks() {
			want := o.worth(nil, c.Key())
			if got := amount(t, &c.Worth); math.Abs(got-want) > 0.02 {
				t.Errorf("ask %v: %s is worth %v, by appraisals %v", ask, c.Key(), got, want)
			}
			if net := amount(t, &c.Net); math.Abs(net-(want-0.1*c.Minutes)) > 0.02 {
				t.Errorf("ask %v: %s brings %v", ask, c.Key(), net)
			}
			best = math.Max(best, want-0.1*c.Minutes)
		}
		if c, ok := n.Next(); (ok || best > 0.02) && amount(t, &c.Net) < best-0.02 {
			t.Errorf("ask %v: next is %s for %v, the best by itself brings %v", ask, c.Key(), c.Net, best)
		}
	}
}

// TestPairsAgainstAppraisals holds what every two checks are worth together
// against the oracle: what comes next is the first of the best two, or better by
// itself than any two together.
func TestPairsAgainstAppraisals(t *testing.T) {
	o := &oracle{T: t, l: openReference(t), x: referenceListing(t, pairAsk), landed: pairAsk}
	n := o.with()
	checks := n.Checks()
	best, which := math.Inf(-1), ""
	for i, a := range checks {
		for _, b := range checks[i+1:] {
			if net := o.worth(nil, a.Key(), b.Key()) - 0.1*(a.Minutes+b.Minutes); net > best {
				best, which = net, a.Title+" with "+b.Title
			}
		}
	}
	c, ok := n.Next()
	if !ok || c.With == "" {
		t.Fatalf("no two checks come next: %+v", c)
	}
	if got := c.Title + " with " + c.With; got != which || math.Abs(amount(t, &c.Net)-best) > 0.03 {
		t.Errorf("next is %s for %v, best by appraisals is %s for %v", got, c.Net, which, best)
	}
}

// pairAsk is a price of the reference listing at which two checks pay together.
const pairAsk = 29

// referenceListing is the first listing of the reference folder, at another
// price and with only what its first photo shows.
func referenceListing(t *testing.T, ask float64) *valuation.Listing {
	t.Helper()
	x := readListing(t, referenceDir+"/listings/a.toml")
	x.Findings = x.Findings[:1]
	price := *x.Ask
	price.Value = decimal.NewFromFloat(ask)
	x.Ask = &price
	return x
}
