package table

import (
	"fmt"
	"io"
	"strings"

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

// shownRows is how many rows are printed where not all are asked for.
const shownRows = 24

// priceRows prints the rows, the newest first.
func (p *printer) priceRows(r *valuation.PriceReport) {
	n := len(r.Rows)
	if n == 0 {
		return
	}
	p.heading("Rows, the newest first")
	rows := make([]*valuation.PriceRow, 0, n)
	for i := n - 1; i >= n-p.most(shownRows, n); i-- {
		rows = append(rows, &r.Rows[i])
	}
	seen := aligned(each(rows, func(x *valuation.PriceRow) string { return amount(&x.Price, x.Currency) }))
	home, sound := alignedMoney(rows, func(x *valuation.PriceRow) *valuation.Money { return &x.Home }), alignedMoney(rows, func(x *valuation.PriceRow) *valuation.Money { return &x.Sound })
	g := &grid{columns: []column{
		{head: "Day"}, {head: "How"}, {head: "Price", right: true}, {head: "One,\n" + r.Currency, right: true, spare: 2},
		{head: "Factor", right: true, spare: 3}, {head: soundHead(r), right: true}, {head: "Weight", right: true}, {head: "Line", right: true, spare: 1},
	}}
	for i, x := range rows {
		t := plain
		if x.SetAside != "" {
			t = warn
		}
		g.add(words(x.Date), words(x.Kind), words(seen[i]), words(home[i]), words(multiplied(x)), toned(t, sound[i]),
			words(fmt.Sprintf("%.2f", float64(x.Weight))), words(fmt.Sprint(x.Line)))
		g.note(aside(x))
		g.note(strings.Join(done(x, r), "; "))
	}
	p.grid(g)
	p.note(faint, sentence(legend(r)))
	if left := n - len(rows); left > 0 {
		p.note(faint, counted(left, "older row")+" not shown; --full shows all.")
	}
}

func alignedMoney(rows []*valuation.PriceRow, of func(*valuation.PriceRow) *valuation.Money) []string {
	return aligned(each(rows, func(x *valuation.PriceRow) string { return figure(of(x)) }))
}

// soundHead is the head of the column of comparable prices.
func soundHead(r *valuation.PriceReport) string {
	if r.Model {
		return "Sound,\n" + r.Currency
	}
	return "Paid,\n" + r.Currency
}

// legend says what the columns mean.
func legend(r *valuation.PriceReport) string {
	text := "One: one piece, at the rate of the day. Factor: what that is multiplied by for being asked only"
	if r.Model {
		text += ", and divided by for grade and faults. Sound: what a sound one of the best grade would have brought"
	} else {
		text += ". Paid: what comes of it"
	}
	return text + ". Weight: 1 is a sale of the day itself"
}

// multiplied is what was done to a price to make it comparable, "" for nothing.
func multiplied(x *valuation.PriceRow) string {
	var out []string
	if x.Paid != 1 {
		out = append(out, fmt.Sprintf("x%.3g", float64(x.Paid)))
	}
	if x.Factor != 1 {
		out = append(out, fmt.Sprintf("/%.3g", float64(x.Factor)))
	}
	return strings.Join(out, " ")
}

// aside says why a row is set aside.
func aside(x *valuation.PriceRow) string {
	switch x.SetAside {
	case valuation.AsideForPrice:
		return fmt.Sprintf("Set aside: too far from the others, by a score of %.1f where 3.5 is the most.", float64(x.Score))
	case valuation.AsideForPostage:
		return fmt.Sprintf("Set aside for buying: with its postage too far from the others, by a score of %.1f where 3.5 is the most.", float64(x.Score))
	}
	return ""
}

// done is what was done to a row and what it says besides.
func done(x *valuation.PriceRow, r *valuation.PriceReport) []string {
	var out []string
	add := func(there bool, format string, args ...any) {
		if there {
			out = append(out, fmt.Sprintf(format, args...))
		}
	}
	add(x.Grade != "", "grade %s", x.Grade)
	add(x.Lacking != "", "%s", x.Lacking)
	add(x.Qty != 1, "%d pieces", x.Qty)
	add(!x.Postage.IsZero(), "postage %s", tied(amount(&x.Postage, x.Currency)))
	add(x.Currency != r.Currency, "1 %s = %.4g %s on %s", x.Currency, float64(x.Rate), r.Currency, x.RateDate)
	add(x.Source != "", "%s", clipped(x.Source, nameRunes))
	add(x.Note != "", "%s", clipped(x.Note, nameRunes))
	return out
}
