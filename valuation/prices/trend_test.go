package prices

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// TestSenExample is the worked example of Sen (1968) as two numerics libraries
// quote it in their tests: slope 4, from 3.71 to 4.38, asked for at 0.93. Those
// ends are the 4th of the 21 slopes from either side. Of the 5040 orders of seven
// 76 have up to three inversions, so they reach 1 − 2·76/5040 = 0.97; for 0.93
// the 5th will do, since 174 orders have up to four. That is also what the
// definition of Hollander and Wolfe comes to, M = (N−C)/2 with C = 13−2.
func TestSenExample(t *testing.T) {
	x := []float64{1, 2, 3, 4, 10, 12, 18}
	y := []float64{9, 15, 19, 20, 45, 55, 78}
	slope, low, high, reached := theilSen(x, y, 0.95)
	if text := fmt.Sprintf("%.2f %.2f %.2f", slope, low, high); text != "4.00 3.71 4.38" {
		t.Errorf("slope and interval are %s", text)
	}
	near(t, "confidence", reached, 1-2*76.0/5040, 1e-11)
	_, low, high, reached = theilSen(x, y, 0.93)
	near(t, "low", low, pairSlopes(x, y)[4], 0)
	near(t, "high", high, pairSlopes(x, y)[16], 0)
	near(t, "confidence", reached, 1-2*174.0/5040, 1e-11)
}

// Orders by their inversions: the Mahonian numbers, https://oeis.org/A008302,
// for all different; for two groups the counts of Mann and Whitney's U, the
// coefficients of the Gaussian binomial: (5 over 2) is (1+q²)(1+q+q²+q³+q⁴).
func TestInversions(t *testing.T) {
	for _, c := range []struct {
		groups []int
		counts []float64
	}{
		{nil, []float64{1}},
		{[]int{5}, []float64{1}},
		{[]int{1, 1}, []float64{1, 1}},
		{[]int{1, 1, 1, 1}, []float64{1, 3, 5, 6, 5, 3, 1}},
		{[]int{1, 1, 1, 1, 1}, []float64{1, 4, 9, 15, 20, 22, 20, 15, 9, 4, 1}},
		{[]int{3, 2}, []float64{1, 1, 2, 2, 2, 1, 1}},
		{[]int{2, 3}, []float64{1, 1, 2, 2, 2, 1, 1}},
		{[]int{2, 2}, []float64{1, 1, 2, 1, 1}},
	} {
		total := 0.0
		for _, n := range c.counts {
			total += n
		}
		for i := range c.counts {
			c.counts[i] /= total
		}
		if diff := cmp.Diff(c.counts, inversions(c.groups), cmpopts.EquateApprox(0, 1e-15)); diff != "" {
			t.Errorf("groups %v (-want +got):\n%s", c.groups, diff)
		}
	}
}

// The chances agree with counting every order of up to eight members.
func TestInversionsAgainstCounting(t *testing.T) {
	for _, groups := range [][]int{{1, 2, 1}, {3, 1, 2}, {2, 2, 2}, {1, 1, 1, 1, 1, 1, 1}, {4, 4}, {1, 3, 1, 2, 1}, {5, 1, 1}} {
		var of []int // the group of each member
		for g, size := range groups {
			of = append(of, slices.Repeat([]int{g}, size)...)
		}
		got := inversions(groups)
		counts, orders := make([]float64, len(got)), 0
		permute(len(of), func(order []int) {
			n := 0
			for j := range order {
				for i := range j {
					if of[i] != of[j] && order[i] > order[j] {
						n++
					}
				}
			}
			counts[n]++
			orders++
		})
		for i := range counts {
			counts[i] /= float64(orders)
		}
		if diff := cmp.Diff(counts, got, cmpopts.EquateApprox(0, 1e-14)); diff != "" {
			t.Errorf("groups %v (-counted +got):\n%s", groups, diff)
		}
	}
}

