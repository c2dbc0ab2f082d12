package valuation_test

import (
	"fmt"
	"testing"

	"lotgauge/valuation"
)

// BenchmarkInspectStep is one step of an inspection of the largest family, of
// which nothing is known and everything can be checked, the test track included:
// an answer, the figures after it and the next check.
func BenchmarkInspectStep(b *testing.B) {
	l := openDemo(b)
	x, _ := l.NewFind("pellworth-ce4", "45", "stall-cash", aDay)
	for _, draws := range []int{20000, 5000, 1000} {
		n := inspectListing(b, l, x, valuation.InspectOptions{
			Options: valuation.Options{Draws: draws}, Here: []string{"hand", "track"},
		})
		c, _ := n.Next()
		b.Run(fmt.Sprint("draws=", draws), func(b *testing.B) {
			for b.Loop() {
				at := *n
				if diags := at.Answer(c, c.Answers[0].ID); diags.HasErrors() {
					b.Fatal(diags)
				}
				if at.Standing(); at.Outlook() == valuation.NotPriced {
					b.Fatal("no prices")
				}
				at.Next()
			}
		})
	}
}

// BenchmarkInspectStart is what comes before: reading the folder is not in it.
func BenchmarkInspectStart(b *testing.B) {
	l := openDemo(b)
	x, _ := l.NewFind("pellworth-ce4", "45", "stall-cash", aDay)
	for b.Loop() {
		n := inspectListing(b, l, x, valuation.InspectOptions{})
		n.Next()
	}
}
