package table

import (
	"fmt"
	"io"

	"lotgauge/valuation"
)

// Price prints what is known of the price of one item: the estimate, how sure
// it is, the sightings over time, and each row with what was done to it.
func Price(w io.Writer, r *valuation.PriceReport, o Options) error {
	p := newPrinter(o)
	p.invented(r.Demonstration)
	if r.Demonstration {
		p.blank()
	}
	title := r.Item
	if r.Title != "" {
		title = r.Title + " (" + r.Item + ")"
	}
	p.para(strong, "", margin, title+" on "+r.Date)
	p.blank()
	p.priceEstimate(r)
	p.priceBasis(r)
	p.priceTrend(r)
	p.priceFind(r)
	p.plot(r)
	p.priceRows(r)
	return p.writeTo(w)
}

// priceEstimate says what one brings and costs.
func (p *printer) priceEstimate(r *valuation.PriceReport) {
	if r.Sell == nil {
		p.note(bad, "No price: there is no guide, and no row that says anything of today.")
		return
	}
	of := ""
	if r.Grade != "" {
		of = ", sound and of grade " + r.Grade
	}
	p.note(strong, fmt.Sprintf("One brings %s on average%s; in 80 of 100 cases %s to %s.",
		tied(amount(&r.Sell.Mean, r.Currency)), of, figure(&r.Sell.P10), tied(amount(&r.Sell.P90, r.Currency))))
	if !r.Buy.Mean.Equal(r.Sell.Mean.Decimal) {
		p.note(plain, fmt.Sprintf("To buy, postage in: %s on average; %s to %s.",
			tied(amount(&r.Buy.Mean, r.Currency)), figure(&r.Buy.P10), tied(amount(&r.Buy.P90, r.Currency))))
	}
}

// priceBasis says what the estimate rests on, and how little that may be.
func (p *printer) priceBasis(r *valuation.PriceReport) {
	used := len(r.Rows) - r.SetAside
	what := "It rests on " + counted(used, "row")
	if used == 0 {
		what = "It rests on no row of the price table"
	}
	if r.Guide != nil {
		what += " and a guide price of " + tied(amount(r.Guide, r.Currency)) + ", which counts as a sale of today"
	}
	switch {
	case used == 0 && r.Guide == nil:
		return
	case used == 0:
		what += ": the range is what prices scatter by in general"
	case len(r.Rows) < fewRows:
		what += ": few, so the range is wide, and an odd one among them cannot be told before there are five"
	}
	p.note(plain, sentence(what))
	if r.SetAside > 0 {
		p.note(plain, counted(r.SetAside, "row")+" set aside, too far from the others.")
	}
	if r.Later > 0 {
		p.note(plain, counted(r.Later, "row")+" dated after the day, not used.")
	}
}

// fewRows is the number of rows under which none can be told to be odd.
const fewRows = 5

// priceTrend says how the price moves, or how many rows are wanting to say it.
func (p *printer) priceTrend(r *valuation.PriceReport) {
	t := &r.Trend
	switch {
	case t.Lacking > 0:
		p.note(plain, fmt.Sprintf("Trend: none can be told from %s; it takes %d more.", counted(t.Rows, "row"), t.Lacking))
	case t.Low <= 0 && t.High >= 0:
		p.note(plain, fmt.Sprintf("Trend: the rows show none; %s a year, %s to %s.", change(t.Rate), change(t.Low), change(t.High)))
	default:
		p.note(plain, fmt.Sprintf("Trend: %s a year; in 90 of 100 cases %s to %s. The estimate leaves it out, old rows just weigh less.",
			change(t.Rate), change(t.Low), change(t.High)))
	}
}

// change is a rate with its sign, "+5.1%".
func change(s valuation.Share) string { return fmt.Sprintf("%+.1f%%", 100*float64(s)) }

// priceFind says how hard it is to find one.
func (p *printer) priceFind(r *valuation.PriceReport) {
	f := &r.Find
	scarce := ""
	if f.Scarce {
		scarce = ": scarce"
	}
	p.note(plain, fmt.Sprintf("Seen %s in %s days; to find one within %d days, the chance is %s%s.",
		times(f.Sightings), grouped(f.Days), f.Within, percent(f.Chance), scarce))
}

func times(n int) string {
	switch n {
	case 0:
		return "never"
	case 1:
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}
