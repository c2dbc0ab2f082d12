package prices

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// FitRow is one observation of a [Fit].
type FitRow struct {
	Log    float64 // logarithm of the price
	Weight float64 // above 0
	Terms  []int   // which of the terms hold for it
}

// Fit is a regression of the logarithm of a price on a constant and on terms
// that hold for a row or do not, so each term multiplies the price.
type Fit struct {
	Terms    []Term  // as given
	Rows     int     // that it rests on
	Freedom  int     // rows less what was fitted; 0: no term is known
	Spread   float64 // standard deviation of the logarithm about the fit, of a row of weight 1
	SetAside []bool  // of the rows, as given
}

// Term is what a term multiplies a price by.
type Term struct {
	Name              string
	Rows              int      // that it holds for and that were not set aside
	Known             bool     // false: the rows do not tell it, and the figures are 0
	Factor, Low, High float64  // estimate and 90% interval
	Alias             []string // other terms that the rows do not tell it from; [Constant] is all rows
}

// Constant is the name of the constant among the terms that a term cannot be
// told from: a term that holds for all rows, or several of which one always
// does.
const Constant = ""

// fitConfidence is that of the intervals, two-sided.
const fitConfidence = 0.9

// FitTerms fits terms to rows: a hedonic regression on dummies, by weighted
// least squares. The factor of a term is exp(b), the ratio of the medians
// (Halvorsen and Palmquist, The Interpretation of Dummy Variables in
// Semilogarithmic Equations, American Economic Review 70(3), 1980, pp. 474-475, from
// memory),
// and its interval that of Student's t for b, exponentiated: what is asked is
// what a price is divided by, so Kennedy's correction for the mean (American Economic Review
// 71(4), 1981, p. 801, from memory) is not made.
//
// Weights say how much a row counts, as in [Belief]; they do not make it more
// exact, so Freedom counts rows. A row that is odd among all is set aside, as in
// estimates, and the fit made once more.
//
// Terms that depend on each other in all rows, such as two that always come
// together, are not known, and say which others they cannot be told from. Those
// that do not are fitted all the same.
//
// Equal input gives figures that agree to ten digits and more between platforms.
// They are not equal to the last digit: the factorisation adds up in the order
// that suits the processor.
func FitTerms(rows []FitRow, terms []string) (*Fit, error) {
	if err := checkFit(rows, len(terms)); err != nil {
		return nil, err
	}
	fit := &Fit{SetAside: make([]bool, len(rows))}
	first, err := newDesign(rows, terms, fit.SetAside).solve()
	if err != nil {
		return nil, err
	}
	first.setAside(fit.SetAside)
	d := newDesign(rows, terms, fit.SetAside)
	last, err := d.solve()
	if err != nil {
		return nil, err
	}
	fit.Rows, fit.Freedom, fit.Spread = len(last.residuals), last.freedom, last.sigma
	fit.Terms = d.terms(last)
	return fit, nil
}

// checkFit refuses rows that are no observations.
func checkFit(rows []FitRow, terms int) error {
	if len(rows) == 0 {
		return errors.New("fit: no rows")
	}
	for i, r := range rows {
		switch {
		case math.IsNaN(r.Log) || math.IsInf(r.Log, 0):
			return fmt.Errorf("fit: row %d has no price", i+1)
		case !(r.Weight > 0) || math.IsInf(r.Weight, 1):
			return fmt.Errorf("fit: row %d has a weight of %v, which is not above 0", i+1, r.Weight)
		}
		for _, t := range r.Terms {
			if t < 0 || t >= terms {
				return fmt.Errorf("fit: row %d has term %d of %d", i+1, t+1, terms)
			}
		}
	}
	return nil
}

// design is the regression of some rows: column 0 of x is the constant, column
// j+1 is term j.
type design struct {
	names   []string
	x       *mat.Dense
	y, w    []float64
	kept    []int       // columns fitted
	between [][]float64 // dependences: combinations of columns that are 0 in all rows
}

// newDesign is the design of the rows that are not set aside.
func newDesign(rows []FitRow, terms []string, setAside []bool) *design {
	d := &design{names: append([]string{Constant}, terms...)}
	var data []float64
	for i, r := range rows {
		if setAside[i] {
			continue
		}
		at := len(data)
		data = append(data, make([]float64, len(d.names))...)
		data[at] = 1
		for _, t := range r.Terms {
			data[at+1+t] = 1
		}
		d.y, d.w = append(d.y, r.Log), append(d.w, r.Weight)
	}
	d.x = mat.NewDense(len(d.y), len(d.names), data)
	d.kept, d.between = dependences(d.x)
	return d
}

// solve fits the columns that do not depend on those before them.
func (d *design) solve() (regression, error) {
	return leastSquares(columnsOf(d.x, d.kept), d.y, d.w)
}

// terms are the factors of a solution.
func (d *design) terms(r regression) []Term {
	t := 0.0
	if r.freedom > 0 {
		t = studentQuantile(float64(r.freedom), (1+fitConfidence)/2)
	}
	factor := func(log float64) float64 { return round(exp(round(log, logPlaces)), pricePlaces) }
	terms := make([]Term, len(d.names)-1)
	for j := range terms {
		terms[j] = Term{Name: d.names[j+1], Rows: int(mat.Sum(d.x.ColView(j + 1))), Alias: d.aliases(j + 1)}
	}
	for i, column := range d.kept {
		if column == 0 || r.freedom == 0 || d.depends(column) {
			continue
		}
		b, half := r.coef[i], float64(t*r.se[i])
		term := &terms[column-1]
		term.Known, term.Factor, term.Low, term.High = true, factor(b), factor(b-half), factor(b+half)
	}
	return terms
}

// depends reports whether a column is part of a dependence.
func (d *design) depends(column int) bool {
	return slices.ContainsFunc(d.between, func(combination []float64) bool { return combination[column] != 0 })
}

// aliases are the other columns that a column depends on: those of its
// dependences, and of others that share a term with them, but not the constant
// alone, which would join what has nothing in common.
func (d *design) aliases(column int) []string {
	joined := make([]bool, len(d.names))
	joined[column] = true
	for grown := true; grown; {
		grown = false
		for _, combination := range d.between {
			grown = join(joined, combination) || grown
		}
	}
	var names []string
	for other, name := range d.names {
		if joined[other] && other != column {
			names = append(names, name)
		}
	}
	return names
}

// join adds the columns of a combination that has a term among those joined;
// false if there is nothing to add.
func join(joined []bool, combination []float64) (grown bool) {
	shares := false
	for j, c := range combination[1:] {
		shares = shares || c != 0 && joined[j+1]
	}
	for j, c := range combination {
		if shares && c != 0 && !joined[j] {
			joined[j], grown = true, true
		}
	}
	return grown
}
