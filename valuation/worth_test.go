package valuation

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"lotgauge/valuation/prices"
)

// TestQuantileWithoutSorting: the quantile by partitioning equals that of the
// sorted values (type 7, checked against published tables in package prices).
func TestQuantileWithoutSorting(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for range 500 {
		xs := make([]float64, 1+rng.IntN(60))
		for i := range xs {
			xs[i] = math.Floor(20 * rng.Float64()) // with ties
		}
		sorted := slices.Sorted(slices.Values(xs))
		ps := []float64{0, 0.005, 0.1, 0.5, 0.9, 1}
		for i, got := range quantiles7(xs, ps...) {
			if want := prices.Quantile7(sorted, ps[i]); got != want {
				t.Fatalf("%v of %v: got %v, want %v", ps[i], sorted, got, want)
			}
		}
	}
}

func TestDeviation(t *testing.T) {
	// NIST/SEMATECH StRD, NumAcc1: mean 10000002, standard deviation 1.
	within(t, "NumAcc1", deviation([]float64{10000001, 10000003, 10000002}), 1, 1e-12)
	within(t, "one value", deviation([]float64{3}), 0, 0)
}

// TestDiceAreEven: over many draws every value of every item comes up equally
// often, and two items are thrown independently (chi-squared, 40 and 1600
// degrees of freedom; the bound is the mean plus six deviations).
func TestDiceAreEven(t *testing.T) {
	const n, sides = 410_000, 41
	d := dice{seed: 9}
	one, both := make([]float64, sides), make([]float64, sides*sides)
	for k := range n {
		i, j := d.index(3, k, sides), d.index(4, k, sides)
		one[i]++
		both[i*sides+j]++
	}
	for _, counts := range [][]float64{one, both} {
		expected, chi := n/float64(len(counts)), 0.0
		for _, c := range counts {
			chi += (c - expected) * (c - expected) / expected
		}
		df := float64(len(counts) - 1)
		if chi > df+6*math.Sqrt(2*df) || chi < df-6*math.Sqrt(2*df) {
			t.Errorf("chi-squared %v with %v degrees of freedom", chi, df)
		}
	}
}

// TestLognormalQuantiles: the hammer prices have the 10% and 90% points asked
// for, within the step between the 41 values, and a log-symmetric middle.
func TestLognormalQuantiles(t *testing.T) {
	xs := lognormal(40, 95, hammers)
	if !slices.IsSorted(xs) {
		t.Fatal("not ascending")
	}
	within(t, "middle", xs[hammers/2], math.Sqrt(40*95), 1e-9)
	below := func(limit float64) (n float64) {
		for _, x := range xs {
			if x < limit {
				n++
			}
		}
		return n / hammers
	}
	within(t, "share below the low end", below(40), 0.1, 0.5/hammers)
	within(t, "share below the high end", below(95), 0.9, 0.5/hammers)
}
