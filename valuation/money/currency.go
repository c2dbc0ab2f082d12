package money

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
)

// Currency is an ISO 4217 alphabetic code, such as "EUR". The empty Currency
// is no currency.
type Currency string

// ParseCurrency reads the code of a currency that is in use or that the
// European Central Bank's reference-rate history has a column for. Codes are
// written in capitals. It refuses everything else, and with it the codes of ISO 4217
// that have no minor unit (metals, funds units, testing).
func ParseCurrency(code string) (Currency, error) {
	if _, ok := minorUnit(Currency(code)); ok {
		return Currency(code), nil
	}
	if upper := strings.ToUpper(code); len(code) == 3 && upper != code {
		if _, ok := minorUnit(Currency(upper)); ok {
			return "", fmt.Errorf("currency codes are written in capitals: %s, not %s", upper, code)
		}
	}
	return "", fmt.Errorf("unknown currency %s", quote(code))
}

// Digits is the number of decimals of the currency's minor unit in ISO 4217:
// 2 for EUR, 0 for JPY, 3 for KWD. It is 2 for a code that [ParseCurrency]
// refuses.
func (c Currency) Digits() int32 {
	if digits, ok := minorUnit(c); ok {
		return digits
	}
	return 2
}

// Unit is the minor unit as an amount: 0.01 for EUR, 1 for JPY.
func (c Currency) Unit() decimal.Decimal {
	return decimal.New(1, -c.Digits())
}
