package money_test

import (
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// Ties of General Decimal Arithmetic, rounding.decTest 2.62, at precision 5:
// radx116, 124, 186, 194, 216 and 224; negative ones and other steps follow
// from its definitions of the rules.
func TestRoundTies(t *testing.T) {
	tests := []struct{ value, step, halfUp, halfEven, down string }{
		{"12345.5", "1", "12346", "12346", "12345"},
		{"12346.5", "1", "12347", "12346", "12346"},
		{"-12345.5", "1", "-12346", "-12346", "-12345"},
		{"-12346.5", "1", "-12347", "-12346", "-12346"},
		{"0.5", "1", "1", "0", "0"},
		{"-0.5", "1", "-1", "0", "0"},
		{"0.49999999", "1", "0", "0", "0"},
		{"0.50000001", "1", "1", "1", "0"},
		{"24.785", "0.01", "24.79", "24.78", "24.78"},
		{"5.975", "0.05", "6.00", "6.00", "5.95"}, // 119.5 steps
		{"5.925", "0.05", "5.95", "5.90", "5.90"}, // 118.5 steps
		{"56876", "1000", "57000", "57000", "56000"},
		{"56500", "1000", "57000", "56000", "56000"},
		{"0.10", "0.03", "0.09", "0.09", "0.09"},
		{"7", "14", "14", "0", "0"},
		{"123", "1", "123", "123", "123"},
		{"0", "0.01", "0", "0", "0"},
	}
	for _, test := range tests {
		wants := map[money.Rounding]string{money.HalfUp: test.halfUp, money.HalfEven: test.halfEven, money.Down: test.down}
		for rule, want := range wants {
			if got := rule.RoundDecimal(dec(test.value), dec(test.step)); !got.Equal(dec(want)) {
				t.Errorf("%s %s to %s: got %s, want %s", rule, test.value, test.step, got, want)
			}
		}
	}
}

// A fraction is rounded by its exact value, not by a decimal near it.
func TestRoundFractions(t *testing.T) {
	tests := []struct{ num, den, step, halfUp, down string }{
		{"500", "6", "0.01", "83.33", "83.33"},
		{"1", "6", "0.1", "0.2", "0.1"},
		{"1", "3", "1", "0", "0"},
		{"2", "3", "1", "1", "0"},
		// A hair below a tie: 0.005 less 1/(6·10²⁰).
		{"299999999999999999", "60000000000000000000", "0.01", "0", "0"},
		{"300000000000000000", "60000000000000000000", "0.01", "0.01", "0"},
		{"-1", "6", "0.1", "-0.2", "-0.1"},
		{"500", "239.640", "0.01", "2.09", "2.08"},
	}
	for _, test := range tests {
		x := money.NewRatio(dec(test.num), dec(test.den))
		if got := money.HalfUp.Round(x, dec(test.step)); !got.Equal(dec(test.halfUp)) {
			t.Errorf("half-up %s to %s: got %s, want %s", x, test.step, got, test.halfUp)
		}
		if got := money.Down.Round(x, dec(test.step)); !got.Equal(dec(test.down)) {
			t.Errorf("down %s to %s: got %s, want %s", x, test.step, got, test.down)
		}
	}
}

// The rules by their definitions, on random fractions and steps.
func TestRoundLaws(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	for range 5000 {
		step := decimal.New(1+r.Int64N(60), -int32(r.IntN(4)))
		x := money.NewRatio(decimal.New(r.Int64N(20_000)-10_000, -int32(r.IntN(4))), decimal.NewFromInt(1+r.Int64N(40)))
		if r.IntN(3) == 0 { // ties are rare otherwise
			x = money.NewRatio(step.Mul(decimal.NewFromInt(r.Int64N(400)-200)), dec("2"))
		}
		for _, rule := range []money.Rounding{money.HalfUp, money.HalfEven, money.Down} {
			checkRounded(t, rule, x, step, rule.Round(x, step))
		}
	}
}

func checkRounded(t *testing.T, rule money.Rounding, x money.Ratio, step, got decimal.Decimal) {
	t.Helper()
	steps := new(big.Rat).Quo(got.Rat(), step.Rat())
	// How far, in steps, the value moved away from zero.
	moved := new(big.Rat).Quo(new(big.Rat).Sub(got.Rat(), x.Rat()), step.Rat())
	if x.Sign() < 0 {
		moved.Neg(moved)
	}
	half, ok := big.NewRat(1, 2), steps.IsInt()
	tie := new(big.Rat).Abs(moved).Cmp(half) == 0
	switch {
	case rule == money.Down:
		ok = ok && moved.Sign() <= 0 && moved.Cmp(big.NewRat(-1, 1)) > 0
	case tie && rule == money.HalfUp:
		ok = ok && moved.Sign() > 0
	case tie:
		ok = ok && steps.Num().Bit(0) == 0
	default:
		ok = ok && new(big.Rat).Abs(moved).Cmp(half) < 0
	}
	if !ok {
		t.Fatalf("%s of %s to %s: got %s", rule, x, step, got)
	}
}

func TestParseRounding(t *testing.T) {
	for _, rule := range []money.Rounding{money.HalfUp, money.HalfEven, money.Down} {
		if got, err := money.ParseRounding(rule.String()); err != nil || got != rule {
			t.Errorf("%s read again: %v, %v", rule, got, err)
		}
	}
	if got := money.Rounding(7).String(); got != "Rounding(7)" {
		t.Errorf("no rule: printed as %s", got)
	}
}

func BenchmarkRound(b *testing.B) {
	x, step := money.NewRatio(dec("12345.67"), dec("6")), dec("0.01")
	for b.Loop() {
		money.HalfUp.Round(x, step)
	}
}
