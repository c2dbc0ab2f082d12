package prices

import (
	"errors"
	"math"
	"math/bits"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// digits is a number as written, an integer and a count of decimals in one
// word: the integer times 16 plus the count. It takes eight bytes and no
// pointer where a decimal points to a number elsewhere. The number 0 is 0 or,
// with decimals written, a small value; see isZero.
type digits uint64

// Limits: those of money.ParsePlain, and what fits beside the count.
const (
	maxWhole    = 15
	maxDecimals = 8
	countBits   = 4
	maxDigits   = 18 // 10^18 < 2^(64-countBits)
)

// errTooLong says that a number is well formed and has too many digits.
var errTooLong = errors.New("the number has more than 18 digits")

// parseDigits reads a plain number such as 9.50. The error is that of
// [money.ParsePlain], so a number is refused in the same words everywhere.
func parseDigits(text string) (digits, error) {
	integer, i := uint64(0), 0
	for ; i < len(text) && text[i]-'0' <= 9; i++ {
		integer = 10*integer + uint64(text[i]-'0')
	}
	whole, decimals := i, 0
	if i < len(text) && text[i] == '.' {
		for i++; i < len(text) && text[i]-'0' <= 9; i++ {
			integer = 10*integer + uint64(text[i]-'0')
		}
		decimals = i - whole - 1
	}
	if i < len(text) || whole == 0 || whole > maxWhole || decimals > maxDecimals ||
		whole+decimals > maxDigits || text[i-1] == '.' {
		return 0, refusal(text)
	}
	return digits(integer<<countBits | uint64(decimals)), nil
}

// refusal is why text is no number for this package.
func refusal(text string) error {
	if _, err := money.ParsePlain(text); err != nil {
		return err
	}
	return errTooLong
}

// decimal is the number as a decimal, with as many decimals as written.
func (d digits) decimal() decimal.Decimal {
	return decimal.New(int64(d>>countBits), -int32(d.decimals()))
}

// float is the float64 nearest to the number.
func (d digits) float() float64 { return d.floatWith(0) }

// floatWith is the float64 nearest to the sum of d and e. Numbers of 53 bits
// are floats, and a quotient of two of them is rounded once (IEEE 754).
func (d digits) floatWith(e digits) float64 {
	places := max(d.decimals(), e.decimals())
	a, b := d.units(places), e.units(places)
	if sum := a + b; max(a, b, sum) <= money.MaxExact {
		return float64(sum) / float64(powers[places])
	}
	return money.Float(d.decimal().Add(e.decimal()))
}

// powers are those of ten up to 10^maxDecimals.
var powers = [maxDecimals + 1]uint64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8}

// decimals is how many digits the number has after its point.
func (d digits) decimals() int { return int(d & (1<<countBits - 1)) }

// units is the number in units of 10^-places, where places are at least its
// decimals. What does not fit is more than [money.MaxExact] all the same.
func (d digits) units(places int) uint64 {
	more, units := bits.Mul64(uint64(d>>countBits), powers[places-d.decimals()])
	if more > 0 {
		return math.MaxUint64
	}
	return units
}

// isZero reports whether the number is 0, however written.
func (d digits) isZero() bool { return d>>countBits == 0 }
