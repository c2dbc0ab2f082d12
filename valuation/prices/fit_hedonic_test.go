package prices

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"gonum.org/v1/gonum/mat"
)

// hedonic is a regression of made-up sales, as fitted by lm() of R 4.2.2.
type hedonic struct {
	Name string
	Rows struct {
		Price                        []float64
		Era                          []string
		Boxed, Grade, Months, Weight []float64
	}
	Terms     []string
	Coef, SE  []float64
	Sigma     float64
	Freedom   int `json:"df_residual"`
	Residuals []float64
	Leverage  []float64
	New       struct {
		Era                  []string
		Boxed, Grade, Months []float64
		Fit                  []float64 `json:"log_fit"`
		PredictionLow        []float64 `json:"prediction_90_lower"`
		PredictionHigh       []float64 `json:"prediction_90_upper"`
		ConfidenceLow        []float64 `json:"confidence_90_lower"`
		ConfidenceHigh       []float64 `json:"confidence_90_upper"`
	} `json:"new_points"`
	Percent struct {
		Term    []string
		Factors []float64 `json:"halvorsen_palmquist"`
	} `json:"dummy_percent"`
}

// readHedonic reads the fits, the last of which has another shape: it is the
// dummy trap.
func readHedonic(t *testing.T) (fits []hedonic, trap dummyTrap) {
	t.Helper()
	var file struct{ Fits []hedonic }
	referenceJSON(t, "hedonic.json", &file)
	var traps struct{ Fits []dummyTrap }
	referenceJSON(t, "hedonic.json", &traps)
	last := len(file.Fits) - 1
	if last < 1 || traps.Fits[last].Name != "dummy_trap" {
		t.Fatalf("%d fits", last+1)
	}
	return file.Fits[:last], traps.Fits[last]
}

// dummyTrap is a constant and dummies for all eras, rank 4 of 5.
type dummyTrap struct {
	Name          string
	Price, Boxed  []float64
	Mid           []float64 `json:"is_mid"`
	Early         []float64 `json:"is_early"`
	Late          []float64 `json:"is_late"`
	Rank, Columns int
	Fitted        []float64 `json:"fitted_log"`
	Sigma         float64
	CoefDropsLast []*float64 `json:"coef_r_drops_last"`
}

// is is 1 for true.
func is(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// design is the matrix of the terms. Columns are taken from an origin, so that
// the constant is what is fitted there.
func (h hedonic) design(origin [5]float64) (*mat.Dense, []float64) {
	var x, y []float64
	for i, price := range h.Rows.Price {
		row := [5]float64{is(h.Rows.Era[i] == "early"), is(h.Rows.Era[i] == "late"), h.Rows.Boxed[i], h.Rows.Grade[i], h.Rows.Months[i]}
		x = append(x, 1)
		for j, v := range row {
			x = append(x, v-origin[j])
		}
		y = append(y, math.Log(price))
	}
	return mat.NewDense(len(y), 6, x), y
}

// Ordinary and weighted fits agree with R's to ten digits.
func TestHedonic(t *testing.T) {
	fits, _ := readHedonic(t)
	for _, h := range fits {
		x, y := h.design([5]float64{})
		got, err := leastSquares(x, y, h.Rows.Weight)
		if err != nil {
			t.Fatal(err)
		}
		want := regression{h.Coef, h.SE, h.Sigma, h.Freedom, h.Residuals, h.Leverage}
		if diff := cmp.Diff(want, got, cmp.AllowUnexported(regression{}), cmpopts.EquateApprox(1e-10, 1e-12)); diff != "" {
			t.Errorf("%s (-R +got):\n%s", h.Name, diff)
		}
		if kept, between := dependences(x); len(kept) != 6 || len(between) != 0 {
			t.Errorf("%s: columns kept %v", h.Name, kept)
		}
	}
}

// The limits for new sales: with the columns taken from the new point, the
// constant is its fit, and its standard error that of the fit there.
func TestHedonicLimits(t *testing.T) {
	fits, _ := readHedonic(t)
	for _, h := range fits {
		for i, era := range h.New.Era {
			x, y := h.design([5]float64{is(era == "early"), is(era == "late"), h.New.Boxed[i], h.New.Grade[i], h.New.Months[i]})
			got, err := leastSquares(x, y, h.Rows.Weight)
			if err != nil {
				t.Fatal(err)
			}
			b, quantile := got.coef[0], studentQuantile(float64(got.freedom), 0.95)
			confidence := quantile * got.se[0]
			prediction := quantile * math.Hypot(got.se[0], got.sigma)
			near(t, "fit", b, h.New.Fit[i], 1e-10)
			near(t, "low confidence limit", b-confidence, h.New.ConfidenceLow[i], 1e-10)
			near(t, "high confidence limit", b+confidence, h.New.ConfidenceHigh[i], 1e-10)
			near(t, "low prediction limit", b-prediction, h.New.PredictionLow[i], 1e-10)
			near(t, "high prediction limit", b+prediction, h.New.PredictionHigh[i], 1e-10)
		}
	}
}

// A constant and dummies for all eras depend on each other: it is seen, the rest
// is fitted, and what is fitted for the rows is what R fits without the last.
func TestDummyTrap(t *testing.T) {
	_, trap := readHedonic(t)
	n := len(trap.Price)
	x, y := mat.NewDense(n, trap.Columns, nil), make([]float64, n)
	for i, price := range trap.Price {
		x.SetRow(i, []float64{1, trap.Boxed[i], trap.Mid[i], trap.Early[i], trap.Late[i]})
		y[i] = math.Log(price)
	}
	kept, between := dependences(x)
	if diff := cmp.Diff([]int{0, 1, 2, 3}, kept); diff != "" || len(kept) != trap.Rank {
		t.Errorf("columns kept: %v", kept)
	}
	if diff := cmp.Diff([][]float64{{-1, 0, 1, 1, 1}}, between, cmpopts.EquateApprox(0, 1e-12)); diff != "" {
		t.Errorf("dependences: %s", diff)
	}
	got, err := leastSquares(columnsOf(x, kept), y, nil)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "sigma", got.sigma, trap.Sigma, 1e-12)
	for i, j := range kept {
		near(t, "coefficient", got.coef[i], *trap.CoefDropsLast[j], 1e-12)
	}
	for i, r := range got.residuals {
		near(t, "fitted", y[i]-r, trap.Fitted[i], 1e-12)
	}
	if trap.CoefDropsLast[4] != nil {
		t.Error("the reference has a coefficient for the last column")
	}
}