// permute visits the orders of n things: Heap's algorithm (The Computer Journal
// 6(3), 1963, pp. 293-294, from memory).
func permute(n int, visit func([]int)) {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	var swap func(k int)
	swap = func(k int) {
		if k <= 1 {
			visit(order)
			return
		}
		for i := range k {
			swap(k - 1)
			j := 0
			if k%2 == 0 {
				j = i
			}
			order[j], order[k-1] = order[k-1], order[j]
		}
	}
	swap(n)
}

// For as many rows as are ever used, the chances sum to 1, are the same from
// both ends, and have the mean and variance that Kendall derived: half of the
// pairs, and for S, which is pairs less twice the inversions,
// [n(n−1)(2n+5) − Σ u(u−1)(2u+5)]/18 with u the sizes of the groups (Sen 1968,
// equation 2.6 for the ties).
func TestInversionsMoments(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 5))
	for range 20 {
		var groups []int
		n := 0
		for n < maxTrendRows {
			size := min(1+random.IntN(4)*random.IntN(3), maxTrendRows-n)
			groups, n = append(groups, size), n+size
		}
		chances := inversions(groups)
		sum, mean, square := 0.0, 0.0, 0.0
		for r, p := range chances {
			sum += p
			mean += float64(r) * p
			square += float64(r) * float64(r) * p
			if mirror := chances[len(chances)-1-r]; math.Abs(p-mirror) > 1e-14 {
				t.Fatalf("the chance of %d is %v, from the other end %v", r, p, mirror)
			}
		}
		kendall := func(u int) float64 { return float64(u) * float64(u-1) * float64(2*u+5) / 18 }
		variance := kendall(n)
		for _, u := range groups {
			variance -= kendall(u)
		}
		near(t, "sum", sum, 1, 1e-11)
		near(t, "mean", mean, float64(len(chances)-1)/2, 1e-10)
		near(t, "variance", 4*(square-mean*mean), variance, 1e-7)
	}
}

// points are n points about a line with heavy tails, on days of which some are
// the same.
func points(random *rand.Rand, n int, slope float64) (x, y []float64) {
	for range n {
		x = append(x, float64(random.IntN(2*n)))
	}
	slices.Sort(x)
	for i := range n {
		y = append(y, slope*x[i]+random.NormFloat64()/(0.2+random.Float64()))
	}
	return x, y
}

// The slope is the median of the slopes, worked out plainly.
func TestTheilSenAgainstEnumeration(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 6))
	for n := 2; n < 40; n++ {
		x, y := points(random, n, 0.3)
		var slopes []float64
		for i := range n {
			for j := range n {
				if x[i] < x[j] {
					slopes = append(slopes, (y[j]-y[i])/(x[j]-x[i]))
				}
			}
		}
		slope, low, high, reached := theilSen(x, y, 0.9)
		if len(slopes) == 0 {
			continue
		}
		near(t, "slope", slope, median(slopes), 1e-12)
		if !(low <= slope && slope <= high) || !(0.9 <= reached && reached <= 1) {
			t.Errorf("of %d points: %v from %v to %v, confidence %v", n, slope, low, high, reached)
		}
		below, above := 0, 0
		for _, s := range slopes {
			if s < low {
				below++
			}
			if s > high {
				above++
			}
		}
		if below != above {
			t.Errorf("%d slopes are below and %d above the interval", below, above)
		}
	}
}

// A line added, a scale or a change of sign goes through to slope and interval.
func TestTheilSenLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 7))
	for range 100 {
		x, y := points(random, 8+random.IntN(30), 0)
		slope, low, high, reached := theilSen(x, y, 0.9)
		tilted, mirrored := make([]float64, len(y)), make([]float64, len(y))
		for i := range y {
			tilted[i], mirrored[i] = 5+0.25*x[i]+2*y[i], -y[i]
		}
		got := make([]float64, 8)
		got[0], got[1], got[2], got[3] = theilSen(x, tilted, 0.9)
		got[4], got[5], got[6], got[7] = theilSen(x, mirrored, 0.9)
		want := []float64{0.25 + 2*slope, 0.25 + 2*low, 0.25 + 2*high, reached, -slope, -high, -low, reached}
		if diff := cmp.Diff(want, got, cmpopts.EquateApprox(0, 1e-9)); diff != "" {
			t.Error(diff)
		}
	}
}

