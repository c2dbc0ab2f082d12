package money

import "github.com/shopspring/decimal"

// This file is the short way for numbers of few digits, which nearly all
// amounts and rates are: they are worked with as 64-bit integers. What does not
// fit goes the long way through math/big, with the same result.

// maxDigits is how many decimal digits a small number has at most. Twice 10^18
// fits into 63 bits.
const maxDigits = 18

// powers are those of ten that are small, by exponent.
var powers = [maxDigits + 1]int64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9,
	1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18}

// Units is d as a number of units of 10^-places. It is not ok where d is not
// written as a whole number of them, or they have more than 18 digits.
func Units(d decimal.Decimal, places int32) (units int64, ok bool) {
	return timesTen(d, int64(d.Exponent())+int64(places))
}

// timesTen is the coefficient of d times 10^power, not ok as in [Units].
func timesTen(d decimal.Decimal, power int64) (int64, bool) {
	if power < 0 || int64(d.NumDigits())+power > maxDigits {
		return 0, false
	}
	return d.CoefficientInt64() * powers[power], true
}

// Fraction is r as a fraction of two integers, the denominator above 0. It is
// not ok where one of them has more than 18 digits. They are not in lowest
// terms.
func (r Ratio) Fraction() (num, den int64, ok bool) { return r.over(one) }

var one = decimal.New(1, 0)

// over is r/step as in [Ratio.Fraction]. It is not ok either where step is not
// above 0.
func (r Ratio) over(step decimal.Decimal) (num, den int64, ok bool) {
	if step.Sign() <= 0 {
		return 0, 0, false
	}
	power := int64(r.num.Exponent()) - int64(step.Exponent())
	digits := step.NumDigits()
	if !r.den.IsZero() {
		power -= int64(r.den.Exponent())
		digits += r.den.NumDigits()
	}
	// A product has at most as many digits as its factors together.
	if int64(digits)+max(-power, 0) > maxDigits {
		return 0, 0, false
	}
	den = step.CoefficientInt64() * powers[max(-power, 0)]
	if !r.den.IsZero() {
		den *= r.den.CoefficientInt64()
	}
	num, ok = timesTen(r.num, max(power, 0))
	return num, den, ok
}
