package prices

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// strd is a set of NIST's with its certified values.
type strd struct {
	N          int      `json:"n"`
	Terms      []string `json:"terms"` // 1, x, x^2 …, or x1, x2 … for several columns
	Coef       []string `json:"coef"`
	SE         []string `json:"se"`
	ResidualSD string   `json:"residual_sd"`
}

// certified reads a number of a reference file.
func certified(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// design is the regression of a set: the matrix of its terms, and y.
func (s strd) design(t *testing.T, name string) (*mat.Dense, []float64) {
	t.Helper()
	var x, y []float64
	for line := range strings.Lines(reference(t, "nist/"+name+".txt")) {
		cells := strings.Fields(line)
		y = append(y, certified(t, cells[0]))
		for _, term := range s.Terms {
			x = append(x, s.term(t, term, cells))
		}
	}
	if len(y) != s.N {
		t.Fatalf("%s has %d rows, not %d", name, len(y), s.N)
	}
	return mat.NewDense(len(y), len(s.Terms), x), y
}

// term is the value of a term in a row of cells. Powers are products, which are
// rounded once a factor.
func (s strd) term(t *testing.T, term string, cells []string) float64 {
	base, power, raised := strings.Cut(term, "^")
	switch {
	case term == "1":
		return 1
	case base == "x" && !raised:
		return certified(t, cells[1])
	case base != "x":
		return certified(t, cells[int(certified(t, strings.TrimPrefix(base, "x")))])
	}
	x, product := certified(t, cells[1]), 1.0
	for range int(certified(t, power)) {
		product *= x
	}
	return product
}

// digitsOf is the log relative error, the number of digits that agree; absolute
// where the certified value is 0.
func digitsOf(got, certified float64) float64 {
	off := math.Abs(got - certified)
	if certified != 0 {
		off /= math.Abs(certified)
	}
	return min(-math.Log10(off), 16)
}

// TestCertified holds least squares against the certified values of NIST's
// Statistical Reference Datasets: the digits that agree, in the worst of the
// coefficients and of the standard errors. The normal equations give 7 digits on
// Longley, Householder reflections 10 or more, so 10 tells them apart. For
// Wampler 4 and 5, where the residuals are far larger than what is fitted, more
// than 5 is not to be had with float64. The coefficients of Wampler 1 and 2 are
// fitted without residuals, so their errors are absolute. Filip's matrix has a
// condition of 1.8e15, against the 9e15 that float64 can tell from singular:
// many solvers refuse it.
func TestCertified(t *testing.T) {
	var file struct{ Sets map[string]strd }
	referenceJSON(t, "nist/certified.json", &file)
	least := map[string]struct{ coef, se float64 }{
		"Norris": {11, 11}, "Pontius": {11, 11}, "NoInt1": {13, 13}, "Longley": {10, 10},
		"Wampler1": {8, 7}, "Wampler2": {11, 11}, "Wampler3": {8, 10}, "Wampler4": {6, 10}, "Wampler5": {5, 10},
		"Filip": {6, 6},
	}
	for name, want := range least {
		s, known := file.Sets[name]
		if !known {
			t.Fatalf("no set %s", name)
		}
		x, y := s.design(t, name)
		got, err := leastSquares(x, y, nil)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		coef, se := 16.0, digitsOf(got.sigma, certified(t, s.ResidualSD))
		for j := range s.Terms {
			coef = min(coef, digitsOf(got.coef[j], certified(t, s.Coef[j])))
			se = min(se, digitsOf(got.se[j], certified(t, s.SE[j])))
		}
		t.Logf("%-8s %s", name, fmt.Sprintf("coefficients %4.1f digits, errors %4.1f", coef, se))
		if coef < want.coef || se < want.se || got.freedom != s.N-len(s.Terms) {
			t.Errorf("%s: %.1f and %.1f digits, want %v and %v; %d degrees of freedom", name, coef, se, want.coef, want.se, got.freedom)
		}
	}
}
