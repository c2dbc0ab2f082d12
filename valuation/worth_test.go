package valuation

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"lotgauge/valuation/prices"
)

// TestQuantileWithoutSorting: the quantile by counting equals that of the
// sorted values (type 7, checked against published tables in package prices),
// and leaves the values where they are.
func TestQuantileWithoutSorting(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for name, value := range map[string]func() float64{
		"ties":      func() float64 { return math.Floor(20 * rng.Float64()) },
		"all equal": func() float64 { return -3.25 },
		"spread":    func() float64 { return 100 * rng.NormFloat64() },
		"far out":   func() float64 { return math.Exp(12 * rng.NormFloat64()) },
		"tiny":      func() float64 { return 5e-324 * math.Floor(9*rng.Float64()) },
		"huge":      func() float64 { return (rng.Float64() - 0.5) * 2 * math.MaxFloat64 },
	} {
		for range 100 {
			xs := make([]float64, 1+rng.IntN(3000))
			for i := range xs {
				xs[i] = value()
			}
			kept, sorted := slices.Clone(xs), slices.Sorted(slices.Values(xs))
			ps := []float64{0, 0.005, 0.1, 0.5, 0.9, 1}
			for i, got := range quantiles7(xs, ps...) {
				if want := prices.Quantile7(sorted, ps[i]); got != want {
					t.Fatalf("%s: %v of %v values: got %v, want %v", name, ps[i], len(xs), got, want)
				}
			}
			if !slices.Equal(xs, kept) {
				t.Fatalf("%s: the values were moved", name)
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
// often, and two items are thrown independently, of one roll or of two
// (chi-squared, 40 and 1600 degrees of freedom; the bound is the mean plus six
// deviations).
func TestDiceAreEven(t *testing.T) {
	const n, sides = 410_000, prices.Values
	d := dice{seed: 9}
	item := func(i, k int) int { return int(thrownFace(d, i, k)) }
	for _, pair := range [][2]int{{3, 4}, {4, 5}, {3, 6}} {
		one, both := make([]float64, sides), make([]float64, sides*sides)
		for k := range n {
			i, j := item(pair[0], k), item(pair[1], k)
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
				t.Errorf("items %v: chi-squared %v with %v degrees of freedom", pair, chi, df)
			}
		}
	}
}

// TestDiceAside: what is thrown besides the prices says nothing of them, however
// many sides it has and wherever in its set an item is (the mean of the 41 faces is
// 20, its standard error here 0.1).
func TestDiceAside(t *testing.T) {
	const n = 60_000
	d := dice{seed: 9}
	for number := range 3 {
		for sides := 2; sides <= 5; sides++ {
			var sum, count [3 * inSet][5]float64
			for k := range n {
				answer := d.aside(number).index(k, sides)
				for item := range sum {
					sum[item][answer] += float64(thrownFace(d, item, k))
					count[item][answer]++
				}
			}
			for item := range sum {
				for answer := range sides {
					within(t, "mean face", sum[item][answer]/count[item][answer], 20, 0.6)
				}
			}
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

// thrownFace is which price an item has in a draw.
func thrownFace(d dice, item, draw int) uint8 {
	return face(d.of(item/inSet).roll(draw) >> (item % inSet * faceBits))
}

// TestLookup: as many are below as a search by halves finds, for values among
// them, between and beyond.
func TestLookup(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 200 {
		xs := make([]float64, rng.IntN(60))
		for i := range xs {
			xs[i] = math.Floor(40*rng.NormFloat64()) / float64(1+rng.IntN(9))
		}
		slices.Sort(xs)
		l := newLookup(xs)
		for _, x := range append([]float64{-1e300, -1e3, 0, 1e3, 1e300, rng.NormFloat64()}, xs...) {
			for _, x := range []float64{math.Nextafter(x, -1e308), x, math.Nextafter(x, 1e308)} {
				if want, _ := slices.BinarySearch(xs, x); l.count(x) != want {
					t.Fatalf("%v below %v of %v, want %v", l.count(x), x, xs, want)
				}
			}
		}
	}
}
