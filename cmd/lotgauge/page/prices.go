package page

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"lotgauge/valuation"
)

// priceView is what the page of one price says.
type priceView struct {
	Title         words
	Item          string
	Date, Day     string
	Demonstration bool
	Kind          string // of the prices drawn
	Currency      string
	Plot          *chart // nil without rows
	Facts         []words
	Sound         string // head of the column of comparable prices
	Rows          []priceRow
	Left          int // older rows that are neither drawn nor listed
}

// mostRows is how many rows a page draws and lists: a phone has to show it.
const mostRows = 1000

// priceRow is a row of the table, the newest first.
type priceRow struct {
	Date, Day   string
	Kind        string
	Seen        string
	Home, Sound string
	Weight      string
	Line        int
	Aside       string
	Note        words
}

// WritePrice writes what is known of the price of one item as one HTML file in
// UTF-8. Nothing is written where it fails.
func WritePrice(w io.Writer, r *valuation.PriceReport) error {
	if r == nil {
		return errors.New("there is no price to write a page of")
	}
	var page bytes.Buffer
	if err := report().ExecuteTemplate(&page, "prices.html", newPriceView(r)); err != nil {
		return err
	}
	_, err := page.WriteTo(w)
	return err
}

func newPriceView(r *valuation.PriceReport) *priceView {
	on, _ := time.Parse(time.DateOnly, r.Date) // a report has a date
	v := &priceView{
		Title: newWords(titleOr(r.Title, r.Item), titleRunes), Item: clean(r.Item), Date: r.Date, Day: on.Format("2 January 2006"),
		Demonstration: r.Demonstration, Currency: clean(r.Currency), Kind: "for one piece", Sound: "Paid", Facts: priceFacts(r),
	}
	if r.Model {
		v.Kind, v.Sound = "brought to a sound one of grade "+clean(r.Grade), "Sound"
	}
	rows := r.Rows[max(0, len(r.Rows)-mostRows):]
	v.Left = len(r.Rows) - len(rows)
	if len(rows) > 0 {
		x := &item{Title: name(titleOr(r.Title, r.Item)), Kind: v.Kind}
		if r.Sell != nil {
			x.Estimate = fmt.Sprintf("%s, 8 in 10 between %s and %s", plain(&r.Sell.P50), plain(&r.Sell.P10), plain(&r.Sell.P90))
		}
		first := on
		if d := rows[0].Day; d.Before(first) {
			first = d
		}
		v.Plot = new(maker).dots(x, sightingsOf(rows), r.Sell, newTimeline(first, on, 13, 86))
	}
	for i := range rows {
		v.Rows = append(v.Rows, newPriceRow(&rows[len(rows)-1-i], r))
	}
	return v
}

// sightingsOf are the comparable prices of rows.
func sightingsOf(rows []valuation.PriceRow) []valuation.Sighting {
	var out []valuation.Sighting
	for i := range rows {
		x := &rows[i]
		out = append(out, valuation.Sighting{Line: x.Line, Day: x.Day, Price: x.Sound, Asked: x.Kind == "asked",
			SetAside: x.SetAside == valuation.AsideForPrice, Weight: float64(x.Weight)})
	}
	return out
}

// priceFacts says what is known, a sentence each.
func priceFacts(r *valuation.PriceReport) []words {
	var out []words
	say := func(format string, args ...any) { out = append(out, sentence(fmt.Sprintf(format, args...))) }
	if r.Sell == nil {
		say("No price: there is no guide, and no row that says anything of today.")
	} else {
		say("One brings %s on average; 8 in 10 between %s and %s.", amount(&r.Sell.Mean, r.Currency), plain(&r.Sell.P10), plain(&r.Sell.P90))
		say("To buy, postage in: %s on average; 8 in 10 between %s and %s.", amount(&r.Buy.Mean, r.Currency), plain(&r.Buy.P10), plain(&r.Buy.P90))
	}
	if r.Guide != nil {
		say("A guide price of %s counts as a sale of today.", amount(r.Guide, r.Currency))
	}
	say("%s, %d set aside as too far from the others.", counted(len(r.Rows), "row", "rows"), r.SetAside)
	if t := &r.Trend; t.Lacking > 0 {
		say("No trend can be told yet: %s more needed.", counted(t.Lacking, "row", "rows"))
	} else {
		say("Trend: %+.1f%% a year, 9 in 10 between %+.1f%% and %+.1f%%.", 100*float64(t.Rate), 100*float64(t.Low), 100*float64(t.High))
	}
	find := fmt.Sprintf("Seen %s in %d days; to find one within %d days: %.0f%%", counted(r.Find.Sightings, "time", "times"), r.Find.Days, r.Find.Within, 100*float64(r.Find.Chance))
	if r.Find.Scarce {
		find += ", scarce"
	}
	say("%s.", find)
	return out
}

func newPriceRow(x *valuation.PriceRow, r *valuation.PriceReport) priceRow {
	row := priceRow{
		Date: clean(x.Date), Day: x.Day.Format("2 Jan 2006"), Kind: clean(x.Kind), Seen: clean(amount(&x.Price, x.Currency)),
		Home: plain(&x.Home), Sound: plain(&x.Sound), Weight: fmt.Sprintf("%.2f", float64(x.Weight)), Line: x.Line,
	}
	switch x.SetAside {
	case valuation.AsideForPrice:
		row.Aside = fmt.Sprintf("set aside: score %.1f, over 3.5", math.Abs(float64(x.Score)))
	case valuation.AsideForPostage:
		row.Aside = fmt.Sprintf("set aside for buying, with its postage: score %.1f, over 3.5", math.Abs(float64(x.Score)))
	}
	var notes []string
	note := func(there bool, text string) {
		if there {
			notes = append(notes, text)
		}
	}
	note(x.Paid != 1, fmt.Sprintf("asked, taken as %.0f%% of it", 100*float64(x.Paid)))
	note(x.Grade != "", "grade "+x.Grade)
	note(x.Lacking != "", x.Lacking)
	note(x.Factor != 1, fmt.Sprintf("divided by %.3g", float64(x.Factor)))
	note(x.Qty != 1, fmt.Sprintf("%d pieces", x.Qty))
	note(!x.Postage.IsZero(), "postage "+amount(&x.Postage, x.Currency))
	note(x.Currency != r.Currency, fmt.Sprintf("1 %s = %.4g %s on %s", x.Currency, float64(x.Rate), r.Currency, x.RateDate))
	note(x.Source != "", x.Source)
	note(x.Note != "", x.Note)
	row.Note = sentence(strings.Join(notes, "; "))
	return row
}
