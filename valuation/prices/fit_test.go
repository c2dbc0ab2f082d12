package prices

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"gonum.org/v1/gonum/mat"
)

func itoa(n int) string { return strconv.Itoa(n) }

// fitOf fits rows that can be fitted.
func fitOf(t testing.TB, rows []FitRow, terms ...string) *Fit {
	t.Helper()
	fit, err := FitTerms(rows, terms)
	if err != nil {
		t.Fatal(err)
	}
	return fit
}

// soldRows are n rows with random terms, each with a chance of its own, and prices
// of which the logarithm is 3, the logarithms of the factors and noise.
func soldRows(random *rand.Rand, n int, factors []float64, noise float64) []FitRow {
	rows := make([]FitRow, n)
	for i := range rows {
		rows[i] = FitRow{Log: 3 + noise*random.NormFloat64(), Weight: 1}
		for term, factor := range factors {
			if random.IntN(term+2) == 0 {
				rows[i].Terms = append(rows[i].Terms, term)
				rows[i].Log += math.Log(factor)
			}
		}
	}
	return rows
}

// Without noise the factors come out as they were put in, with weights or not.
func TestFitExact(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 10))
	factors := []float64{0.5, 0.8, 1.25, 0.01}
	for range 50 {
		rows := soldRows(random, 40, factors, 0)
		for i := range rows {
			rows[i].Weight = math.Exp2(-10 * random.Float64())
		}
		fit := fitOf(t, rows, "a", "b", "c", "d")
		for i, term := range fit.Terms {
			near(t, term.Name, term.Factor, factors[i], 1e-7)
			if !term.Known || term.High-term.Low > 1e-6 || len(term.Alias) > 0 {
				t.Errorf("%+v", term)
			}
		}
	}
}

// The interval of 90% holds the true factor in 90% of samples.
func TestFitCoverage(t *testing.T) {
	const samples = 1500
	random := rand.New(rand.NewPCG(4, 11))
	factors := []float64{0.5, 0.8, 1.25}
	held := make([]int, len(factors))
	for range samples {
		fit := fitOf(t, soldRows(random, 14, factors, 0.2), "a", "b", "c")
		for i, term := range fit.Terms {
			if !term.Known || term.Low <= factors[i] && factors[i] <= term.High {
				held[i]++
			}
		}
	}
	for i, n := range held {
		// Setting odd rows aside makes intervals a little shorter than they say.
		share := float64(n) / samples
		if share < 0.86 || share > 0.93 {
			t.Errorf("the interval of term %d holds the factor in %.1f%% of samples", i, 100*share)
		}
	}
}

// Rows in another order, with all weights scaled, or with a term that never
// holds, give the same fit; a row of weight 2 the factors of two rows.
func TestFitLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 12))
	about := cmp.Options{cmpopts.EquateApprox(1e-9, 1e-9), cmpopts.IgnoreFields(Fit{}, "SetAside", "Spread"), cmpopts.EquateEmpty()}
	for range 100 {
		rows := soldRows(random, 25, []float64{0.5, 0.8, 1.25}, 0.2)
		for i := range rows {
			rows[i].Weight = 0.1 + random.Float64()
		}
		names := []string{"a", "b", "c"}
		want := fitOf(t, rows, names...)
		shuffled := slices.Clone(rows)
		random.Shuffle(len(rows), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		scaled := slices.Clone(rows)
		for i := range scaled {
			scaled[i].Weight *= 7
		}
		for law, got := range map[string]*Fit{"order": fitOf(t, shuffled, names...), "scale": fitOf(t, scaled, names...)} {
			if diff := cmp.Diff(want, got, about); diff != "" {
				t.Errorf("%s: %s", law, diff)
			}
		}
		more := fitOf(t, rows, "a", "b", "c", "never")
		if diff := cmp.Diff(want.Terms, more.Terms[:3], about); diff != "" || more.Terms[3].Known || more.Terms[3].Rows != 0 || len(more.Terms[3].Alias) > 0 {
			t.Errorf("a term that never holds: %+v %s", more.Terms[3], diff)
		}
		doubled := append(slices.Clone(rows), rows[0])
		rows[0].Weight *= 2
		twice, once := fitOf(t, doubled, names...), fitOf(t, rows, names...)
		for i := range twice.Terms {
			if twice.SetAside[0] == once.SetAside[0] && twice.Rows-once.Rows == 1 {
				near(t, "factor of two rows", once.Terms[i].Factor, twice.Terms[i].Factor, 1e-7)
			}
		}
	}
}

