package money

import (
	"math"

	"github.com/shopspring/decimal"
)

// This file is the one bridge between decimals and floats. Prices and chances
// are estimated with floats; what is paid is decimal. All here is exact or
// correctly rounded (IEEE 754, to nearest even), so it gives the same on every
// platform.

// Float is the float64 nearest to d.
func Float(d decimal.Decimal) float64 {
	return d.InexactFloat64()
}

// MaxExact is up to where every integer is a float64.
const MaxExact = 1 << 53

// Float is the float64 nearest to r. The quotient of two integers that are
// floats is rounded once (IEEE 754), so it is what math/big would find.
func (r Ratio) Float() float64 {
	if num, den, ok := r.Fraction(); ok && max(num, -num, den) <= MaxExact {
		return float64(num) / float64(den)
	}
	f, _ := r.Rat().Float64()
	return f
}

// FromFloat is f rounded half-up to the minor unit of c, with the decimals of
// that unit. The value rounded is the shortest decimal that reads back as f, so
// 1.005 is a tie and becomes 1.01, although the float lies a little below. It
// panics on NaN and infinity, which no estimate may hand over.
func FromFloat(f float64, c Currency) decimal.Decimal {
	digits := c.Digits()
	if units, ok := nearest(f, digits); ok {
		return decimal.New(units, -digits)
	}
	return HalfUp.RoundDecimal(Decimal(f), decimal.New(1, -digits))
}

// nearest is f as a whole number of units of 10^-digits, of which there are
// less than 2^40. It is not ok where f may be a tie: below 2^40, the shortest
// decimal lies at most 2^-13 of a unit from f, and the product is rounded by as
// much. NaN and infinity are not ok either.
func nearest(f float64, digits int32) (units int64, ok bool) {
	scaled := float64(f * float64(powers[digits]))
	whole := math.Round(scaled)
	if math.Abs(scaled) < 1<<40 && math.Abs(scaled-whole) < 0.5-1.0/(1<<10) {
		return int64(whole), true
	}
	return 0, false
}

// FloorFloat is the largest multiple of the minor unit of c that is at most f,
// f being understood as in [FromFloat]: 19.99 stays 19.99. A budget in floats
// becomes one in money that is never larger. It panics on NaN and infinity.
func FloorFloat(f float64, c Currency) decimal.Decimal {
	unit := c.Unit()
	exact := Decimal(f)
	floor := Down.RoundDecimal(exact, unit)
	if floor.GreaterThan(exact) { // Down goes up below zero
		floor = floor.Sub(unit)
	}
	return floor
}

// Decimal is the decimal with the fewest digits that reads back as f (G. L.
// Steele and J. L. White, How to Print Floating-Point Numbers Accurately, 1990),
// not rounded to any currency: for a price that nobody pays, such as where an
// auction may end. It panics on NaN and infinity.
func Decimal(f float64) decimal.Decimal {
	if math.IsNaN(f) || math.IsInf(f, 0) {
		panic("money: not a finite number")
	}
	return decimal.NewFromFloat(f)
}
