package money_test

import (
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

func TestParseRate(t *testing.T) {
	tests := []struct {
		text     string
		num, den int64
		printed  string
	}{
		{"25%", 1, 4, "25%"},
		{"8.1%", 81, 1000, "8.1%"},
		{"8.10 %", 81, 1000, "8.1%"},
		{"0%", 0, 1, "0%"},
		{"250%", 5, 2, "250%"},
		{"0.00000001%", 1, 10_000_000_000, "0.00000001%"},
		{"1/6", 1, 6, "1/6"},
		{"7/47", 7, 47, "7/47"},
		{"5.5/105.5", 11, 211, "5.5/105.5"},
		{"2/4", 1, 2, "2/4"},
		{"0/3", 0, 1, "0/3"},
		{"3/1", 3, 1, "300%"},
	}
	for _, test := range tests {
		got, err := money.ParseRate(test.text)
		if err != nil {
			t.Errorf("%q: %v", test.text, err)
			continue
		}
		if want := big.NewRat(test.num, test.den); got.Rat().Cmp(want) != 0 {
			t.Errorf("%q: got %s, want %s", test.text, got.Rat(), want)
		}
		if got.String() != test.printed {
			t.Errorf("%q: printed as %s, want %s", test.text, got, test.printed)
		}
		if again, err := money.ParseRate(got.String()); err != nil || !cmp.Equal(got, again) {
			t.Errorf("%q: printed %s, read again %v, %v", test.text, got, again, err)
		}
	}
}

// Arithmetic agrees with fractions of integers, whatever the denominators.
func TestRatioArithmetic(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	random := func() money.Ratio {
		num := decimal.New(r.Int64N(2000)-1000, -int32(r.IntN(4)))
		if r.IntN(2) == 0 {
			return money.WholeRatio(num)
		}
		den := decimal.New(1+r.Int64N(300), -int32(r.IntN(3)))
		if r.IntN(2) == 0 {
			den = den.Neg()
		}
		return money.NewRatio(num, den)
	}
	for range 2000 {
		a, b, d := random(), random(), decimal.New(r.Int64N(200)-100, -1)
		x, y := a.Rat(), b.Rat()
		check := func(name string, got money.Ratio, want *big.Rat) {
			t.Helper()
			if got.Rat().Cmp(want) != 0 {
				t.Fatalf("%s of %s, %s, %s: got %s, want %s", name, a, b, d, got.Rat(), want)
			}
		}
		check("Add", a.Add(b), new(big.Rat).Add(x, y))
		check("Mul", a.Mul(b), new(big.Rat).Mul(x, y))
		check("MulDecimal", a.MulDecimal(d), new(big.Rat).Mul(x, d.Rat()))
		if !b.IsZero() {
			check("Quo", a.Quo(b), new(big.Rat).Quo(x, y))
		}
		if a.Less(b) != (x.Cmp(y) < 0) {
			t.Fatalf("%s below %s: %v", a, b, a.Less(b))
		}
		if got, want := a.Cmp(d), x.Cmp(d.Rat()); got != want {
			t.Fatalf("%s compared with %s: got %d, want %d", a, d, got, want)
		}
		if a.Equal(b) != (x.Cmp(y) == 0) || a.Sign() != x.Sign() || a.IsZero() != (x.Sign() == 0) {
			t.Fatalf("%s, %s: Equal %v, Sign %d, IsZero %v", a, b, a.Equal(b), a.Sign(), a.IsZero())
		}
	}
}

func TestZeroRatio(t *testing.T) {
	var zero money.Ratio
	half := money.NewRatio(dec("1"), dec("2"))
	if !zero.IsZero() || !zero.Add(half).Equal(half) || !half.Add(zero).Equal(half) || !zero.Mul(half).IsZero() || zero.Cmp(dec("0")) != 0 {
		t.Error("the zero Ratio is not 0")
	}
	if zero.String() != "0%" || zero.Float() != 0 || !money.HalfUp.Round(zero, dec("0.01")).IsZero() {
		t.Errorf("the zero Ratio prints as %s, is %v", zero, zero.Float())
	}
}

func TestNewRatioPanicsOnZero(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a denominator of 0 was taken")
		}
	}()
	money.NewRatio(dec("1"), dec("0"))
}
