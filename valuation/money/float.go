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

// Float is the float64 nearest to r.
func (r Ratio) Float() float64 {
	f, _ := r.Rat().Float64()
	return f
}

// FromFloat is f rounded half-up to the minor unit of c. The value rounded is
// the shortest decimal that reads back as f, so 1.005 is a tie and becomes
// 1.01, although the float lies a little below. It panics on NaN and infinity,
// which no estimate may hand over.
func FromFloat(f float64, c Currency) decimal.Decimal {
	return HalfUp.RoundDecimal(Decimal(f), c.Unit())
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
