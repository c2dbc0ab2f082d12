package money

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// Rounding is a rule for bringing an exact value to a multiple of a step. The
// rules are those of M. Cowlishaw, General Decimal Arithmetic Specification
// 1.70, https://speleotrove.com/decimal/decarith.html, under "rounding".
type Rounding uint8

const (
	// HalfUp takes the nearest multiple, and of two equally near ones that
	// away from zero: round-half-up there, and the rule of Regulation (EC)
	// 1103/97, article 5, for conversions into euro.
	HalfUp Rounding = iota
	// HalfEven takes the nearest multiple, and of two equally near ones the
	// even multiple: round-half-even there.
	HalfEven
	// Down cuts off towards zero: round-down there, and what some customs
	// offices do at every step.
	Down
)

// roundings are the names of the rules, by value.
var roundings = [...]string{HalfUp: "half-up", HalfEven: "half-even", Down: "down"}

// ParseRounding reads the name of a rule: half-up, half-even or down.
func ParseRounding(text string) (Rounding, error) {
	for rule, name := range roundings {
		if name == text {
			return Rounding(rule), nil
		}
	}
	return 0, fmt.Errorf("unknown rounding %s", quote(text))
}

// String is the name of the rule, as [ParseRounding] reads it.
func (m Rounding) String() string {
	if int(m) < len(roundings) {
		return roundings[m]
	}
	return fmt.Sprintf("Rounding(%d)", uint8(m))
}

// Round brings x to a multiple of step by the rule. It is exact: the quotient
// and the remainder of x/step are integers, and the remainder decides. It
// panics if step is 0, which is the caller's mistake.
func (m Rounding) Round(x Ratio, step decimal.Decimal) decimal.Decimal {
	if rounded, ok := m.roundSmall(x, step); ok {
		return rounded
	}
	return m.roundLarge(x, step)
}

// roundSmall is Round where numerator and denominator of x/step are small. What
// is left of the unit is compared instead of twice the rest, which might not fit.
// The result is at most the size of x and a step.
func (m Rounding) roundSmall(x Ratio, step decimal.Decimal) (decimal.Decimal, bool) {
	num, unit, ok := x.over(step)
	if !ok {
		return decimal.Decimal{}, false
	}
	quotient, rest := num/unit, num%unit
	switch size := max(rest, -rest); {
	case m == Down || size < unit-size:
	case size > unit-size || m == HalfUp || quotient%2 != 0:
		quotient += int64(x.Sign())
	}
	return decimal.New(quotient*step.CoefficientInt64(), step.Exponent()), true
}

// roundLarge is Round of any numbers.
func (m Rounding) roundLarge(x Ratio, step decimal.Decimal) decimal.Decimal {
	unit := step
	if !x.den.IsZero() {
		unit = x.den.Mul(step)
	}
	quotient, rest := x.num.QuoRem(unit, 0)
	if m.awayFromZero(quotient, rest, unit) {
		quotient = quotient.Add(decimal.NewFromInt(int64(x.num.Sign())))
	}
	return quotient.Mul(step)
}

// RoundDecimal is Round of a decimal.
func (m Rounding) RoundDecimal(d, step decimal.Decimal) decimal.Decimal {
	return m.Round(Ratio{num: d}, step)
}

// awayFromZero decides whether a quotient cut off towards zero, with the rest
// that was left of unit, moves one step away from zero.
func (m Rounding) awayFromZero(quotient, rest, unit decimal.Decimal) bool {
	if m == Down || rest.IsZero() {
		return false
	}
	twice := rest.Add(rest)
	if twice.Sign() < 0 {
		twice = twice.Neg()
	}
	switch twice.Cmp(unit) {
	case -1:
		return false
	case 1:
		return true
	}
	return m == HalfUp || quotient.BigInt().Bit(0) == 1
}
