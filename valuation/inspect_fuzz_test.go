package valuation_test

import (
	"testing"

	"lotgauge/valuation"
)

// FuzzInspection walks through an inspection as the bytes say: each picks a check
// and an answer, or a step back. Whatever comes of it, the checks are sound, the
// findings appraise and every step can be taken back.
func FuzzInspection(f *testing.F) {
	f.Add([]byte{0, 0, 1, 1, 2, 2})
	f.Add([]byte{7, 250, 251, 3, 252, 9, 9, 9, 9})
	l := openReference(f)
	f.Fuzz(func(t *testing.T, moves []byte) {
		x := parse(t, head+"sale = \"fixed\"\nask = \"35 EUR\"\nbuy = \"table\"\n")
		o := valuation.Options{Draws: 100}
		n := inspectListing(t, l, x, valuation.InspectOptions{Options: o, Here: []string{"hand", "track"}})
		for _, move := range moves[:min(len(moves), 12)] {
			checks := n.Checks()
			switch {
			case move == 250:
				n.Back()
			case len(checks) == 0:
			case move > 250:
				n.Answer(checks[0], []string{valuation.Skip, valuation.CannotTell}[move%2])
			default:
				c := checks[int(move)%len(checks)]
				n.Answer(c, c.Answers[int(move)/len(checks)%len(c.Answers)].ID)
			}
			checkChecks(t, n)
		}
		if _, diags := l.Appraise(n.Listing(), o); diags.HasErrors() {
			t.Fatal(diags)
		}
		checkRoundTrip(t, withoutFile(n.Listing()))
		for range n.Replies() {
			if !n.Back() {
				t.Fatal("no step back")
			}
		}
		if len(n.Listing().Findings) != len(x.Findings) || n.Back() {
			t.Error("not back at the start")
		}
	})
}

// withoutFile is a listing as it comes out of ReadListing.
func withoutFile(x *valuation.Listing) *valuation.Listing {
	x.File = "x.toml"
	return x
}
