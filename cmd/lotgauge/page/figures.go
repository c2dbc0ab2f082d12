package page

import (
	"fmt"
	"math"
	"strings"

	"lotgauge/valuation"
	"lotgauge/valuation/money"
)

// noFigure stands where there is none. It is never a nought.
const noFigure = "no figure"

// The spaces that numbers are set with, none of which a line breaks at.
const (
	thinSpace  = "\u202f" // between thousands
	hardSpace  = "\u00a0" // between an amount and its currency
	digitSpace = "\u2007" // as wide as a digit
	pointSpace = "\u2008" // as wide as a full stop
	trueMinus  = "\u2212"
)

// plain is money in digits: "41.00", "12 041.00".
func plain(m *valuation.Money) string {
	if m == nil {
		return noFigure
	}
	return grouped(m.Text())
}

// amount is money with its currency, "41.00 GBP".
func amount(m *valuation.Money, currency string) string {
	if m == nil {
		return noFigure
	}
	return plain(m) + hardSpace + clean(currency)
}

// grouped sets a number in plain digits: thousands apart from five digits up,
// and a true minus.
func grouped(s string) string {
	s, negative := strings.CutPrefix(s, "-")
	whole, rest, dotted := strings.Cut(s, ".")
	if len(whole) > 4 {
		for i := len(whole) - 3; i > 0; i -= 3 {
			whole = whole[:i] + thinSpace + whole[i:]
		}
	}
	if negative {
		whole = trueMinus + whole
	}
	if dotted {
		return whole + "." + rest
	}
	return whole
}

// aligned pads numbers after the decimal point, so that the points stand below
// each other where the numbers are set flush right.
func aligned(numbers []string) []string {
	most := 0
	for _, s := range numbers {
		most = max(most, decimals(s))
	}
	out := make([]string, len(numbers))
	for i, s := range numbers {
		out[i] = s
		if n := decimals(s); n < most {
			if n == 0 {
				out[i] += pointSpace
			}
			out[i] += strings.Repeat(digitSpace, most-n)
		}
	}
	return out
}

func decimals(s string) int {
	_, rest, _ := strings.Cut(s, ".")
	return len(rest)
}

// float is money for a plot.
func float(m valuation.Money) float64 { return money.Float(m.Decimal) }

// percent is a chance in a column. What is possible is never 0%, and what is
// not certain never 100%.
func percent(s valuation.Share) string {
	p := 100 * float64(s)
	switch {
	case p > 0 && p <= 0.5:
		return "<1%"
	case p < 100 && p >= 99.5:
		return ">99%"
	}
	return fmt.Sprintf("%.0f%%", p)
}

// in100 is a chance in a sentence: "in 31 of 100".
func in100(s valuation.Share) string {
	p := 100 * float64(s)
	switch {
	case p <= 0:
		return "in none of 100"
	case p <= 0.5:
		return "in fewer than 1 of 100"
	case p >= 100:
		return "in all of 100"
	case p >= 99.5:
		return "in more than 99 of 100"
	}
	return fmt.Sprintf("in %.0f of 100", p)
}

// optional is a chance that may be unknown.
func optional(s *valuation.Share) string {
	if s == nil {
		return noFigure
	}
	return percent(*s)
}

// counted is a number with its noun, "1 part" or "2 parts".
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return grouped(fmt.Sprint(n)) + " " + many
}

// byWhat says in words what a finding rests on.
func byWhat(evidence string) string {
	switch evidence {
	case "hand":
		return "in the hand"
	case "track":
		return "on the track"
	case "photo":
		return "a photo"
	case "seller":
		return "the seller"
	case "hidden":
		return "not shown"
	}
	return clean(evidence)
}

// routeName says in words what a route is.
func routeName(id string) string {
	switch id {
	case "sell-restored":
		return "restore and sell"
	case "sell-running":
		return "get running and sell"
	case "sell-as-found":
		return "sell as found"
	case "part-out":
		return "sell in parts"
	case "keep":
		return "restore and keep"
	}
	return clean(id)
}

// whole is an estimate without decimals, or with two where it is small.
func whole(v float64) string {
	if math.Abs(v) < 10 {
		return grouped(fmt.Sprintf("%.2f", v+0))
	}
	return grouped(fmt.Sprintf("%.0f", v))
}

// tenth is a score out of 100, without decimals.
func tenth(t valuation.Tenth) string { return fmt.Sprintf("%.0f", float64(t)+0) }
