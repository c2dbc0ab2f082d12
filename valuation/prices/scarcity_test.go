package prices

import (
	"math"
	"testing"
)

// testdata/reference/counts.json, gamma_poisson: computed by SciPy 1.10.1; the
// asthma rows are the example of Gelman and others, Bayesian Data Analysis,
// section 2.6.
func TestChanceOfOneReference(t *testing.T) {
	var ref struct {
		Cases []struct {
			Name      string
			Posterior struct{ Shape, Rate float64 }
			Horizon   float64
			Chance    float64 `json:"p_at_least_one"`
		} `json:"gamma_poisson"`
	}
	referenceJSON(t, "counts.json", &ref)
	if len(ref.Cases) != 6 {
		t.Fatalf("%d cases", len(ref.Cases))
	}
	for _, c := range ref.Cases {
		near(t, c.Name, chanceOfOne(c.Posterior.Shape, c.Posterior.Rate, c.Horizon), c.Chance, 1e-14)
	}
}

const sightings = header + `2024-01-01,shoe,sold,,,5,EUR,,,,
2024-06-01,relay,asked,,,5,EUR,,10,,
2025-06-01,relay,sold,,,5,EUR,,,,
2026-03-14,relay,sold,,,5,EUR,,,,
2026-03-15,relay,sold,,,5,EUR,,,,
`

func TestScarcity(t *testing.T) {
	table := readTable(t, sightings)
	for _, c := range []struct {
		item, day string
		want      Scarcity
	}{
		// 803 days since the first row of the table, three rows of the relay.
		{"relay", "2026-03-14", Scarcity{3, 803, 1 - math.Pow(803.0/983, 3.5), false}},
		{"relay", "2026-03-15", Scarcity{4, 804, 1 - math.Pow(804.0/984, 4.5), false}},
		{"shoe", "2026-03-14", Scarcity{1, 803, 1 - math.Pow(803.0/983, 1.5), true}},
		{"unknown", "2026-03-14", Scarcity{0, 803, 1 - math.Pow(803.0/983, 0.5), true}},
		// A table is taken to be a year old at least.
		{"relay", "2024-06-01", Scarcity{1, 365, 1 - math.Pow(365.0/545, 1.5), true}},
		{"shoe", "2023-01-01", Scarcity{0, 365, 1 - math.Pow(365.0/545, 0.5), true}},
	} {
		got := table.Scarcity(c.item, Rules{FindWithinDays: 180}, on(c.day))
		near(t, c.item+" on "+c.day, got.FindChance, c.want.FindChance, 1e-14)
		got.FindChance = c.want.FindChance
		if got != c.want {
			t.Errorf("%s on %s: %+v, want %+v", c.item, c.day, got, c.want)
		}
	}
}

func TestScarcityEdges(t *testing.T) {
	empty := (&Table{}).Scarcity("relay", Rules{FindWithinDays: 180}, on("2026-03-14"))
	near(t, "in an empty table", empty.FindChance, 1-math.Sqrt(365.0/545), 1e-14)
	none := readTable(t, sightings).Scarcity("relay", Rules{}, on("2026-03-14"))
	if none.FindChance != 0 || !none.Scarce {
		t.Errorf("within no days: %+v", none)
	}
	long := readTable(t, sightings).Scarcity("relay", Rules{FindWithinDays: math.MaxInt32}, on("2026-03-14"))
	if !(long.FindChance > 0.999 && long.FindChance <= 1) || long.Scarce {
		t.Errorf("within ages: %+v", long)
	}
}
