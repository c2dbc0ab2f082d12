package table

import (
	"math"
	"strconv"
	"strings"
)

// odds are a chance against its contrary, to one: "1.56" for 61%.
func odds(p float64) string {
	switch {
	case p <= 0:
		return "never"
	case p >= 1:
		return "certain"
	}
	return digits(p / (1 - p))
}

// factor is what odds were multiplied by: "x 0.0132". What ruled an answer out
// has the factor nothing, what settled it no finite one.
func factor(f float64) string {
	switch {
	case f == 0:
		return "rules out"
	case math.IsInf(f, 1):
		return "settles"
	}
	return "x " + digits(f)
}

// digits is a positive number with three digits that count, never with an
// exponent, so that what is printed can be multiplied out.
func digits(f float64) string {
	short := strconv.FormatFloat(f, 'e', 2, 64) // "5.70e+01"
	_, power, _ := strings.Cut(short, "e")
	exponent, err := strconv.Atoi(power)
	if err != nil {
		return short // not finite
	}
	rounded, _ := strconv.ParseFloat(short, 64) // just written
	return strconv.FormatFloat(rounded, 'f', min(max(2-exponent, 0), 12), 64)
}

// product multiplies factors up.
func product(fs []float64) float64 {
	p := 1.0
	for _, f := range fs {
		p *= f
	}
	return p
}

// total adds chances up.
func total(ps []float64) float64 {
	sum := 0.0
	for _, p := range ps {
		sum += p
	}
	return sum
}

// headLines breaks a column's head into lines of at most most characters.
func headLines(s string, most int) string { return strings.Join(wrap(s, most), "\n") }
