package charges_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/money"
)

// The published examples that are about rounding and minor units alone.

// rule is a rounding by its name.
func rule(t *testing.T, name string) money.Rounding {
	t.Helper()
	m, err := money.ParseRounding(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// perUnit is VAT for one piece, to fractions of a penny. A sheet read from text
// has no amounts finer than a penny, one made in code has.
func perUnit(t *testing.T, c *reference) {
	charge := charges.Charge{
		ID: "vat", On: []int{0}, Tiers: []charges.Tier{{Rate: money.WholeRatio(dec("1"))}},
		Rounding: rule(t, c.Rounding), RoundTo: dec(c.in("step")),
	}
	if _, ok := c.Inputs["floor_above_nil"]; ok {
		least := dec(c.in("floor_above_nil"))
		charge.Min = &least
	}
	s := &charges.Sheet{Side: charges.Buy, Currency: money.Currency(c.Currency), Charges: []charges.Charge{charge}}
	c.want(t, "rounded", apply(s, c.in("vat_per_unit"))["vat"])
}

func tenthPenny(t *testing.T, c *reference) {
	pence := dec(c.in("vat_pence"))
	c.want(t, "down_to_tenth", money.Down.RoundDecimal(pence, dec("0.1")))
	c.want(t, "nearest_penny", money.HalfUp.RoundDecimal(pence, dec("1")))
	c.want(t, "nearest_half_penny", money.HalfUp.RoundDecimal(pence, dec("0.5")))
}

func lineOrTotal(t *testing.T, c *reference) {
	s := read(t, "buy", c.Currency, "", `id = "vat"; on = ["hammer"]; rate = "`+c.percent("vat_rate")+`"`)
	price, quantity := dec(c.in("unit_price")), dec(c.in("quantity"))
	total := apply(s, price.Mul(quantity).String())["vat"]
	summed := apply(s, price.String())["vat"].Mul(quantity)
	c.want(t, "vat_on_total", total)
	c.want(t, "vat_per_item_summed", summed)
	c.want(t, "difference", total.Sub(summed))
}

func halfCent(t *testing.T, c *reference) {
	for _, value := range c.list("values") {
		c.want(t, value, rule(t, c.Rounding).RoundDecimal(dec(value), money.Currency(c.Currency).Unit()))
	}
}

// oldCurrency converts by dividing by the rate, never by an inverse of it.
func oldCurrency(t *testing.T, c *reference) {
	convert := func(amount string) decimal.Decimal {
		return rule(t, c.Rounding).Round(money.NewRatio(dec(amount), dec(c.in("per_euro"))), money.Currency(c.Currency).Unit())
	}
	if one, ok := c.Inputs["amount"].(string); ok {
		c.want(t, "eur", convert(one))
		return
	}
	for _, amount := range c.list("amounts") {
		c.want(t, amount, convert(amount))
	}
	inverse := money.HalfUp.Round(money.NewRatio(dec("1"), dec(c.in("per_euro"))), dec("0.000001"))
	c.want(t, "wrong_by_inverse_100000", inverse.Mul(dec("100000")).Round(2))
}

func throughEuro(t *testing.T, c *reference) {
	step := decimal.New(1, -int32(dec(c.in("intermediate_decimals")).IntPart()))
	euro := money.HalfUp.Round(money.NewRatio(dec(c.in("amount_frf")), dec(c.in("frf_per_euro"))), step)
	c.want(t, "intermediate_eur", euro)
	mark := money.WholeRatio(euro).MulDecimal(dec(c.in("dem_per_euro")))
	c.want(t, "dem_full", money.HalfUp.Round(mark, dec("0.00000001")))
	c.want(t, "dem", money.HalfUp.Round(mark, dec("0.01")))
}

func cash(t *testing.T, c *reference) {
	for _, total := range c.list("totals") {
		c.want(t, total, rule(t, c.Rounding).RoundDecimal(dec(total), dec(c.in("cash_step"))))
	}
}

// ties are "rule value" of General Decimal Arithmetic, to whole numbers.
func ties(t *testing.T, c *reference) {
	for key := range c.Expected {
		name, value, _ := strings.Cut(key, " ")
		c.want(t, key, rule(t, name).RoundDecimal(dec(value), dec("1")))
	}
}

// quantize is "value step" of General Decimal Arithmetic.
func quantize(t *testing.T, c *reference) {
	for _, pair := range c.list("pairs") {
		value, step, _ := strings.Cut(pair, " ")
		c.want(t, pair, rule(t, c.Rounding).RoundDecimal(dec(value), dec(step)))
	}
}

// binaryTraps are products and sums that floats get wrong, as printed. Read as
// decimals and put into one ratio they are exact.
func binaryTraps(t *testing.T, c *reference) {
	exact := map[string]string{
		"0.1+0.2": "0.3", "1.005*100": "100.5", "0.285*100": "28.5", "4.35*100": "435", "1.15*108.70": "125.005",
	}
	for _, expression := range c.list("expressions") {
		c.looked[expression] = true
		i := strings.IndexAny(expression, "+*")
		a, b := money.WholeRatio(dec(expression[:i])), money.WholeRatio(dec(expression[i+1:]))
		x, _ := strconv.ParseFloat(expression[:i], 64)
		y, _ := strconv.ParseFloat(expression[i+1:], 64)
		sum, float := a.Add(b), x+y
		if expression[i] == '*' {
			sum, float = a.Mul(b), x*y
		}
		if got := strconv.FormatFloat(float, 'g', -1, 64); got != c.Expected[expression] {
			t.Errorf("%s: a float prints %s, want %s", expression, got, c.Expected[expression])
		}
		if sum.Cmp(dec(exact[expression])) != 0 {
			t.Errorf("%s: got %s, want %s", expression, sum, exact[expression])
		}
	}
}

func minorUnits(t *testing.T, c *reference) {
	for code := range c.Expected {
		currency, err := money.ParseCurrency(code)
		if err != nil {
			t.Error(err)
		}
		c.want(t, code, decimal.NewFromInt32(currency.Digits()))
		if want := decimal.New(1, -currency.Digits()); !currency.Unit().Equal(want) {
			t.Errorf("%s: unit %s, want %s", code, currency.Unit(), want)
		}
	}
}
