package money

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/shopspring/decimal"
)

// The laws here hold the short way for small numbers against the long one.

// edges are coefficients around the bounds of the short way.
var edges = []int64{0, 1, 2, 5, 10, 1<<53 - 1, 1 << 53, 1<<53 + 1, 1<<53 + 2,
	1e17, 1e18 - 1, 1e18, 1e18 + 1, math.MaxInt64 - 1, math.MaxInt64}

// anyDecimal has 1 to 21 digits, or is an edge, of either sign, and exponents
// from -12 to 4.
func anyDecimal(r *rand.Rand) decimal.Decimal {
	coefficient := big.NewInt(r.Int64N(powers[1+r.IntN(maxDigits)]))
	switch r.IntN(8) {
	case 0:
		coefficient.SetInt64(edges[r.IntN(len(edges))])
	case 1:
		coefficient.Mul(coefficient, big.NewInt(1000))
	}
	if r.IntN(2) == 0 {
		coefficient.Neg(coefficient)
	}
	return decimal.NewFromBigInt(coefficient, int32(r.IntN(17)-12))
}

// anyRatio has a denominator every other time.
func anyRatio(r *rand.Rand) Ratio {
	num, den := anyDecimal(r), anyDecimal(r)
	if den.IsZero() || r.IntN(2) == 0 {
		return WholeRatio(num)
	}
	return NewRatio(num, den)
}

// check counts how often the short way was open, and fails where it is so
// always or never: the law would not have been tried then.
type check struct{ short, long int }

func (c *check) count(short bool) {
	if short {
		c.short++
	} else {
		c.long++
	}
}

func (c *check) done(t *testing.T) {
	t.Helper()
	if c.short < 1000 || c.long < 100 {
		t.Errorf("the short way was open %d times and closed %d times", c.short, c.long)
	}
}

func TestFractionLaw(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	var c check
	for range 50_000 {
		x := anyRatio(r)
		num, den, ok := x.Fraction()
		if c.count(ok); !ok {
			continue
		}
		if den <= 0 || big.NewRat(num, den).Cmp(x.Rat()) != 0 {
			t.Fatalf("%s: got %d/%d", x, num, den)
		}
	}
	c.done(t)
}

func TestUnitsLaw(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 2))
	var c check
	for range 50_000 {
		d, places := anyDecimal(r), int32(r.IntN(20))
		units, ok := Units(d, places)
		if c.count(ok); ok && !decimal.New(units, -places).Equal(d) {
			t.Fatalf("%s in units of 10^-%d: got %d", d, places, units)
		}
	}
	c.done(t)
	if units, ok := Units(decimal.New(125, -1), 2); !ok || units != 1250 {
		t.Errorf("12.5 in hundredths: %d, %v", units, ok)
	}
	if _, ok := Units(decimal.New(125, -1), 0); ok {
		t.Error("12.5 is a whole number")
	}
}

// A ratio as a float is the float nearest to the fraction, to the bit.
func TestRatioFloatLaw(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 3))
	var c check
	for range 100_000 {
		x := anyRatio(r)
		num, den, ok := x.Fraction()
		c.count(ok && max(num, -num, den) <= MaxExact)
		got := x.Float()
		if want, _ := x.Rat().Float64(); math.Float64bits(got) != math.Float64bits(want) {
			t.Fatalf("%s: got %v, want %v", x, got, want)
		}
	}
	c.done(t)
}

// Where numbers of 54 bits were divided as floats, these would be rounded twice.
func TestRatioFloatBeyondExact(t *testing.T) {
	for _, num := range []int64{MaxExact - 1, MaxExact, MaxExact + 1, MaxExact + 3} {
		for den := int64(1); den < 200; den++ {
			for _, x := range []Ratio{
				NewRatio(decimal.New(num, 0), decimal.New(den, 0)),
				NewRatio(decimal.New(den, 0), decimal.New(num, 0)),
			} {
				if want, _ := x.Rat().Float64(); x.Float() != want {
					t.Fatalf("%s: got %v, want %v", x, x.Float(), want)
				}
			}
		}
	}
}

// Rounding is the same the short and the long way, trailing zeros included.
func TestRoundSmallLaw(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 4))
	var c check
	for range 100_000 {
		x, step := anyRatio(r), anyDecimal(r)
		switch r.IntN(4) {
		case 0, 1:
			step = decimal.New(1+r.Int64N(60), -int32(r.IntN(5)))
		case 2: // an odd number of half steps
			step = step.Abs()
			x = NewRatio(step.Mul(decimal.New(2*r.Int64N(2000)-1999, 0)), decimal.New(2, 0))
		}
		if step.IsZero() {
			continue
		}
		for _, rule := range []Rounding{HalfUp, HalfEven, Down} {
			got, ok := rule.roundSmall(x, step)
			if c.count(ok); !ok {
				continue
			}
			if want := rule.roundLarge(x, step); !got.Equal(want) || got.Exponent() != want.Exponent() {
				t.Fatalf("%s of %s to %s: got %s, want %s", rule, x, step, got, want)
			}
		}
	}
	c.done(t)
}

// A float in money is its shortest decimal rounded, however near to a tie.
func TestFromFloatLaw(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 5))
	var c check
	for _, f := range floatsNearTies(r) {
		for _, currency := range []Currency{"JPY", "EUR", "KWD", "CLF"} {
			_, ok := nearest(f, currency.Digits())
			c.count(ok)
			got, want := FromFloat(f, currency), HalfUp.roundLarge(WholeRatio(Decimal(f)), currency.Unit())
			if !got.Equal(want) || got.Exponent() != want.Exponent() {
				t.Fatalf("%v %s: got %s, want %s", f, currency, got, want)
			}
		}
	}
	c.done(t)
}

// floatsNearTies are floats of all sizes, among them halves of minor units, and
// the floats on either side of each.
func floatsNearTies(r *rand.Rand) []float64 {
	floats := []float64{0, math.Copysign(0, -1), math.SmallestNonzeroFloat64, 1e-300, 1e15, 1e18, 1e22, 1e300,
		1e308, 1 << 40, 1 << 53, (1 << 40) / 100.0, (1 << 40) / 1000.0}
	for range 20_000 {
		halves := float64(2*r.Int64N(powers[1+r.IntN(15)])+1) / 2
		floats = append(floats, halves/float64(powers[r.IntN(5)]),
			(r.Float64()-0.5)*math.Pow(10, float64(r.IntN(16))))
	}
	for _, f := range floats {
		floats = append(floats, math.Nextafter(f, math.Inf(1)), math.Nextafter(f, math.Inf(-1)), -f)
	}
	return floats
}
