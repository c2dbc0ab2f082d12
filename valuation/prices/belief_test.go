package prices

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"
)

// testdata/reference/conjugate.json: posteriors in closed form (variant
// "power": an observation counts as often as its weight), checked there against
// two-dimensional quadrature by mpmath 1.2.1; predictive quantiles by SciPy
// 1.10.1. midge_wing_length is the example of Hoff, A First Course in Bayesian
// Statistical Methods, 2009, section 5.3.
type conjugateReference struct {
	Vectors []struct {
		Name       string
		Prior      struct{ Mu0, Kappa0, Alpha0, Beta0 float64 }
		X, Weights []float64
		Power      struct {
			Posterior  Belief
			Predictive struct {
				DF, Loc, Scale float64
				Quantiles      map[string]float64
				PriceQuantiles map[string]float64 `json:"price_quantiles"`
			}
		}
	}
	Newcomb struct {
		N        float64
		Mean, SD float64
		Interval []float64 `json:"interval_95"`
	} `json:"newcomb_speed_of_light"`
	Student struct {
		Tails      []float64 `json:"upper_tails"`
		Integer    []tRow    `json:"integer_df"`
		Fractional []tRow    `json:"fractional_df"`
	} `json:"student_t"`
}

type tRow struct {
	DF    float64
	Upper []float64
}

func readConjugate(t *testing.T) conjugateReference {
	t.Helper()
	var ref conjugateReference
	referenceJSON(t, "conjugate.json", &ref)
	if len(ref.Vectors) != 8 {
		t.Fatalf("%d vectors", len(ref.Vectors))
	}
	return ref
}

func nearBelief(t *testing.T, what string, got, want Belief, tolerance float64) {
	t.Helper()
	near(t, what+": mu", got.Mu, want.Mu, tolerance)
	near(t, what+": kappa", got.Kappa, want.Kappa, tolerance)
	near(t, what+": alpha", got.Alpha, want.Alpha, tolerance)
	near(t, what+": beta", got.Beta, want.Beta, tolerance)
}

// The quantiles of the vectors are good to nine digits: the 0.95 one of
// prior_only, four degrees of freedom, is off the closed form 1/2 + 3/4·(x −
// x³/3), x = t/√(4+t²), by 3e-10 in probability. Ours is held against 30-digit
// values in TestStudentQuantileTable.
const quantileTolerance = 5e-9

func TestUpdateReference(t *testing.T) {
	for _, v := range readConjugate(t).Vectors {
		prior := Belief{v.Prior.Mu0, v.Prior.Kappa0, v.Prior.Alpha0, v.Prior.Beta0}
		got := prior.Update(v.X, v.Weights)
		nearBelief(t, v.Name, got, v.Power.Posterior, 1e-13)
		want, predictive := v.Power.Predictive, got.Predictive()
		near(t, v.Name+": df", predictive.Freedom, want.DF, 1e-13)
		near(t, v.Name+": location", predictive.Mu, want.Loc, 1e-13)
		near(t, v.Name+": scale", predictive.Scale, want.Scale, 1e-13)
		for p, q := range want.Quantiles {
			near(t, v.Name+": quantile "+p, predictive.Quantile(number(t, p)), q, quantileTolerance)
		}
		for p, q := range want.PriceQuantiles {
			near(t, v.Name+": price "+p, exp(predictive.Quantile(number(t, p))), q, quantileTolerance)
		}
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Newcomb's measurements of the speed of light, Gelman and others, Bayesian
// Data Analysis, section 3.2: with a prior that says nothing, alpha -1/2 and
// beta 0, the mean lies in the interval that the book prints as 23.6 to 28.8.
func TestUpdateNewcomb(t *testing.T) {
	ref := readConjugate(t).Newcomb
	// Two halves at mean ± d have the mean and the sum of squares of the data.
	half := math.Sqrt((ref.N - 1) / ref.N * ref.SD * ref.SD)
	y, weights := []float64{ref.Mean - half, ref.Mean + half}, []float64{ref.N / 2, ref.N / 2}
	got := Belief{Alpha: -0.5}.Update(y, weights)
	mean := Student{Freedom: 2 * got.Alpha, Mu: got.Mu, Scale: math.Sqrt(got.Beta / (got.Alpha * got.Kappa))}
	near(t, "lower", mean.Quantile(0.025), ref.Interval[0], 1e-5)
	near(t, "upper", mean.Quantile(0.975), ref.Interval[1], 1e-5)
}

// randomSample is a belief and weighted observations.
func randomSample(random *rand.Rand) (b Belief, y, weights []float64) {
	b = Belief{random.NormFloat64(), float64(random.IntN(2)), 0.5 + 5*random.Float64(), 0.01 + random.Float64()}
	for range 1 + random.IntN(20) {
		y, weights = append(y, 4+random.NormFloat64()), append(weights, random.Float64())
	}
	return b, y, weights
}

// One price after the other, or in two heaps, gives the same update as all at
// once; a weight of two is two observations; weights of one are no weights.
func TestUpdateLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for range 500 {
		prior, y, weights := randomSample(random)
		at := random.IntN(len(y))
		want, ones, twos := prior.Update(y, weights), make([]float64, len(y)), make([]float64, len(y))
		single := prior
		for i := range y {
			single = single.Update(y[i:i+1], weights[i:i+1])
			ones[i], twos[i] = 1, 2
		}
		nearBelief(t, "one at a time", single, want, 1e-11)
		nearBelief(t, "two heaps", prior.Update(y[:at], weights[:at]).Update(y[at:], weights[at:]), want, 1e-11)
		nearBelief(t, "weights of one", prior.Update(y, ones), prior.Update(y, nil), 0)
		nearBelief(t, "weights of two", prior.Update(y, twos), prior.Update(append(y[:len(y):len(y)], y...), nil), 1e-12)
	}
}

// Without any weight nothing is learnt.
func TestUpdateNothing(t *testing.T) {
	for _, prior := range []Belief{{3, 1, 5, 0.25}, {0, 0, 5, 0.25}} {
		nearBelief(t, "no observation", prior.Update(nil, nil), prior, 0)
		nearBelief(t, "no weight", prior.Update([]float64{1, 2}, []float64{0, 0}), prior, 0)
	}
	if s := (Belief{0, 0, 5, 0.25}).Predictive(); !math.IsInf(s.Scale, 1) {
		t.Errorf("a belief without location predicts with scale %v", s.Scale)
	}
}
