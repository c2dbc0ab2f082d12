package valuation

import (
	"math"
	"math/rand/v2"
	"testing"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
	"strings"
)

// sheetOf are answers to three checks of many draws that hang together through
// a hidden class, and worths that are a sum of effects and some noise.
func sheetOf(draws int, noise float64, effects [3][3]float64) (answers [][]uint8, worth []float64) {
	rng := rand.New(rand.NewPCG(8, 8))
	answers = make([][]uint8, 3)
	for range draws {
		w, class := 50+noise*rng.NormFloat64(), rng.IntN(2)
		for i := range effects {
			s := rng.IntN(3)
			if class == 1 && rng.IntN(3) > 0 {
				s = 2
			}
			answers[i] = append(answers[i], uint8(s))
			w += effects[i][s]
		}
		worth = append(worth, w)
	}
	return answers, worth
}

// sweep fits all checks so many times.
func sweep(times int, answers [][]uint8, worth []float64) (effects [][]float64, left []float64) {
	average := mean(worth)
	for _, w := range worth {
		left = append(left, w-average)
	}
	for range answers {
		effects = append(effects, make([]float64, 256))
	}
	none := make([]float64, 256)
	for range times {
		for i := range answers {
			refit(effects[i], none, answers[i], left)
		}
	}
	return effects, left
}

// TestBackfitting finds the effects behind worths, though the answers hang
// together: differences within a check are those put in.
func TestBackfitting(t *testing.T) {
	want := [3][3]float64{{0, -3, -20}, {0, 5, -8}, {0, 0, -40}}
	answers, worth := sheetOf(30_000, 2, want)
	effects, left := sweep(sweeps, answers, worth)
	for i := range want {
		for s := range want[i] {
			within(t, "difference", effects[i][s]-effects[i][0], want[i][s], 0.15)
		}
	}
	within(t, "what is left", deviation(left), 2, 0.05)
	// The means of the answers by themselves would be far off.
	sum, n := [3]float64{}, [3]float64{}
	for k, s := range answers[1] {
		sum[s] += worth[k]
		n[s]++
	}
	if off := sum[2]/n[2] - sum[0]/n[0] - want[1][2]; off > -5 {
		t.Errorf("the answers hardly hang together: off by %v", off)
	}
}

// TestLeastSquares: no answer leaves anything unexplained on average, which are
// the normal equations, up to the weight of caution; and further sweeps change
// nothing.
func TestLeastSquares(t *testing.T) {
	answers, worth := sheetOf(5000, 10, [3][3]float64{{0, -3, -20}, {0, 5, -8}, {0, 0, -40}})
	for k := range worth { // not a sum: two faults cost less than each by itself
		if answers[0][k] == 2 && answers[2][k] == 2 {
			worth[k] += 15
		}
	}
	effects, left := sweep(sweeps, answers, worth)
	for i := range answers {
		sum, n := [3]float64{}, [3]float64{}
		for k, s := range answers[i] {
			sum[s] += left[k]
			n[s]++
		}
		for s := range sum {
			if mean := sum[s] / n[s]; math.Abs(mean) > 0.25 {
				t.Errorf("answer %d to check %d leaves %v", s, i, mean)
			}
		}
	}
	more, _ := sweep(3*sweeps, answers, worth)
	for i := range effects {
		for s := range 3 {
			within(t, "after more sweeps", effects[i][s], more[i][s], 0.001)
		}
	}
}

// TestRareAnswers: an answer that few draws have takes the effect that it would
// have alone, one that many have its own.
func TestRareAnswers(t *testing.T) {
	answers := make([]uint8, 10_000)
	left := make([]float64, len(answers))
	for k := range answers {
		if k%2 == 0 {
			answers[k], left[k] = 1, -10
		}
	}
	answers[1], left[1] = 2, +100 // by luck
	alone := make([]float64, 256)
	alone[1], alone[2], alone[3] = -1, -30, -40
	effects := make([]float64, 256)
	refit(effects, alone, answers, left)
	within(t, "often", effects[1]-effects[0], -10, 0.05)
	within(t, "once", effects[2]-effects[0], (100-10*30)/11.0, 0.05)
	within(t, "never", effects[3]-effects[0], -40, 0.05)
}

func sheetFor(t *testing.T, text string) *charges.Sheet {
	t.Helper()
	doc := diag.ReadDocument("s.toml", strings.NewReader("format = 1\nid = \"s\"\ntitle = \"S\"\nside = \"buy\"\ncurrency = \"EUR\"\n"+text))
	s := charges.Read(doc)
	if err := doc.Diagnostics().Err(); err != nil {
		t.Fatal(err)
	}
	return s
}

// TestLine: the bid follows the worth along the sheet.
func TestLine(t *testing.T) {
	const fee = "[[charge]]\nid = \"fee\"\ntitle = \"Fee\"\non = [\"hammer\"]\nrate = \"25%\"\n"
	const post = "[[charge]]\nid = \"post\"\ntitle = \"Post\"\namount = \"10\"\n"
	for _, row := range []struct {
		sheet            string
		low, high, worth float64
		bid, slope       float64
	}{
		{"", 20, 80, 50, 50, 1},
		{fee, 20, 80, 50, 40, 0.8},
		{fee + post, 20, 80, 60, 40, 0.8},
		{fee + post, 5, 60, 35, 20, 0.8}, // no bid at 5: the line starts where one costs nothing
		{post, 3, 5, 8, 0, 0},            // no bid at all
		{"", 40, 40, 70, 40, 0},
	} {
		p := &purchase{sheet: sheetFor(t, row.sheet), conv: charges.Conversion{Rate: money.WholeRatio(money.Decimal(1)), Home: "EUR"}}
		l := newLine(p, row.low, row.high)
		within(t, row.sheet+" bid", l.at(row.worth), row.bid, 0.011)
		within(t, row.sheet+" slope", l.slope, row.slope, 0.001)
	}
}
