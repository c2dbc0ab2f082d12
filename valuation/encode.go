package valuation

import (
	"encoding/json"
	"io"
	"math"
	"strconv"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// shareDecimals is how many decimals a chance has in JSON: fewer than the last
// digits in which platforms may differ, more than anybody reads.
const shareDecimals = 12

// MarshalJSON writes the share rounded to 12 decimals.
func (s Share) MarshalJSON() ([]byte, error) {
	return number(float64(s), shareDecimals), nil
}

// MarshalJSON writes the score rounded to 9 decimals.
func (t Tenth) MarshalJSON() ([]byte, error) {
	return number(float64(t), 9), nil
}

// number formats f at no more than the given decimals, without trailing zeros
// and without a negative zero.
func number(f float64, decimals int) []byte {
	scale := math.Pow10(decimals)
	r := math.Round(f*scale) / scale
	if r == 0 {
		r = 0
	}
	return strconv.AppendFloat(nil, r, 'f', -1, 64)
}

// MarshalJSON writes the amount as a decimal string.
func (m Money) MarshalJSON() ([]byte, error) {
	return []byte(strconv.Quote(m.Text())), nil
}

// Text is the amount with the decimals that it carries, "41.00".
func (m Money) Text() string {
	places := -m.Exponent()
	return m.StringFixed(max(places, 0))
}

// estimate turns a float estimate into money at the currency's minor unit.
func estimate(f float64, c money.Currency) Money {
	return Money{money.FromFloat(f, c)}
}

// atUnit gives d at least the decimals of the currency's minor unit.
func atUnit(d decimal.Decimal, c money.Currency) decimal.Decimal {
	if places := c.Digits(); -d.Exponent() < places {
		return decimal.NewFromBigInt(d.Shift(places).BigInt(), -places)
	}
	return d
}

// WriteJSON writes the appraisal in its published form, indented.
func (a *Appraisal) WriteJSON(w io.Writer) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(true)
	enc.SetIndent("", "  ")
	return enc.Encode(a)
}
