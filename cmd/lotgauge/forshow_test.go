package main

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
)

// Several lines of a cent or two become one, one alone stays where it is, and
// every sum still is that of the lines above it.
func TestGathered(t *testing.T) {
	line := func(id, amount string) valuation.Step { return valuation.Step{ID: id, Amount: worthEuro(amount)} }
	sum := func(id, amount string) valuation.Step {
		return valuation.Step{ID: id, Amount: worthEuro(amount), Sum: true}
	}
	small := func(amount string) valuation.Step {
		return valuation.Step{ID: "small", Title: "small change", Amount: worthEuro(amount)}
	}
	bid := valuation.Step{ID: "bid", Amount: worthEuro("0.02"), Currency: "GBP"}
	for _, test := range []struct {
		name        string
		steps, want []valuation.Step
	}{
		{"none", nil, nil},
		{"nothing small", []valuation.Step{line("a", "5.00"), line("b", "-0.05"), sum("w", "4.95")}, []valuation.Step{line("a", "5.00"), line("b", "-0.05"), sum("w", "4.95")}},
		{"one", []valuation.Step{line("a", "-0.01"), line("b", "5.00"), sum("w", "4.99")}, []valuation.Step{line("a", "-0.01"), line("b", "5.00"), sum("w", "4.99")}},
		{"two", []valuation.Step{line("a", "-0.01"), line("b", "5.00"), line("c", "-0.04"), sum("w", "4.95"), line("d", "0.01"), bid},
			[]valuation.Step{line("b", "5.00"), small("-0.05"), sum("w", "4.95"), line("d", "0.01"), bid}},
		{"no sum", []valuation.Step{line("a", "0.01"), line("b", "-0.01")}, []valuation.Step{small("0.00")}},
	} {
		if diff := cmp.Diff(test.want, gathered(test.steps)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", test.name, diff)
		}
	}
}
