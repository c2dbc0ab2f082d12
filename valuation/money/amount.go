package money

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/shopspring/decimal"
)

// Digits that a number in text may have: enough for a price in any currency
// and a rate from any table, few enough that nothing built from it is slow.
const (
	maxIntegerDigits = 15
	maxDecimals      = 8
)

// Amount is a sum of money in a currency. Use [Amount.Equal] to compare: the
// same value can be held with more or fewer trailing zeros.
type Amount struct {
	Value    decimal.Decimal
	Currency Currency
}

// ParseAmount reads a number and a currency code with a space between, such as
// "45 EUR" or "12.50 GBP". The number is as in [ParsePlain].
func ParseAmount(text string) (Amount, error) {
	number, code, found := strings.Cut(text, " ")
	if !found {
		return Amount{}, fmt.Errorf("%s is not a number and a currency code with a space between", quote(text))
	}
	code = strings.TrimLeft(code, " ")
	if strings.HasPrefix(number, "-") {
		return Amount{}, errors.New("a price cannot be negative")
	}
	value, err := ParsePlain(number)
	if err != nil {
		return Amount{}, err
	}
	currency, err := ParseCurrency(code)
	if err != nil {
		return Amount{}, err
	}
	return Amount{value, currency}, nil
}

// ParsePlain reads a number without currency, such as "9.50": digits with at
// most one point among them, up to 15 before it and 8 after. Signs, exponents,
// commas, spaces and other ways to group digits are refused.
func ParsePlain(text string) (decimal.Decimal, error) {
	whole, fraction, point := strings.Cut(text, ".")
	switch {
	case strings.HasPrefix(text, "-"):
		return decimal.Decimal{}, errors.New("an amount cannot be negative")
	case strings.Contains(text, ","):
		return decimal.Decimal{}, fmt.Errorf("%s has a comma: decimals follow a point, and digits are not grouped", quote(text))
	case !digits(whole) || point && !digits(fraction):
		return decimal.Decimal{}, fmt.Errorf("%s is not a plain number", quote(text))
	case len(whole) > maxIntegerDigits:
		return decimal.Decimal{}, fmt.Errorf("%s has more than %d digits before the point", quote(text), maxIntegerDigits)
	case len(fraction) > maxDecimals:
		return decimal.Decimal{}, fmt.Errorf("%s has more than %d decimals", quote(text), maxDecimals)
	}
	return decimal.NewFromString(text)
}

// digits reports whether s consists of one or more digits 0 to 9.
func digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}

// quote shows text from a file in an error, shortened where it is long.
func quote(text string) string {
	const limit = 40
	if len(text) <= limit {
		return fmt.Sprintf("%q", text)
	}
	end := limit
	for end > 0 && !utf8.RuneStart(text[end]) {
		end--
	}
	return fmt.Sprintf("%q…", text[:end])
}

// String writes the amount with the decimals of its currency's minor unit, or
// more if the value has more, and the code: "45.00 EUR". [ParseAmount] reads
// it back.
func (a Amount) String() string {
	places := a.Currency.Digits()
	for !a.Value.Truncate(places).Equal(a.Value) {
		places++
	}
	return a.Value.StringFixed(places) + " " + string(a.Currency)
}

// Equal reports whether both are the same value in the same currency.
func (a Amount) Equal(b Amount) bool {
	return a.Currency == b.Currency && a.Value.Equal(b.Value)
}
