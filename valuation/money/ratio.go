package money

import (
	"errors"
	"fmt"
	"math/big"
	"strings"

	"github.com/shopspring/decimal"
)

// Ratio is an exact fraction of two decimals: a rate such as 25% or 1/6, or
// the result of applying one. The zero Ratio is 0. Compare with [Ratio.Equal];
// == and reflect.DeepEqual tell 1/2 from 2/4.
type Ratio struct {
	num, den decimal.Decimal // den > 0, or unset where it is 1
}

// NewRatio is num/den. It panics if den is 0, which is the caller's mistake.
func NewRatio(num, den decimal.Decimal) Ratio {
	switch den.Sign() {
	case 0:
		panic("money: ratio with denominator 0")
	case -1:
		return Ratio{num.Neg(), den.Neg()}
	}
	return Ratio{num, den}
}

// WholeRatio is d as a Ratio.
func WholeRatio(d decimal.Decimal) Ratio {
	return Ratio{num: d}
}

// ParseRate reads a percentage, "25%" or "8.1 %", or a fraction, "1/6". Both
// numbers of a fraction are as in [ParsePlain]. A number with neither sign is
// refused, since 0.25 can mean a quarter or a quarter of a hundredth.
func ParseRate(text string) (Ratio, error) {
	if number, ok := strings.CutSuffix(text, "%"); ok {
		percent, err := ParsePlain(strings.TrimSuffix(number, " "))
		if err != nil {
			return Ratio{}, err
		}
		return WholeRatio(percent.Shift(-2)), nil
	}
	above, below, ok := strings.Cut(text, "/")
	if !ok {
		return Ratio{}, fmt.Errorf("%s has neither %% nor /", quote(text))
	}
	num, err := ParsePlain(above)
	if err != nil {
		return Ratio{}, err
	}
	den, err := ParsePlain(below)
	if err != nil {
		return Ratio{}, err
	}
	if den.IsZero() {
		return Ratio{}, errors.New("a fraction cannot have 0 below the line")
	}
	return NewRatio(num, den), nil
}

// below is the denominator.
func (r Ratio) below() decimal.Decimal {
	if r.den.IsZero() {
		return decimal.NewFromInt(1)
	}
	return r.den
}

// Rat is r as a new big.Rat, in lowest terms.
func (r Ratio) Rat() *big.Rat {
	fraction := r.num.Rat()
	return fraction.Quo(fraction, r.below().Rat())
}

// Add is r + s.
func (r Ratio) Add(s Ratio) Ratio {
	if r.IsZero() {
		return s
	}
	if r.den.Equal(s.den) { // both unset is the common case: percentages
		return Ratio{r.num.Add(s.num), r.den}
	}
	a, b := r.below(), s.below()
	return Ratio{r.num.Mul(b).Add(s.num.Mul(a)), a.Mul(b)}
}

// Mul is r × s.
func (r Ratio) Mul(s Ratio) Ratio {
	product := Ratio{num: r.num.Mul(s.num)}
	if !r.den.IsZero() || !s.den.IsZero() {
		product.den = r.below().Mul(s.below())
	}
	return product
}

// Quo is r / s. It panics if s is 0, which is the caller's mistake.
func (r Ratio) Quo(s Ratio) Ratio {
	return NewRatio(r.num.Mul(s.below()), r.below().Mul(s.num))
}

// MulDecimal is r × d.
func (r Ratio) MulDecimal(d decimal.Decimal) Ratio {
	return Ratio{r.num.Mul(d), r.den}
}

// Cmp is -1, 0 or 1 as r is less than, equal to or greater than d.
func (r Ratio) Cmp(d decimal.Decimal) int {
	return r.num.Cmp(r.below().Mul(d))
}

// Less reports whether r is below s.
func (r Ratio) Less(s Ratio) bool {
	if r.den.Equal(s.den) { // both unset is the common case: percentages
		return r.num.LessThan(s.num)
	}
	return r.num.Mul(s.below()).LessThan(s.num.Mul(r.below()))
}

// Equal reports whether both fractions have the same value.
func (r Ratio) Equal(s Ratio) bool {
	return r.num.Mul(s.below()).Equal(s.num.Mul(r.below()))
}

// IsZero reports whether r is 0.
func (r Ratio) IsZero() bool { return r.num.IsZero() }

// Sign is -1, 0 or 1 as r is below, equal to or above 0.
func (r Ratio) Sign() int { return r.num.Sign() }

// String writes a fraction, "1/6", or a percentage where the denominator is 1:
// "25%". [ParseRate] reads it back if it is not negative and within its bounds.
func (r Ratio) String() string {
	if den := r.below(); !den.Equal(decimal.NewFromInt(1)) {
		return r.num.String() + "/" + den.String()
	}
	return r.num.Shift(2).String() + "%"
}
