package table

import (
	"fmt"
	"math"
	"strings"

	"lotgauge/valuation"
)

// A canvas is the letters of a plot, by row from the top and by column.
type canvas [][]rune

func newCanvas(height, width int) canvas {
	c := make(canvas, height)
	for i := range c {
		c[i] = []rune(strings.Repeat(" ", width))
	}
	return c
}

// mark sets a mark. Where there is one already the number of both is set, and
// # from ten on.
func (c canvas) mark(row, column int, m rune) {
	at := &c[row][column]
	switch {
	case *at == ' ':
		*at = m
	case *at >= '2' && *at < '9':
		*at++
	case *at == '9' || *at == '#':
		*at = '#'
	default:
		*at = '2'
	}
}

// priceScale maps prices onto the rows of a plot.
type priceScale struct{ low, high float64 }

// row is the row of a price; one that lies outside is held at the edge.
func (s priceScale) row(price float64) int {
	share := (price - s.low) / (s.high - s.low)
	return int(math.Round((1 - min(max(share, 0), 1)) * (plotHeight - 1)))
}

// scaleOf covers the prices that count and the range of the estimate.
func scaleOf(r *valuation.PriceReport) priceScale {
	low, high := math.Inf(1), math.Inf(-1)
	cover := func(m *valuation.Money) { f := m.InexactFloat64(); low, high = min(low, f), max(high, f) }
	for i := range r.Rows {
		if x := &r.Rows[i]; x.SetAside != valuation.AsideForPrice {
			cover(&x.Sound)
		}
	}
	if r.Sell != nil {
		cover(&r.Sell.P10)
		cover(&r.Sell.P90)
	}
	if low > high { // all are set aside
		cover(&r.Rows[0].Sound)
	}
	if room := (high - low) / 20; room > 0 {
		return priceScale{low - room, high + room}
	}
	return priceScale{low * 0.9, high*1.1 + 0.01}
}

// ticks are round prices on the scale, by the rows that they stand on.
func (s priceScale) ticks() map[int]string {
	for step := math.Pow(10, math.Floor(math.Log10((s.high-s.low)/100))); ; step *= 10 {
		for _, digit := range []float64{1, 2, 5} {
			by := step * digit
			if (s.high-s.low)/by > 4 {
				continue
			}
			out := map[int]string{}
			decimals := max(0, -int(math.Floor(math.Log10(by))))
			for k := math.Ceil(s.low / by); k*by <= s.high; k++ {
				out[s.row(k*by)] = fmt.Sprintf("%.*f", decimals, k*by)
			}
			return out
		}
	}
}
