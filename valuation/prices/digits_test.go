package prices

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"lotgauge/valuation/money"
)

func TestParseDigits(t *testing.T) {
	for text, want := range map[string]string{"0": "0", "00.00": "0", "7": "7", "007.50": "7.5", "9.50": "9.5",
		"0.00000001": "0.00000001", "999999999999999": "999999999999999", "9999999999.99999999": "9999999999.99999999"} {
		got, err := parseDigits(text)
		if err != nil || got.decimal().String() != want || got.isZero() != (want == "0") {
			t.Errorf("%s is read as %s, %v", text, got.decimal(), err)
		}
	}
	for _, text := range []string{"", ".", "5.", ".5", "-1", "+1", "1e3", "1,50", "1 000", "0x1", "1.2.3", "NaN",
		"1000000000000000", "0.000000001", "1/2", "１", "1.5x", "99999999999999999999999999"} {
		if got, err := parseDigits(text); err == nil {
			t.Errorf("%q is read as %s", text, got.decimal())
		}
	}
	if _, err := parseDigits("99999999999.99999999"); err != errTooLong {
		t.Errorf("19 digits: %v", err)
	}
}

// Numbers and what is nearly a number are taken or refused as money.ParsePlain
// does, with its value or its words.
func TestParseDigitsAgreesWithMoney(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	const letters = "00123456789..,- e"
	for range 20_000 {
		text := make([]byte, random.IntN(12))
		for i := range text {
			text[i] = letters[random.IntN(len(letters))]
		}
		want, wantErr := money.ParsePlain(string(text))
		got, err := parseDigits(string(text))
		switch {
		case (err == nil) != (wantErr == nil), err != nil && err.Error() != wantErr.Error():
			t.Fatalf("%q: %v, money says %v", text, err, wantErr)
		case err == nil && !got.decimal().Equal(want):
			t.Fatalf("%q is %s, money says %s", text, got.decimal(), want)
		}
	}
}

// The float of a sum is the one nearest to the exact sum, to the bit, where it
// is found in integers and where it is not.
func TestDigitsFloatLaw(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 5))
	edges := []uint64{0, 1, money.MaxExact - 1, money.MaxExact, money.MaxExact + 1, money.MaxExact + 3, 1e18 - 1}
	number := func() digits {
		integer := random.Uint64N(uint64(math.Pow10(1 + random.IntN(maxDigits))))
		if random.IntN(4) == 0 {
			integer = edges[random.IntN(len(edges))]
		}
		return digits(integer<<countBits | random.Uint64N(maxDecimals+1))
	}
	large := 0
	for range 100_000 {
		d, e := number(), number()
		exact := new(big.Rat).Add(d.decimal().Rat(), e.decimal().Rat())
		want, _ := exact.Float64()
		if got := d.floatWith(e); got != want {
			t.Fatalf("%s + %s: got %v, want %v", d.decimal(), e.decimal(), got, want)
		}
		if places := max(d.decimals(), e.decimals()); max(d.units(places), e.units(places)) > money.MaxExact {
			large++
		}
		if want, _ := d.decimal().Rat().Float64(); d.float() != want {
			t.Fatalf("%s: got %v, want %v", d.decimal(), d.float(), want)
		}
	}
	if large < 10_000 || large > 90_000 {
		t.Errorf("%d of 100,000 sums are too large for integers", large)
	}
}
