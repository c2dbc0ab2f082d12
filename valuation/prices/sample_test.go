package prices

import (
	"math"
	"slices"
	"testing"
)

// testdata/reference/quantiles.json: quantiles by R 4.2.2, after Hyndman and
// Fan 1996; modified z-scores from the formula of the NIST/SEMATECH e-Handbook
// of Statistical Methods, 1.3.5.17, on the data of its page 1.3.5.17.1 (Tietjen
// and Moore 1972) and others; the resistivities are those of page 7.2.6.2.
type sampleReference struct {
	Quantiles []struct {
		Name  string
		Data  []float64
		Probs []float64
		Types map[string][]float64
	}
	ModifiedZ []struct {
		Name string
		Data []float64
		Z    []float64 `json:"modified_z"`
		Flag []bool    `json:"flag_abs_gt_3.5"`
	} `json:"modified_z"`
}

func TestQuantile7Reference(t *testing.T) {
	var ref sampleReference
	referenceJSON(t, "quantiles.json", &ref)
	if len(ref.Quantiles) != 7 {
		t.Fatalf("%d samples", len(ref.Quantiles))
	}
	for _, c := range ref.Quantiles {
		sorted := slices.Sorted(slices.Values(c.Data))
		for i, p := range c.Probs {
			near(t, c.Name, Quantile7(sorted, p), c.Types["7"][i], 1e-13)
		}
	}
}

func TestQuantile7Edges(t *testing.T) {
	if q := Quantile7(nil, 0.5); !math.IsNaN(q) {
		t.Errorf("of nothing: %v", q)
	}
	if q := Quantile7([]float64{1, 2}, math.NaN()); !math.IsNaN(q) {
		t.Errorf("at NaN: %v", q)
	}
	for p, want := range map[float64]float64{-1: 3, 0: 3, 0.5: 4, 1: 5, 2: 5, math.Inf(1): 5, math.Inf(-1): 3} {
		if q := Quantile7([]float64{3, 5}, p); q != want {
			t.Errorf("at %v: %v, want %v", p, q, want)
		}
	}
	if q := Quantile7([]float64{7}, 0.3); q != 7 {
		t.Errorf("of one value: %v", q)
	}
}

func TestModifiedZReference(t *testing.T) {
	var ref sampleReference
	referenceJSON(t, "quantiles.json", &ref)
	if len(ref.ModifiedZ) != 6 {
		t.Fatalf("%d samples", len(ref.ModifiedZ))
	}
	for _, c := range ref.ModifiedZ {
		got := ModifiedZ(c.Data)
		for i, z := range c.Z {
			near(t, c.Name, got[i], z, 1e-11)
			if flag := math.Abs(got[i]) > maxZ; flag != c.Flag[i] {
				t.Errorf("%s: value %d flagged %v", c.Name, i, flag)
			}
		}
	}
}

// Scores do not change when all values move or stretch, and values are left in
// their order.
func TestModifiedZLaws(t *testing.T) {
	x := []float64{4, 1, 3, 9, 2, 2.5}
	want := ModifiedZ(x)
	moved := make([]float64, len(x))
	for i, v := range x {
		moved[i] = -2*v + 8
	}
	for i, z := range ModifiedZ(moved) {
		near(t, "score", z, -want[i], 1e-14)
	}
	if !slices.Equal(x, []float64{4, 1, 3, 9, 2, 2.5}) {
		t.Error("the values were moved about")
	}
	if z := ModifiedZ(nil); len(z) != 0 {
		t.Errorf("of nothing: %v", z)
	}
}
