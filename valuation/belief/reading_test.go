package belief

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// measuredRoof is roofModel with what a gauge may show of its roof and of its
// smoke unit.
func measuredRoof(readings ...Reading) *Model {
	m := roofModel()
	m.Readings = readings
	return m
}

// TestGatherReadings: what a reading weighs, by the rule that it is right of a
// state as far as the state explains it.
func TestGatherReadings(t *testing.T) {
	for _, row := range []struct {
		name    string
		reading Reading
		point   int
		trust   float64
		want    []float64 // of a variant that has the point
		lacking float64   // weight of those that do not
	}{
		{"settled", Reading{0, 0, 1, 0}, 0, 1, []float64{0, 0, 1, 0}, 1},
		{"either of two", Reading{1, 0, 1, 0}, 0, 1, []float64{1, 0, 1, 0}, 1},
		{"near a neighbour", Reading{1, 0.25, 0, 0}, 0, 1, []float64{1, 0.25, 0, 0}, 1},
		{"doubtful", Reading{1, 0.5, 0, 0}, 0, 0.7, []float64{0.7, 0.4, 0.1, 0.1}, 1},
		{"of no weight", Reading{1, 0.5, 0, 0}, 0, 0.25, []float64{0.25, 0.25, 0.25, 0.25}, 1},
		{"all alike", Reading{1, 1, 1, 1}, 0, 0.7, []float64{0.7, 0.7, 0.7, 0.7}, 1},
		{"of a point that two lack", Reading{0.5, 1}, 1, 0.9, []float64{0.5, 0.9}, 0.1},
	} {
		m := measuredRoof(row.reading)
		e := Gather(m, []Finding{{PointReading, row.point, 0, row.trust, ""}}, usual)
		for v := range m.Variants {
			want, weight := row.want, 1.0
			if !m.Points[row.point].Applies[v] {
				want, weight = nil, row.lacking
			}
			if diff := cmp.Diff(want, e.Point[v][row.point], cmpopts.EquateApprox(0, 1e-15)); diff != "" {
				t.Errorf("%s, variant %d (-want +got):\n%s", row.name, v, diff)
			}
			near(t, row.name+", variant", e.Variant[v:v+1], []float64{weight})
		}
	}
}

// TestReadingAsState: a reading that one state alone explains is a finding of
// that state, whatever the trust.
func TestReadingAsState(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 9))
	for range 200 {
		i := rng.IntN(2)
		m := measuredRoof(Reading{0, 0, 0, 0}[:len(roofModel().Points[i].States)])
		s, trust := rng.IntN(len(m.Readings[0])), rng.Float64()
		m.Readings[0][s] = 1
		read := Gather(m, []Finding{{PointReading, i, 0, trust, ""}}, usual)
		found := Gather(m, []Finding{{PointState, i, s, trust, ""}}, usual)
		if diff := cmp.Diff(found, read); diff != "" {
			t.Fatalf("point %d state %d trust %v (-found +read):\n%s", i, s, trust, diff)
		}
	}
}

func TestCheckReadings(t *testing.T) {
	for _, row := range []struct {
		reading Reading
		f       Finding
		model   string
		finding string
	}{
		{Reading{1, 0, 0, 0.5}, Finding{PointReading, 0, 0, 1, "f"}, "", ""},
		{Reading{1, 0}, Finding{PointReading, 0, 0, 1, "f"}, "", "f: a reading for 2 states of 4"},
		{Reading{1, 0}, Finding{PointReading, 1, 1, 1, "f"}, "", "f: value 1 of 1"},
		{Reading{1, 0}, Finding{PointReading, 3, 0, 1, "f"}, "", "f: subject 3 of 3"},
		{Reading{1, 0}, Finding{PointReading, 1, 0, 2, "f"}, "", "f: trust 2"},
		{Reading{1, -0.5}, Finding{PointReading, 1, 0, 1, "f"}, "reading 0: [1 -0.5]", ""},
		{Reading{1, math.NaN()}, Finding{PointReading, 1, 0, 1, "f"}, "reading 0: [1 NaN]", ""},
	} {
		m := measuredRoof(row.reading)
		for _, x := range []struct {
			err  error
			want string
		}{{m.Check(), row.model}, {m.CheckFinding(row.f), row.finding}} {
			if x.err == nil && x.want != "" || x.err != nil && x.err.Error() != x.want {
				t.Errorf("%v, %v: got %v, want %q", row.reading, row.f, x.err, x.want)
			}
		}
		_, err := InferFindings(m, []Finding{row.f}, usual)
		if (err != nil) != (row.model+row.finding != "") {
			t.Errorf("%v, %v: InferFindings says %v", row.reading, row.f, err)
		}
	}
}
