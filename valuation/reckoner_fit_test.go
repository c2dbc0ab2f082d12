package valuation

import (
	"io/fs"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"lotgauge/checklists"
	"lotgauge/pricedata"
	"lotgauge/valuation/charges"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
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
	f := sheetFitting(answers, worth, math.Inf(-1))
	for range times {
		f.sweep()
	}
	for _, c := range f.checks {
		effects = append(effects, c.effects)
	}
	for k := range worth {
		left = append(left, f.off(&f.sums[0], k))
	}
	return effects, left
}

// sheetFitting is a fitting of one sum of all checks, none of which has an effect
// of its own.
func sheetFitting(answers [][]uint8, worth []float64, floor float64) *fitting {
	var checks []*reckoned
	for _, a := range answers {
		checks = append(checks, &reckoned{answers: a, alone: make([]float64, 256)})
	}
	f := newFitting(checks, worth, floor)
	f.add(len(checks), 1)
	return f
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
	f := sheetFitting([][]uint8{answers}, left, math.Inf(-1))
	f.checks[0].alone = alone
	clear(f.sums[0].at)
	f.refit(0)
	effects := f.checks[0].effects
	within(t, "often", effects[1]-effects[0], -10, 0.05)
	within(t, "once", effects[2]-effects[0], (100-10*30)/11.0, 0.05)
	within(t, "never", effects[3]-effects[0], -40, 0.05)
}

// TestHeld: a state that by itself is worth no more than the sound one has no
// better effect, whatever it goes along with; one that is worth more has.
func TestHeld(t *testing.T) {
	answers, worth := make([]uint8, 1000), make([]float64, 1000)
	for k := range answers {
		if k%2 == 0 {
			answers[k], worth[k] = 1, 10
		}
	}
	for _, row := range []struct {
		kind        string
		alone, want float64
	}{{CheckPoint, -2, 0}, {CheckPoint, 0, 0}, {CheckPoint, 2, 10}, {CheckVariant, 0, 10}} {
		f := sheetFitting([][]uint8{answers}, worth, math.Inf(-1))
		f.checks[0].kind, f.checks[0].alone[1] = row.kind, row.alone
		f.sweep()
		within(t, row.kind, f.checks[0].effects[1]-f.checks[0].effects[0], row.want, 0.25)
	}
}

// TestTwoSums: a check that is in both sums answers for what it hints at of the
// other one where that is not made, in the measure of the sums' weights.
func TestTwoSums(t *testing.T) {
	answers, worth := [][]uint8{make([]uint8, 8000), make([]uint8, 8000)}, make([]float64, 8000)
	for k := range worth { // the second goes with the first three times in four
		a, b := k&1, k&1
		if k&6 == 0 {
			b = 1 - a
		}
		answers[0][k], answers[1][k] = uint8(a), uint8(b)
		worth[k] = -20 * float64(b)
	}
	difference := func(weight float64) float64 {
		f := sheetFitting(answers, worth, math.Inf(-1))
		f.add(1, weight)
		for range sweeps {
			f.sweep()
		}
		return f.checks[0].effects[1] - f.checks[0].effects[0]
	}
	within(t, "hardly fitted to the first alone", difference(1e-9), 0, 0.1)
	within(t, "fitted to little else", difference(1e9), -10, 0.1)
	if both := difference(1); both > -2 || both < -8 {
		t.Errorf("fitted to both: %v", both)
	}
}

// TestOrder: at every place of those that pay stands the check that adds most to
// those above it, and what is left adds no more than its time.
func TestOrder(t *testing.T) {
	for _, family := range []string{"pellworth-ce4", "tarnside-s3"} {
		r := builtIn(t, family)
		r.fit()
		r.order()
		o := r.newOrderer()
		for i, c := range r.checks[:r.paying] {
			left := slices.Clone(r.checks[i:])
			o.weigh(left)
			if left[0] != c {
				t.Errorf("%s: %s stands before %s", family, r.n.key(c.subject), r.n.key(left[0].subject))
			}
			o.make(c)
		}
		left := slices.Clone(r.checks[r.paying:])
		o.weigh(left)
		if left[0].net > o.stall.trifle {
			t.Errorf("%s: below the line %s adds %v", family, r.n.key(left[0].subject), left[0].net)
		}
	}
}

// builtIn is the reckoning of a built-in family before anything is fitted.
func builtIn(t *testing.T, family string) *reckoning {
	t.Helper()
	folder := fstest.MapFS{}
	for prefix, cupboard := range map[string]fs.FS{"families/": checklists.Files, "": pricedata.Files} {
		names, err := fs.Glob(cupboard, "*")
		more, _ := fs.Glob(cupboard, "*/*")
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range append(names, more...) {
			if text, err := fs.ReadFile(cupboard, name); err == nil {
				folder[prefix+name] = &fstest.MapFile{Data: text}
			}
		}
	}
	l := Open(folder, "", true)
	x, diags := l.NewFind(family, "", "stall-cash", time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC))
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	n, diags := l.Inspect(x, InspectOptions{Options: Options{Draws: 5000}})
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	return drawReckoning(n)
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
