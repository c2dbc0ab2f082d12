package page

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
)

func TestAmount(t *testing.T) {
	for _, c := range []struct {
		m    *valuation.Money
		want string
	}{
		{nil, "no figure"},
		{cashPtr("41.00"), "41.00\u00a0EUR"},
		{cashPtr("-3.17"), "−3.17\u00a0EUR"},
		{cashPtr("9999.50"), "9999.50\u00a0EUR"},
		{cashPtr("12041.5"), "12\u202f041.5\u00a0EUR"},
		{cashPtr("123456789012345.28"), "123\u202f456\u202f789\u202f012\u202f345.28\u00a0EUR"},
		{cashPtr("0.00"), "0.00\u00a0EUR"},
		{cashPtr("1500"), "1500\u00a0EUR"},
	} {
		if got := amount(c.m, "EUR"); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// TestAligned: numbers of several decimals have their points below each other.
func TestAligned(t *testing.T) {
	got := aligned([]string{"41.00", "−3.5", "7", "no figure"})
	want := []string{"41.00", "−3.5\u2007", "7\u2008\u2007\u2007", "no figure\u2008\u2007\u2007"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"1", "20"}, aligned([]string{"1", "20"})); diff != "" {
		t.Error(diff)
	}
}

// TestChances: what is possible is never none, what is not certain never all.
func TestChances(t *testing.T) {
	for _, c := range []struct {
		s             float64
		column, words string
	}{
		{0, "0%", "in none of 100"},
		{1e-9, "<1%", "in fewer than 1 of 100"},
		{0.004, "<1%", "in fewer than 1 of 100"},
		{0.005, "<1%", "in fewer than 1 of 100"},
		{0.0051, "1%", "in 1 of 100"},
		{0.995, ">99%", "in more than 99 of 100"},
		{0.2, "20%", "in 20 of 100"},
		{0.994, "99%", "in 99 of 100"},
		{0.996, ">99%", "in more than 99 of 100"},
		{1, "100%", "in all of 100"},
	} {
		if got := percent(valuation.Share(c.s)); got != c.column {
			t.Errorf("percent(%v) = %q, want %q", c.s, got, c.column)
		}
		if got := in100(valuation.Share(c.s)); got != c.words {
			t.Errorf("in100(%v) = %q, want %q", c.s, got, c.words)
		}
	}
	if got := optional(nil); got != noFigure {
		t.Errorf("no chance is %q", got)
	}
}

func TestWhole(t *testing.T) {
	for v, want := range map[float64]string{0: "0.00", math.Copysign(0, -1): "0.00", 9.876: "9.88", 78.13: "78", -101.6: "−102", 20000: "20\u202f000"} {
		if got := whole(v); got != want {
			t.Errorf("whole(%v) = %q, want %q", v, got, want)
		}
	}
	if got := tenth(66.2); got != "66" {
		t.Errorf("tenth is %q", got)
	}
}