// What depends on what: the terms of each row, by name, and what is said.
func TestFitAliases(t *testing.T) {
	for _, c := range []struct{ name, rows, want string }{
		{"nothing", "a, b, a b, , a, b", "a; b"},
		{"always together", "a b, a b, c, c, , ", "a is b; b is a; c"},
		{"in all rows", "a, a, a b, a b", "a is constant; b"},
		{"one or the other", "a, a, b, b, a c, b c", "a is constant b; b is constant a; c"},
		{"one, the other or a third", "a, b, c, a, b, c d, a d", "a is constant b c; b is constant a c; c is constant a b; d"},
		{"both make a third", "a c, b c, a c, b c, , ", "a is b c; b is a c; c is a b"},
		{"two pairs of which one always holds", "a, b, a c, b d, a d, b c", "a is constant b; b is constant a; c; d"},
		{"two dependences", "a b, a b, c d, c d, , ", "a is b; b is a; c is d; d is c"},
		{"two that share a term", "a b c, a b c, , ", "a is b c; b is a c; c is a b"},
		{"one row each", "a, b, ", "none: no freedom"},
		{"more terms than rows", "a, a b", "none: no freedom"},
	} {
		t.Run(c.name, func(t *testing.T) {
			names := []string{"a", "b", "c", "d"}
			used := 0
			var rows []FitRow
			for i, text := range strings.Split(c.rows, ",") {
				row := FitRow{Log: float64(i*i%5) / 10, Weight: 1}
				for name := range strings.FieldsSeq(text) {
					row.Terms = append(row.Terms, slices.Index(names, name))
					used = max(used, slices.Index(names, name)+1)
				}
				rows = append(rows, row)
			}
			fit := fitOf(t, rows, names[:used]...)
			if got := aliasesOf(fit); got != c.want {
				t.Errorf("%s, want %s", got, c.want)
			}
		})
	}
}

// aliasesOf says which terms are known, and what the others are not told from.
func aliasesOf(fit *Fit) string {
	if fit.Freedom == 0 {
		for _, term := range fit.Terms {
			if term.Known {
				return term.Name + " is known without freedom"
			}
		}
		return "none: no freedom"
	}
	var lines []string
	for _, term := range fit.Terms {
		line := term.Name
		if !term.Known {
			line += " is"
			for _, name := range term.Alias {
				line += " " + orElse(name, "constant")
			}
		}
		if term.Known != (term.Factor != 0 && term.Low <= term.Factor && term.Factor <= term.High) {
			line += fmt.Sprintf(" %+v", term)
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "; ")
}

// orElse is the name, or another where it is empty.
func orElse(name, other string) string {
	if name == "" {
		return other
	}
	return name
}

// Dependences are exactly the ways to make 0: their combinations are 0 in all
// rows, and as many as rank is missing, on random terms with known dependences.
func TestDependences(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 13))
	for range 300 {
		rows, columns := 6+random.IntN(20), 2+random.IntN(7)
		x := mat.NewDense(rows, columns, nil)
		for i := range rows {
			for j := range columns {
				x.Set(i, j, float64(random.IntN(2)))
			}
		}
		if columns > 3 { // a sum and a copy
			for i := range rows {
				x.Set(i, columns-1, x.At(i, 0)+x.At(i, 1))
				x.Set(i, columns-2, x.At(i, 0))
			}
		}
		kept, between := dependences(x)
		var svd mat.SVD
		svd.Factorize(x, mat.SVDNone)
		if rank := svd.Rank(1e-10); rank != len(kept) || len(kept)+len(between) != columns {
			t.Fatalf("%d columns kept of %d, rank %d", len(kept), columns, rank)
		}
		for _, combination := range between {
			var zero mat.VecDense
			zero.MulVec(x, mat.NewVecDense(columns, combination))
			if mat.Norm(&zero, 2) > 1e-10 {
				t.Fatalf("%v makes %v", combination, zero.RawVector().Data)
			}
		}
	}
}

// One price with a slip in it is set aside, and the rest fitted as without it.
func TestFitSetsAside(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 14))
	rows := soldRows(random, 30, []float64{0.5, 0.8}, 0.05)
	want := fitOf(t, rows, "a", "b")
	if slices.Contains(want.SetAside, true) {
		t.Fatal("a row of the sample is odd by itself")
	}
	slip := slices.Insert(slices.Clone(rows), 7, FitRow{Log: 3 + math.Log(10), Weight: 1, Terms: []int{0}})
	got := fitOf(t, slip, "a", "b")
	if !got.SetAside[7] || slices.Contains(got.SetAside[:7], true) || slices.Contains(got.SetAside[8:], true) || got.Rows != 30 {
		t.Errorf("set aside: %v", got.SetAside)
	}
	if diff := cmp.Diff(want, got, cmpopts.IgnoreFields(Fit{}, "SetAside")); diff != "" {
		t.Error(diff)
	}
	// With four degrees of freedom nothing is called odd, with five it is.
	logs := []float64{3, 3.01, 3.02, 3.03, 30, 3.04}
	for n, want := range map[int]bool{5: false, 6: true} {
		var few []FitRow
		for _, log := range logs[:n] {
			few = append(few, FitRow{Log: log, Weight: 1})
		}
		if fit := fitOf(t, few); fit.SetAside[4] != want {
			t.Errorf("of %d rows %v are set aside", n, fit.SetAside)
		}
	}
}