// The interval holds the true slope as often as it says, whatever the noise: the
// confidence is that of the days, and is the same for all noise.
func TestTheilSenCoverage(t *testing.T) {
	const sets = 4000
	random := rand.New(rand.NewPCG(4, 8))
	for _, n := range []int{8, 9, 12, 25} {
		held, said := 0, 0.0
		for range sets {
			x, y := points(random, n, 0.1)
			_, low, high, reached := theilSen(x, y, 0.9)
			said += reached / sets
			if low <= 0.1 && 0.1 <= high {
				held++
			}
		}
		off := float64(held)/sets - said
		if math.Abs(off) > 3.5*math.Sqrt(said*(1-said)/sets) {
			t.Errorf("%d points: the interval holds the slope %d times of %d, and says %v", n, held, sets, said)
		}
	}
}

// A straight line of NIST's (Norris, certified slope 1.00211681802045 by least
// squares) has a median slope beside it, and an interval about it.
func TestTheilSenNorris(t *testing.T) {
	type point struct{ x, y float64 }
	var points []point
	for line := range strings.Lines(reference(t, "nist/Norris.txt")) {
		cells := strings.Fields(line)
		points = append(points, point{certified(t, cells[1]), certified(t, cells[0])})
	}
	slices.SortFunc(points, func(a, b point) int { return int(math.Copysign(1, a.x-b.x)) })
	var x, y []float64
	for _, p := range points {
		x, y = append(x, p.x), append(y, p.y)
	}
	slope, low, high, _ := theilSen(x, y, 0.9)
	near(t, "slope", slope, 1.00211681802045, 1e-3)
	if !(low < 1.00211681802045 && 1.00211681802045 < high) || high-low > 0.005 {
		t.Errorf("from %v to %v", low, high)
	}
}

// With too few slopes there is no interval, with none no slope.
func TestTheilSenTooFew(t *testing.T) {
	slope, low, high, reached := theilSen([]float64{1, 2, 3}, []float64{1, 2, 4}, 0.9)
	if slope != 1.5 || !math.IsInf(low, -1) || !math.IsInf(high, 1) || reached != 1 {
		t.Error(slope, low, high, reached)
	}
	if slope, _, _, _ = theilSen([]float64{1, 1}, []float64{1, 2}, 0.9); !math.IsNaN(slope) {
		t.Error(slope)
	}
}

// tableOf is a table of rows of one item: day, price and kind, with spaces.
func tableOf(t *testing.T, rows ...string) *Table {
	t.Helper()
	text := "date,price,kind,item,currency\n"
	for _, row := range rows {
		text += strings.ReplaceAll(row, " ", ",") + ",lamp,EUR\n"
	}
	return readTable(t, text)
}

// trendOf is the trend of the lamp at the end of 2026.
func trendOf(t *testing.T, table *Table) Trend {
	t.Helper()
	rules := Rules{Home: "EUR", HalfLifeDays: 730, AskedFactor: 0.5, AskedWeight: 0.5, Spread: 0.25}
	e, err := table.Estimate(Item{ID: "lamp"}, rules, nil, on("2026-12-31"))
	if err != nil {
		t.Fatal(err)
	}
	return e.Trend()
}

// yearly are rows of one price a year that grows by a tenth each time.
func yearly(n int) (rows []string) {
	price := 10.0
	for i := range n {
		rows = append(rows, fmt.Sprintf("%s %.6f sold", (civil(2010, 1, 1)+day(math.Round(float64(i)*daysPerYear))).String(), price))
		price *= 1.1
	}
	return rows
}

