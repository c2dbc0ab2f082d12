package money_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

func TestFromFloat(t *testing.T) {
	tests := []struct {
		f           float64
		c           money.Currency
		near, floor string
	}{
		{0, "EUR", "0", "0"},
		{19.99, "EUR", "19.99", "19.99"}, // the float is a little below
		{1.005, "EUR", "1.01", "1"},      // and here too
		{0.1 + 0.2, "EUR", "0.3", "0.3"},
		{1.0049999, "EUR", "1", "1"},
		{-19.99, "EUR", "-19.99", "-19.99"},
		{-19.991, "EUR", "-19.99", "-20"},
		{-1.005, "EUR", "-1.01", "-1.01"},
		{1234.5, "JPY", "1235", "1234"},
		{-0.5, "JPY", "-1", "-1"},
		{0.0005, "KWD", "0.001", "0"},
		{1e-300, "EUR", "0", "0"},
		{-1e-300, "EUR", "0", "-0.01"},
		{1e15, "EUR", "1000000000000000", "1000000000000000"},
	}
	for _, test := range tests {
		if got := money.FromFloat(test.f, test.c); !got.Equal(dec(test.near)) {
			t.Errorf("%v %s: got %s, want %s", test.f, test.c, got, test.near)
		}
		if got := money.FloorFloat(test.f, test.c); !got.Equal(dec(test.floor)) {
			t.Errorf("%v %s: floor %s, want %s", test.f, test.c, got, test.floor)
		}
	}
}

// Amounts of money survive the way through floats, and a floor is never above
// what it was made from.
func TestFloatLaws(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	for range 5000 {
		cents := decimal.New(r.Int64N(2e11)-1e11, -2)
		f := money.Float(cents)
		if got := money.FromFloat(f, "EUR"); !got.Equal(cents) {
			t.Fatalf("%s through a float: %s", cents, got)
		}
		if got := money.FloorFloat(f, "EUR"); !got.Equal(cents) {
			t.Fatalf("%s through a float: floor %s", cents, got)
		}
		value := (r.Float64() - 0.5) * math.Pow(10, float64(r.IntN(12)))
		floor := money.FloorFloat(value, "EUR")
		if money.Float(floor) > value || money.Float(floor.Add(dec("0.01"))) <= value {
			t.Fatalf("%v: floor %s", value, floor)
		}
	}
}

func TestDecimalOfFloat(t *testing.T) {
	for f, want := range map[float64]string{0.1: "0.1", 1.0 / 3: "0.3333333333333333", 1e21: "1000000000000000000000", -2.5e-7: "-0.00000025"} {
		if got := money.Decimal(f); !got.Equal(dec(want)) || money.Float(got) != f {
			t.Errorf("%v: got %s, want %s", f, got, want)
		}
	}
}

func TestRatioFloat(t *testing.T) {
	for text, want := range map[string]float64{"25%": 0.25, "1/6": 1.0 / 6, "0%": 0, "7/47": 7.0 / 47, "8.1%": 0.081} {
		r, err := money.ParseRate(text)
		if err != nil || r.Float() != want {
			t.Errorf("%s: got %v, %v, want %v", text, r.Float(), err, want)
		}
	}
}

func TestNoMoneyFromNaN(t *testing.T) {
	for _, f := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for name, from := range map[string]func(float64, money.Currency) decimal.Decimal{"FromFloat": money.FromFloat, "FloorFloat": money.FloorFloat} {
			func() {
				defer func() {
					if recover() == nil {
						t.Errorf("%s took %v", name, f)
					}
				}()
				from(f, "EUR")
			}()
		}
	}
}
