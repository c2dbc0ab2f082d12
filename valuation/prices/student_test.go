package prices

import (
	"encoding/binary"
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// testdata/reference/conjugate.json, student_t: upper quantiles computed to 30
// digits by mpmath 1.2.1.
func TestStudentQuantileTable(t *testing.T) {
	ref := readConjugate(t).Student
	rows := slices.Concat(ref.Integer, ref.Fractional)
	if len(rows) != 26 {
		t.Fatalf("%d rows", len(rows))
	}
	for _, row := range rows {
		for i, tail := range ref.Tails {
			what := fmt.Sprintf("df %v tail %v", row.DF, tail)
			near(t, what, studentQuantile(row.DF, 1-tail)/row.Upper[i], 1, 1e-12)
			near(t, what, studentQuantile(row.DF, tail)/-row.Upper[i], 1, 1e-12)
		}
	}
}

// With one degree of freedom it is the Cauchy distribution, with two there is
// a closed form; both are in Abramowitz and Stegun (from memory).
func TestStudentQuantileClosedForms(t *testing.T) {
	for i := range Values {
		p := (float64(i) + 0.5) / Values
		near(t, "Cauchy", studentQuantile(1, p), math.Tan(math.Pi*(p-0.5)), 1e-12)
		near(t, "two degrees", studentQuantile(2, p), (2*p-1)/math.Sqrt(2*p*(1-p)), 1e-12)
	}
}

// The 41 quantiles are those that inverting the beta function gives, whatever
// the degrees of freedom, and ascend. With a million of them the inverse has
// nine digits only.
func TestStandardQuantiles(t *testing.T) {
	for freedom, tolerance := range map[float64]float64{1: 1e-12, 2.5: 1e-12, 10: 1e-13, 10.25: 1e-13,
		13.9: 1e-13, 48.7: 1e-12, 150.5: 1e-12, 1e4: 1e-11, 1e6: 1e-9} {
		q := standardQuantiles(freedom)
		for i := range q {
			what := fmt.Sprintf("df %v value %d", freedom, i)
			near(t, what, q[i], studentQuantile(freedom, (float64(i)+0.5)/Values), tolerance)
			if q[Values-1-i] != -q[i] {
				t.Errorf("%s: %v and %v are not the same distance from 0", what, q[Values-1-i], q[i])
			}
		}
		if !slices.IsSorted(q[:]) {
			t.Errorf("df %v: not ascending: %v", freedom, q)
		}
	}
}

// Where the distribution function has a closed form, that takes each of the 41
// quantiles back: four degrees of freedom, Abramowitz and Stegun
// 26.7.4 (from memory).
func TestStandardQuantilesInvert(t *testing.T) {
	for i, q := range standardQuantiles(4) {
		x := q / math.Sqrt(4+q*q)
		near(t, fmt.Sprintf("value %d", i), 0.5+0.75*(x-x*x*x/3), (float64(i)+0.5)/Values, 1e-15)
	}
}

func pricesOf(s Student) [Values]float64 {
	t := standardQuantiles(s.Freedom)
	return s.prices(&t)
}

// The same bits on every platform. The sum is of amd64; the test also runs as
// js/wasm, where math.Exp differs.
func TestPricesSameEverywhere(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	sum := fnv.New64a()
	for range 2000 {
		s := Student{10 + 40*random.Float64(), 6 * random.Float64(), 0.1 + random.Float64()}
		for _, price := range pricesOf(s) {
			binary.Write(sum, binary.LittleEndian, price)
		}
	}
	if got, want := fmt.Sprintf("%x", sum.Sum64()), "e6c2ae8fb449670a"; got != want {
		t.Errorf("the prices have the sum %s, want %s", got, want)
	}
}

// exp is math.Exp to 15 digits, and round keeps what has no fraction.
func TestExpAndRound(t *testing.T) {
	for v := -30.0; v < 30; v += 0.37 {
		near(t, "exp", exp(v)/math.Exp(v), 1, 1e-14)
	}
	for v, want := range map[float64]float64{0.12345675: 0.1234568, -2.5e-8: 0, 1e20: 1e20, 4e9 + 0.5: 4e9 + 0.5} {
		if got := round(v, pricePlaces); got != want {
			t.Errorf("%v is rounded to %v, want %v", v, got, want)
		}
	}
	if v := round(math.Inf(1), pricePlaces); !math.IsInf(v, 1) {
		t.Errorf("infinity is rounded to %v", v)
	}
}