func TestTrend(t *testing.T) {
	trend := trendOf(t, tableOf(t, yearly(10)...))
	rate, low, high := trend.Yearly()
	near(t, "rate", rate, 0.1, 1e-3)
	near(t, "low", low, 0.1, 2e-3)
	near(t, "high", high, 0.1, 2e-3)
	near(t, "slope", trend.Slope, math.Log(1.1), 1e-3)
	if trend.Rows != 10 || trend.Lacking != 0 || trend.Confidence < 0.9 || trend.Confidence >= 1 {
		t.Errorf("%+v", trend)
	}
}

// Below eight rows on four days there is none, and how many are lacking.
func TestTrendLacking(t *testing.T) {
	var oneDay []string
	for i := range 9 {
		oneDay = append(oneDay, fmt.Sprintf("2020-01-01 %d sold", 6+i))
	}
	for _, c := range []struct {
		rows          []string
		used, lacking int
	}{
		{nil, 0, 8},
		{yearly(1), 1, 7},
		{yearly(7), 7, 1},
		{yearly(8), 8, 0},
		{oneDay, 9, 3},
		{append(yearly(2), oneDay...), 11, 1},
		{append(yearly(3), oneDay...), 12, 0},
	} {
		trend := trendOf(t, tableOf(t, c.rows...))
		if trend.Rows != c.used || trend.Lacking != c.lacking {
			t.Errorf("of %d rows: %+v, want %d used and %d lacking", len(c.rows), trend, c.used, c.lacking)
		}
		if c.lacking > 0 && trend != (Trend{Rows: c.used, Lacking: c.lacking}) {
			t.Errorf("a trend of too few rows: %+v", trend)
		}
		if c.lacking == 0 && (math.IsInf(trend.Low, 0) || math.IsInf(trend.High, 0)) {
			t.Errorf("an interval without ends: %+v", trend)
		}
	}
}

// Rows that were asked count after their factor, those set aside not at all, and
// those after the day are not there.
func TestTrendRows(t *testing.T) {
	rows := yearly(12)
	want := trendOf(t, tableOf(t, rows...))
	asked := slices.Clone(rows)
	for i := 0; i < len(asked); i += 3 {
		cells := strings.Fields(asked[i])
		asked[i] = fmt.Sprintf("%s %.6f asked", cells[0], 2*certified(t, cells[1]))
	}
	for name, rows := range map[string][]string{
		"asked": asked, "set aside": append(slices.Clone(rows), "2015-05-05 999999 sold"), "in the future": append(slices.Clone(rows), "2027-05-05 1 sold"),
		"in another order": {rows[3], rows[2], rows[0], rows[1], rows[11], rows[10], rows[4], rows[5], rows[8], rows[7], rows[6], rows[9]},
	} {
		if diff := cmp.Diff(want, trendOf(t, tableOf(t, rows...)), cmpopts.EquateApprox(0, 1e-7)); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

// Of many rows the newest count: here those that no longer grow.
func TestTrendNewest(t *testing.T) {
	var rows []string
	for i := range 2 * maxTrendRows {
		price := 10 + min(i, maxTrendRows)%7 + min(i, maxTrendRows)
		if i >= maxTrendRows {
			price = 50 + i%3
		}
		rows = append(rows, fmt.Sprintf("%s %d sold", civil(2024, 1, 1)+day(i), price))
	}
	trend := trendOf(t, tableOf(t, rows...))
	if trend.Rows != maxTrendRows || trend.Slope != 0 || trend.Low > 0 || trend.High < 0 {
		t.Errorf("%+v", trend)
	}
}

// BenchmarkTrend is the trend of as many rows as are ever used.
func BenchmarkTrend(b *testing.B) {
	random := rand.New(rand.NewPCG(4, 9))
	x, y := points(random, maxTrendRows, 0.1)
	for b.Loop() {
		theilSen(x, y, trendConfidence)
	}
}
