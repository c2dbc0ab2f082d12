package valuation

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/shopspring/decimal"
)

func TestNumbersInJSON(t *testing.T) {
	for _, c := range []struct {
		value any
		want  string
	}{
		{Share(1.0 / 3), "0.333333333333"},
		{Share(0.1 + 0.2), "0.3"}, // what floats would print is 0.30000000000000004
		{Share(1 - 1e-15), "1"},
		{Share(-1e-15), "0"},
		{Tenth(70.44254442582736), "70.442544426"},
		{Money{decimal.New(4100, -2)}, `"41.00"`},
		{Money{atUnit(decimal.NewFromInt(41), "EUR")}, `"41.00"`},
		{Money{atUnit(decimal.NewFromInt(4100), "JPY")}, `"4100"`},
		{Money{atUnit(decimal.New(4100, -2), "JPY")}, `"41.00"`}, // no digit is dropped
		{Money{atUnit(decimal.NewFromInt(5), "KWD")}, `"5.000"`},
		{estimate(1.005, "EUR"), `"1.01"`},
		{estimate(-0.001, "EUR"), `"0.00"`},
		{(*Money)(nil), "null"},
		{(*Share)(nil), "null"},
	} {
		got, err := json.Marshal(c.value)
		if err != nil || string(got) != c.want {
			t.Errorf("%v: got %s, %v, want %s", c.value, got, err, c.want)
		}
	}
}

// TestNumbersReadBack: a share in JSON is the share to 12 decimals.
func TestNumbersReadBack(t *testing.T) {
	for _, f := range []float64{0, 1, 0.5, 1e-11, 0.123456789012, math.Pi / 4, 3.4} {
		text, err := json.Marshal(Share(f))
		if err != nil {
			t.Fatal(err)
		}
		var back float64
		if err := json.Unmarshal(text, &back); err != nil {
			t.Fatal(err)
		}
		within(t, string(text), back, f, 5e-13)
	}
}

func TestWords(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{listed(nil), "nothing"},
		{listed([]string{"a"}), "a"},
		{listed([]string{"a", "b", "c"}), "a, b or c"},
		{spoken("wrong-type"), "wrong type"},
		{lower("VAT on the premium"), "VAT on the premium"},
		{lower("Buyer's premium"), "buyer's premium"},
		{lower("A lamp"), "a lamp"},
		{lower("Ärmel"), "ärmel"},
		{lower(""), ""},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
	got := lackings(" box:missing  pantograph-front:missing ")
	if len(got) != 2 || got[0] != (lacking{"box", "missing"}) || got[1] != (lacking{"pantograph-front", "missing"}) {
		t.Errorf("lackings: %v", got)
	}
}
