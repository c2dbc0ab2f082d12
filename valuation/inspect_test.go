package valuation_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"lotgauge/valuation"
)

// TestInspectionAgreesWithAppraisal: after each answer the figures are those of
// the appraisal of the listing that comes of it, read back from its file.
func TestInspectionAgreesWithAppraisal(t *testing.T) {
	l := openDemo(t)
	for _, file := range []string{"stall", "rich"} {
		x := readListing(t, "../testdata/listings/"+file+".toml")
		o := valuation.Options{Draws: 2000}
		n := inspectListing(t, l, x, valuation.InspectOptions{Options: o})
		for i, c := range n.Checks()[:6] {
			if diags := n.Answer(c, c.Answers[i%len(c.Answers)].ID); diags.HasErrors() {
				continue // it contradicts what the listing says
			}
			var text bytes.Buffer
			if err := n.Listing().WriteTOML(&text); err != nil {
				t.Fatal(err)
			}
			a, diags := l.Appraise(parse(t, text.String()), o)
			if diags.HasErrors() {
				t.Fatalf("%s: %v\n%s", file, diags, text.String())
			}
			s := n.Standing()
			want := &valuation.Standing{
				Currency: a.Currency, Worth: a.Worth, Purchase: a.Purchase, Coverage: a.Score.Coverage,
				Condition: a.Score.Condition.Mean, Verdict: a.Reading.Verdict, Reasons: a.Reading.Reasons,
				Rules: a.Rules, Missing: a.Reading.Missing, Minutes: s.Minutes, Checked: s.Checked,
			}
			if diff := cmp.Diff(want, s); diff != "" {
				t.Fatalf("%s after %s (-appraisal +inspection):\n%s", file, c.Key(), diff)
			}
		}
		if n.Standing().Checked < 3 {
			t.Errorf("%s: only %d checks", file, n.Standing().Checked)
		}
	}
}

// TestBackAndForth: taking a step back leads to where it was, and the same
// replies to another inspection lead to the same place.
func TestBackAndForth(t *testing.T) {
	l := openDemo(t)
	x := readListing(t, "../testdata/listings/stall.toml")
	o := valuation.InspectOptions{Options: valuation.Options{Draws: 1000}}
	n := inspectListing(t, l, x, o)
	type place struct {
		Standing valuation.Standing
		Checks   []valuation.Check
		Listing  *valuation.Listing
	}
	at := func(n *valuation.Inspection) place { return place{*n.Standing(), n.Checks(), n.Listing()} }
	same := func(what string, want, got place) {
		t.Helper()
		if diff := cmp.Diff(want, got, cmpopts.IgnoreUnexported(valuation.Listing{}, valuation.Finding{})); diff != "" {
			t.Fatalf("%s:\n%s", what, diff)
		}
	}
	if n.Back() {
		t.Error("a step back from the start")
	}
	places := []place{at(n)}
	for i := range 6 {
		c := n.Checks()[0]
		with := []string{c.Answers[0].ID, valuation.Skip, valuation.CannotTell}[i%3]
		if diags := n.Answer(c, with); diags.HasErrors() {
			t.Fatal(diags)
		}
		places = append(places, at(n))
	}
	again := inspectListing(t, l, x, o)
	for i, r := range n.Replies() {
		answer(t, again, r.Check, r.Answer)
		same("replayed", places[i+1], at(again))
	}
	for i := len(places) - 2; i >= 0; i-- {
		if !n.Back() {
			t.Fatal("no step back")
		}
		same("back", places[i], at(n))
	}
}

// TestSkipAndCannotTell: what cannot be told is not offered again, what was
// skipped once more when nothing else pays.
func TestSkipAndCannotTell(t *testing.T) {
	n := inspect(t, bench(t, twoFaults+`
[[point]]
id = "big"
minutes = 1
state = [{ id = "sound" }, { id = "faulty", factor = 0.1, spend = "60 EUR" }]
`), "40", valuation.InspectOptions{})
	var offered []string
	for _, with := range []string{valuation.Skip, valuation.CannotTell, valuation.CannotTell, valuation.Skip} {
		key, _ := next(n)
		offered = append(offered, key)
		answer(t, n, key, with)
	}
	if diff := cmp.Diff([]string{"point:big", "point:left", "point:right", "point:big"}, offered); diff != "" {
		t.Errorf("offered (-want +got):\n%s", diff)
	}
	if key, why := next(n); key != "" || why != valuation.AllSeen {
		t.Errorf("then %q, %v", key, why)
	}
	if s := n.Standing(); s.Checked != 2 || s.Minutes != 3 || s.Coverage != 0 {
		t.Errorf("%d checks in %v minutes, coverage %v", s.Checked, s.Minutes, s.Coverage)
	}
	if len(n.Listing().Findings) > 0 {
		t.Errorf("findings %v", n.Listing().Findings)
	}
}