// The same through FitTerms: boxed is known, the eras are not, and say why.
func TestDummyTrapTerms(t *testing.T) {
	_, trap := readHedonic(t)
	var rows []FitRow
	for i, price := range trap.Price {
		row := FitRow{Log: math.Log(price), Weight: 1}
		for term, holds := range []float64{trap.Boxed[i], trap.Mid[i], trap.Early[i], trap.Late[i]} {
			if holds == 1 {
				row.Terms = append(row.Terms, term)
			}
		}
		rows = append(rows, row)
	}
	fit := fitOf(t, rows, "boxed", "mid", "early", "late")
	want := []string{
		"boxed of 2 rows", "mid of 8 rows is , early, late", "early of 2 rows is , mid, late", "late of 2 rows is , mid, early"}
	var got []string
	for _, term := range fit.Terms {
		line := strings.TrimSuffix(term.Name+" of "+itoa(term.Rows)+" rows is "+strings.Join(term.Alias, ", "), " is ")
		if term.Known != (len(term.Alias) == 0) || !term.Known && term.Factor != 0 {
			t.Errorf("%+v", term)
		}
		got = append(got, line)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	near(t, "boxed", fit.Terms[0].Factor, math.Exp(0.2685235452716301), 1e-7)
	near(t, "spread", fit.Spread, trap.Sigma, 1e-12)
}

// Dummies alone: factors are 1 + Halvorsen and Palmquist's percentages, with the
// limits of R's confint, where the regression has nothing but dummies. Here it
// is held against least squares over the same columns.
func TestTermsAreFactors(t *testing.T) {
	fits, _ := readHedonic(t)
	for _, h := range fits {
		var rows []FitRow
		var x []float64
		for i, price := range h.Rows.Price {
			row := FitRow{Log: math.Log(price), Weight: h.Rows.Weight[i]}
			holds := []bool{h.Rows.Era[i] == "early", h.Rows.Era[i] == "late", h.Rows.Boxed[i] == 1, h.Rows.Grade[i] >= 8}
			x = append(x, 1)
			for term, does := range holds {
				if x = append(x, is(does)); does {
					row.Terms = append(row.Terms, term)
				}
			}
			rows = append(rows, row)
		}
		fit := fitOf(t, rows, "early", "late", "boxed", "fine")
		var y, weights, kept []float64
		for i, r := range rows {
			if !fit.SetAside[i] {
				y, weights, kept = append(y, r.Log), append(weights, r.Weight), append(kept, x[5*i:5*i+5]...)
			}
		}
		want, err := leastSquares(mat.NewDense(len(y), 5, kept), y, weights)
		if err != nil {
			t.Fatal(err)
		}
		if fit.Freedom != want.freedom || fit.Rows != len(y) || fit.Rows < len(rows)-1 {
			t.Fatalf("%s: %d rows of %d, %d degrees of freedom", h.Name, fit.Rows, len(rows), fit.Freedom)
		}
		near(t, "spread", fit.Spread, want.sigma, 1e-12)
		half := studentQuantile(float64(want.freedom), 0.95)
		for i, term := range fit.Terms {
			b, se := want.coef[i+1], want.se[i+1]
			near(t, term.Name, term.Factor, math.Exp(b), 2e-7)
			near(t, term.Name+" low", term.Low, math.Exp(b-half*se), 2e-7)
			near(t, term.Name+" high", term.High, math.Exp(b+half*se), 2e-7)
		}
	}
	// And the percentages of the reference are those of its coefficients.
	for _, h := range fits {
		for i, percent := range h.Percent.Factors {
			near(t, h.Percent.Term[i], 100*(exp(h.Coef[i+1])-1), percent, 1e-10)
		}
	}
}