// A slip in one of two rows that share a term drags the fit half of the way to
// it, and is found by that: of the residuals alone it would not be odd.
func TestFitLeverage(t *testing.T) {
	rows := []FitRow{{Log: 2, Weight: 1, Terms: []int{0}}, {Log: 2.9, Weight: 1, Terms: []int{0}}}
	for i := range 20 {
		rows = append(rows, FitRow{Log: 3 + float64(i%5-2)*0.1, Weight: 1})
	}
	fit := fitOf(t, rows, "a")
	x := mat.NewDense(len(rows), 2, nil)
	var y []float64
	for i, r := range rows {
		x.SetRow(i, []float64{1, is(len(r.Terms) > 0)})
		y = append(y, r.Log)
	}
	plain, err := leastSquares(x, y, nil)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "leverage", plain.leverage[0], 0.5, 1e-12)
	if z := ModifiedZ(plain.residuals); !(math.Abs(z[0]) < maxZ) || !fit.SetAside[0] || !fit.SetAside[1] {
		t.Errorf("z by the residual is %v; set aside: %v", z[:2], fit.SetAside[:2])
	}
}

// Terms that hold for one row each are fitted to it, which leaves nothing there;
// that makes no other row odd.
func TestFitLonelyTerms(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 17))
	var names []string
	rows := soldRows(random, 24, nil, 0.1)
	for i := range 14 {
		names = append(names, fmt.Sprint(i))
		rows[i].Terms = []int{i}
	}
	fit := fitOf(t, rows, names...)
	if slices.Contains(fit.SetAside, true) || fit.Freedom != 9 {
		t.Errorf("set aside: %v", fit.SetAside)
	}
	if spread := fit.Spread; spread < 0.05 || spread > 0.15 {
		t.Errorf("the spread is %v", spread)
	}
}

// Rows that are no observations are refused.
func TestFitRefuses(t *testing.T) {
	good := FitRow{Log: 1, Weight: 1}
	for want, rows := range map[string][]FitRow{
		"fit: no rows":            nil,
		"fit: row 2 has no price": {good, {Log: math.NaN(), Weight: 1}},
		"fit: row 1 has no price": {{Log: math.Inf(-1), Weight: 1}},
		"fit: row 1 has a weight of 0, which is not above 0":    {{Log: 1}},
		"fit: row 1 has a weight of +Inf, which is not above 0": {{Log: 1, Weight: math.Inf(1)}},
		"fit: row 1 has a weight of NaN, which is not above 0":  {{Log: 1, Weight: math.NaN()}},
		"fit: row 2 has term 2 of 1":                            {good, {Log: 1, Weight: 1, Terms: []int{1}}},
		"fit: row 1 has term 0 of 1":                            {{Log: 1, Weight: 1, Terms: []int{-1}}},
	} {
		if fit, err := FitTerms(rows, []string{"a"}); err == nil || err.Error() != want || fit != nil {
			t.Errorf("%v, want %s", err, want)
		}
	}
}

// Columns that depend on each other are refused by the solver itself.
func TestLeastSquaresRefuses(t *testing.T) {
	x := mat.NewDense(3, 2, []float64{1, 1, 1, 1, 1, 1})
	if _, err := leastSquares(x, []float64{1, 2, 3}, nil); err == nil {
		t.Error("no error")
	}
}

// Weights that are worlds apart do not spoil what the heavy rows say.
func TestFitWeights(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 15))
	rows := soldRows(random, 20, []float64{0.5, 0.8}, 0)
	for i := range rows[:10] {
		rows[i].Weight, rows[i].Log = 1e-12, rows[i].Log+0.01*random.NormFloat64()
	}
	fit := fitOf(t, rows, "a", "b")
	near(t, "a", fit.Terms[0].Factor, 0.5, 1e-7)
	near(t, "b", fit.Terms[1].Factor, 0.8, 1e-7)
}

// BenchmarkFit fits 40 terms to 1,000 rows.
func BenchmarkFit(b *testing.B) {
	random := rand.New(rand.NewPCG(4, 16))
	factors, names := make([]float64, 40), make([]string, 40)
	for i := range factors {
		factors[i], names[i] = 0.3+random.Float64(), fmt.Sprint(i)
	}
	rows := soldRows(random, 1000, factors, 0.2)
	for b.Loop() {
		fitOf(b, rows, names...)
	}
}