// TestListingIsACopy: neither the listing given nor the one taken shares
// anything with the inspection.
func TestListingIsACopy(t *testing.T) {
	l := bench(t, twoFaults)
	x, _ := l.NewFind("f", "40 EUR", "", aDay)
	x.Findings = slices.Grow(x.Findings, 8) // room that an append could use
	n := inspectListing(t, l, x, valuation.InspectOptions{})
	answer(t, n, "point:left", "faulty")
	x.Title, x.Family = "changed", "g"
	taken := n.Listing()
	taken.Findings[0].State = "sound"
	taken.Findings = append(taken.Findings, valuation.Finding{})
	answer(t, n, "point:right", "sound")
	got := n.Listing()
	if got.Title != "An invented one" || len(got.Findings) != 2 || got.Findings[0].State != "faulty" || got.Findings[1].Point != "right" {
		t.Errorf("%+v", got)
	}
}

func TestNewFind(t *testing.T) {
	l := openDemo(t)
	for _, row := range []struct{ family, ask, buy, want string }{
		{"pellworth-ce4", "", "", "false - "},
		{"pellworth-ce4", "38", "stall-cash", "true 38.00 EUR "},
		{"pellworth-ce4", "38.50", "", "true 38.50 GBP "},
		{"pellworth-ce4", "38 GBP", "", "true 38.00 GBP "},
		{"pellworth-ce4", "38 GBP", "stall-cash", `ask in GBP, but the charge sheet "stall-cash" is in EUR`},
		{"pellworth-ce4", "cheap", "", `the price "cheap": `},
		{"pellworth-ce4", "-3", "", `the price "-3": `},
		{"pellworth-ce5", "3", "", `no family called "pellworth-ce5"`},
		{"pellworth-ce4", "3", "stal-cash", `no charge sheet called "stal-cash"`},
	} {
		x, diags := l.NewFind(row.family, row.ask, row.buy, aDay)
		got := diags.Error()
		if x != nil {
			ask := "-"
			if x.Ask != nil {
				ask = x.Ask.String()
			}
			got = map[bool]string{true: "true ", false: "false "}[x.Fixed] + ask + " "
			if !x.Date.Equal(aDay) || x.Family != row.family || x.Title == "" {
				t.Errorf("%+v", x)
			}
		}
		if (x == nil) != diags.HasErrors() || !strings.HasPrefix(got, row.want) && !strings.Contains(got, row.want) {
			t.Errorf("%v: got %q", row, got)
		}
	}
}

func TestInspectFaults(t *testing.T) {
	l := bench(t, twoFaults)
	x, _ := l.NewFind("f", "40", "", aDay)
	if _, diags := l.Inspect(x, valuation.InspectOptions{Here: []string{"hnad"}}); !strings.Contains(diags.Error(), `no evidence is called "hnad": expected one of hand, track, photo or seller; try hand`) {
		t.Error(diags)
	}
	x.Findings = []valuation.Finding{{Point: "left", State: "sound", By: "hand"}, {Point: "left", State: "faulty", By: "hand"}}
	if n, diags := l.Inspect(x, valuation.InspectOptions{}); n != nil || !strings.Contains(diags.Error(), "contradict each other") {
		t.Error(diags)
	}
	x.Findings = x.Findings[1:] // no answer of the inspection, which a newer one would replace
	n := inspectListing(t, l, x, valuation.InspectOptions{})
	answer(t, n, "point:right", "faulty")
	before := *n.Standing()
	left, _ := n.Check("point:left")
	for _, row := range []struct {
		check  valuation.Check
		answer string
		want   string
	}{
		{left, "sound", "these contradict each other: left is faulty by hand"},
		{left, "souund", `no answer "souund" to point:left: expected one of sound or faulty; try sound`},
		{left, "", `no answer "" to point:left`},
		{left, "3 mm", `no answer "3 mm" to point:left`},
		{valuation.Check{Kind: "point", ID: "middle"}, "sound", `no check "point:middle" can be made here`},
		{valuation.Check{}, valuation.Skip, `no check ":" can be made here`},
	} {
		if diags := n.Answer(row.check, row.answer); !strings.Contains(diags.Error(), row.want) {
			t.Errorf("%q: got %v, want %s", row.answer, diags, row.want)
		}
	}
	if diags := n.Record(valuation.Finding{Point: "midle", State: "sound", By: "hand"}); !strings.Contains(diags.Error(), `no point "midle"`) {
		t.Error(diags)
	}
	if diff := cmp.Diff(before, *n.Standing()); diff != "" || len(n.Replies()) != 1 {
		t.Errorf("a refused answer changed something:\n%s", diff)
	}
}
