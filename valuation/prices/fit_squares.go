package prices

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// regression is a linear least-squares fit.
type regression struct {
	coef, se  []float64 // by column, and their standard errors; 0 without freedom
	sigma     float64   // standard deviation of a residual of weight 1
	freedom   int       // rows less columns
	residuals []float64 // not weighted
	leverage  []float64 // of each row, 0 to 1: how far it decides what is fitted for it
}

// leastSquares minimises Σ w·(y − x·b)², with the standard errors that follow
// from σ² = that sum over the degrees of freedom: rows are scaled by √w and x is
// factorised into QR by Householder reflections, which loses half the digits
// that the normal equations lose: Golub and Van Loan, Matrix Computations, 4th
// edition, 2013, ISBN 978-1-4214-0794-4, sections 5.3 and 6.1 (from memory). Nil weights are 1. x must have as
// many rows as columns or more, of full rank.
func leastSquares(x *mat.Dense, y, weights []float64) (regression, error) {
	rows, columns := x.Dims()
	scaled, right := mat.DenseCopyOf(x), mat.NewVecDense(rows, nil)
	for i := range rows {
		root := math.Sqrt(weight(weights, i))
		right.SetVec(i, root*y[i])
		for j := range columns {
			scaled.Set(i, j, root*x.At(i, j))
		}
	}
	var qr mat.QR
	qr.Factorize(scaled)
	var b mat.VecDense
	if err := qr.SolveVecTo(&b, false, right); err != nil {
		return regression{}, errors.New("fit: the terms depend on each other in all rows")
	}
	r := regression{coef: b.RawVector().Data, freedom: rows - columns, residuals: make([]float64, rows)}
	squares := 0.0
	var fitted mat.VecDense
	fitted.MulVec(x, &b)
	for i := range rows {
		r.residuals[i] = y[i] - fitted.AtVec(i)
		squares += float64(weight(weights, i) * float64(r.residuals[i]*r.residuals[i]))
	}
	if r.freedom > 0 {
		r.sigma = math.Sqrt(squares / float64(r.freedom))
	}
	inverse := inverseOfR(&qr, columns)
	r.se, r.leverage = make([]float64, columns), make([]float64, rows)
	for j := range columns {
		r.se[j] = r.sigma * mat.Norm(inverse.RowView(j), 2)
	}
	var q mat.VecDense
	for i := range rows {
		q.MulVec(inverse.T(), scaled.RowView(i))
		r.leverage[i] = mat.Dot(&q, &q)
	}
	return r, nil
}

// inverseOfR is R⁻¹. As (xᵀx)⁻¹ is R⁻¹R⁻ᵀ, the lengths of its rows are what the
// standard errors have beside σ; as xR⁻¹ is Q, it gives the leverages.
func inverseOfR(qr *mat.QR, columns int) *mat.Dense {
	var upper mat.Dense
	qr.RTo(&upper)
	r, inverse := mat.NewTriDense(columns, mat.Upper, nil), mat.NewTriDense(columns, mat.Upper, nil)
	for i := range columns {
		for j := i; j < columns; j++ {
			r.SetTri(i, j, upper.At(i, j))
		}
	}
	// An error says that R is nearly singular, which the solution has passed.
	_ = inverse.InverseTri(r)
	return mat.DenseCopyOf(inverse)
}

// What is not scored among the residuals.
const (
	// decided is the leverage above which a residual is 0 whatever the price: a
	// term that holds for one row fits it exactly.
	decided = 1 - 1e-6
	// noScatter is the σ below which residuals are rounding.
	noScatter = 1e-9
)

// setAside marks the rows whose residuals are odd among all, by the modified
// z-score that estimates use. A residual is first divided by √(1−leverage), since
// the fit bends towards a row that has little company: the internally studentized
// residual of Cook and Weisberg, Residuals and Influence in Regression, 1982,
// ISBN 0-412-24280-X, section 2.1 (from memory).
func (r regression) setAside(odd []bool) {
	if r.freedom < minScored || r.sigma < noScatter {
		return
	}
	var scored []float64
	var at []int
	for i, e := range r.residuals {
		if r.leverage[i] < decided {
			scored, at = append(scored, e/math.Sqrt(1-r.leverage[i])), append(at, i)
		}
	}
	for i, z := range ModifiedZ(scored) {
		odd[at[i]] = math.Abs(z) > maxZ
	}
}

// columnsOf is the matrix of some columns of x.
func columnsOf(x *mat.Dense, columns []int) *mat.Dense {
	rows, _ := x.Dims()
	of := mat.NewDense(rows, len(columns), nil)
	for j, column := range columns {
		of.SetCol(j, mat.Col(nil, column, x))
	}
	return of
}

// dependent is the part of a column, by length, that must be left when those
// before it are taken off, or it depends on them. Columns of zeros and ones leave
// either nothing but rounding or far more.
const dependent = 1e-9

// dependences are the columns of x that do not depend on those before them, and
// for each that does, the combination of columns that is 0 in all rows, with 1
// for itself. Columns are made orthogonal to those before by Gram and Schmidt's
// modified method, twice, which is enough: Giraud, Langou and Rozložník, The
// loss of orthogonality in the Gram-Schmidt orthogonalization process, Computers
// and Mathematics with Applications 50(7), 2005, doi 10.1016/j.camwa.2005.08.009
// (from memory). A factorisation
// would do this too, but only to the first dependent column: what rounding
// leaves of that looks like one more direction to it.
func dependences(x *mat.Dense) (kept []int, between [][]float64) {
	_, columns := x.Dims()
	var basis []*mat.VecDense
	for j := range columns {
		v := mat.VecDenseCopyOf(x.ColView(j))
		length := mat.Norm(v, 2)
		for range 2 {
			for _, q := range basis {
				v.AddScaledVec(v, -mat.Dot(q, v), q)
			}
		}
		if left := mat.Norm(v, 2); left > dependent*length {
			v.ScaleVec(1/left, v)
			basis, kept = append(basis, v), append(kept, j)
			continue
		}
		between = append(between, combination(x, kept, j))
	}
	return kept, between
}

// combination is how a column depends on others: the coefficients that make it
// and minus them 0 in all rows, those that are rounding taken as 0.
func combination(x *mat.Dense, others []int, column int) []float64 {
	rows, columns := x.Dims()
	of := make([]float64, columns)
	of[column] = 1
	if len(others) == 0 || rows < len(others) {
		return of
	}
	fit, err := leastSquares(columnsOf(x, others), mat.Col(nil, column, x), nil)
	if err != nil {
		return of
	}
	for i, other := range others {
		if c := fit.coef[i]; math.Abs(c) > math.Sqrt(dependent) {
			of[other] = -c
		}
	}
	return of
}
