package table

import (
	"fmt"
	"math"
	"strings"
	"time"

	"lotgauge/valuation"
)

// The plot of prices over time is of letters alone, so that it looks the same
// on any terminal and in any file.
const (
	plotHeight = 11
	plotMost   = 100 // columns: a wider plot says no more
	soldMark   = 'o'
	askedMark  = '+'
	asideMark  = 'x'
	rangeMark  = '|'
	middleMark = '='
)

// plot draws the prices over time, and at the right the estimate.
func (p *printer) plot(r *valuation.PriceReport) {
	if len(r.Rows) == 0 {
		return
	}
	on, err := time.Parse(time.DateOnly, r.Date)
	if err != nil {
		return // there is no such report
	}
	s := scaleOf(r)
	labels, widest := s.ticks(), 0
	for _, l := range labels {
		widest = max(widest, len(l))
	}
	const beside = 4 // axis, estimate and the room around it
	columns := min(p.width-len(margin)-widest-1-beside, plotMost)
	if columns < 12 {
		return
	}
	first := firstDay(r, on)
	c := newCanvas(plotHeight, columns)
	place := func(day time.Time) int {
		return int(math.Round(day.Sub(first).Hours() / on.Sub(first).Hours() * float64(columns-1)))
	}
	for i := range r.Rows {
		x := &r.Rows[i]
		c.mark(s.row(x.Sound.InexactFloat64()), place(x.Day), markOf(x))
	}
	estimate := s.estimate(r)
	p.heading(plotTitle(r))
	for i, row := range c {
		p.line(plain, strings.TrimRight(fmt.Sprintf("%s%*s |%s %c", margin, widest, labels[i], string(row), estimate[i]), " "))
	}
	p.timeAxis(first, on, widest, columns, place)
	p.note(faint, fmt.Sprintf("%c sold, %c asked, %c set aside, 2 to 9 several; at the right the estimate: %c 80 of 100 cases, %c the middle.",
		soldMark, askedMark, asideMark, rangeMark, middleMark))
}

func plotTitle(r *valuation.PriceReport) string {
	if r.Model {
		return "Prices seen, brought to a sound one, " + r.Currency
	}
	return "Prices seen, for one piece, " + r.Currency
}

func markOf(x *valuation.PriceRow) rune {
	switch {
	case x.SetAside == valuation.AsideForPrice:
		return asideMark
	case x.Kind == "asked":
		return askedMark
	}
	return soldMark
}

// firstDay is where the plot begins: with the first row, but a year back at
// least, so that a few rows of one week do not look like a history.
func firstDay(r *valuation.PriceReport, on time.Time) time.Time {
	first := on.AddDate(-1, 0, 0)
	if r.Rows[0].Day.Before(first) {
		return r.Rows[0].Day
	}
	return first
}

// estimate is the column of the estimate, by rows.
func (s priceScale) estimate(r *valuation.PriceReport) []rune {
	out := []rune(strings.Repeat(" ", plotHeight))
	if r.Sell == nil {
		return out
	}
	for i := s.row(r.Sell.P90.InexactFloat64()); i <= s.row(r.Sell.P10.InexactFloat64()); i++ {
		out[i] = rangeMark
	}
	out[s.row(r.Sell.P50.InexactFloat64())] = middleMark
	return out
}

// timeAxis draws the axis with the years, or with the two ends where there are
// not two years to name.
func (p *printer) timeAxis(first, on time.Time, indent, columns int, place func(time.Time) int) {
	axis := []rune(strings.Repeat("-", columns))
	names := []rune(strings.Repeat(" ", columns))
	named, free := 0, 0
	for year := first.Year() + 1; year <= on.Year(); year++ {
		at := place(time.Date(year, 1, 1, 0, 0, 0, 0, time.UTC))
		axis[at] = '+'
		if at >= free && at+4 <= columns {
			copy(names[at:], []rune(fmt.Sprint(year)))
			named, free = named+1, at+6
		}
	}
	if named < 2 {
		from, to := first.Format("2006-01"), on.Format("2006-01")
		names = []rune(from + strings.Repeat(" ", columns-len(from)-len(to)) + to)
		if columns < len(from)+len(to)+1 {
			names = []rune(from)
		}
	}
	p.line(plain, fmt.Sprintf("%s%*s +%s", margin, indent, "", string(axis)))
	p.line(faint, strings.TrimRight(fmt.Sprintf("%s%*s  %s", margin, indent, "", string(names)), " "))
}
