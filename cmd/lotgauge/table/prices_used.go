package table

import (
	"fmt"
	"math"
	"strings"

	"lotgauge/valuation"
)

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
		return fmt.Sprintf("Set aside: too far from the others, by a score of %.1f where 3.5 is the most.", math.Abs(float64(x.Score)))
	case valuation.AsideForPostage:
		return fmt.Sprintf("Set aside for buying: with its postage too far from the others, by a score of %.1f where 3.5 is the most.", math.Abs(float64(x.Score)))
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
