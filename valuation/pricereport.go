package valuation

import (
	"encoding/json"
	"io"
	"slices"
	"time"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// PriceReport is all that is known of the price of one item on a day. Money is
// in Currency, the home currency, but for what a row itself says.
type PriceReport struct {
	Format        int         `json:"format"`
	Item          string      `json:"item"`
	Title         string      `json:"title"` // "" if no family knows the item
	Date          string      `json:"date"`
	Currency      string      `json:"currency"`
	Demonstration bool        `json:"demonstration"`
	Model         bool        `json:"model"`
	Grade         string      `json:"grade"` // of a model: that which prices are brought to
	Guide         *Money      `json:"guide"` // null where there is none
	Sell          *PriceRange `json:"sell"`  // what one brings; null where nothing is known
	Buy           *PriceRange `json:"buy"`   // what one costs, postage in
	Rows          []PriceRow  `json:"rows"`  // oldest first
	SetAside      int         `json:"set_aside"`
	Later         int         `json:"later"` // rows dated after the day, not used
	Trend         PriceTrend  `json:"trend"`
	Find          PriceFind   `json:"find"`
}

// PriceRow is a row of the price table and what was done to it.
type PriceRow struct {
	Line     int       `json:"line"`
	Day      time.Time `json:"-"`
	Date     string    `json:"date"`
	Kind     string    `json:"kind"`
	Grade    string    `json:"grade"`
	Lacking  string    `json:"lacking"`
	Price    Money     `json:"price"` // for the whole row, in the row's currency
	Postage  Money     `json:"postage"`
	Currency string    `json:"currency"`
	Qty      int       `json:"qty"`
	Source   string    `json:"source"`
	Note     string    `json:"note"`
	// Each is the one before made comparable: one piece in the home currency, by
	// the rate of the row's day; then brought from asked to paid, and to a sound
	// one at the reference grade.
	Rate     Share  `json:"rate"` // home units for one of the row's currency
	RateDate string `json:"rate_date"`
	Home     Money  `json:"home"`
	Paid     Share  `json:"paid"`   // what is paid of what is asked; 1 for what was sold
	Factor   Share  `json:"factor"` // that the price is divided by: grade and what was lacking
	Sound    Money  `json:"sound"`
	Weight   Share  `json:"weight"`
	Score    Share  `json:"score"`     // modified z-score among the rows; 0 with fewer than 5
	SetAside string `json:"set_aside"` // "", "price", "postage" (for buying only)
}

// What a row is set aside for.
const (
	AsideForPrice   = "price"
	AsideForPostage = "postage"
)

// PriceTrend is how the price moves in a year, 0.05 for 5% up: see
// [prices.Trend]. While Lacking is above 0 the rates are 0 and say nothing.
type PriceTrend struct {
	Rate       Share `json:"rate"`
	Low        Share `json:"low"`
	High       Share `json:"high"`
	Confidence Share `json:"confidence"`
	Rows       int   `json:"rows"`
	Lacking    int   `json:"lacking"` // rows that are wanting for a trend
}

// PriceFind is how hard it is to find one: see [prices.Scarcity].
type PriceFind struct {
	Sightings int   `json:"sightings"`
	Days      int   `json:"days"` // that they are counted over
	Within    int   `json:"within_days"`
	Chance    Share `json:"chance"` // of finding one in that time
	Scarce    bool  `json:"scarce"`
}

// Price says what is known of the price of an item on a day. The report is nil
// if the diagnostics have errors. An item that no family knows is reported on
// by its rows alone, with a warning; without rows it is an error.
func (l *Library) Price(id string, on time.Time) (*PriceReport, diag.List) {
	var diags diag.List
	settings := need(&diags, l.Settings)
	table := need(&diags, l.Prices)
	rates := need(&diags, l.Rates)
	if diags.HasErrors() {
		return nil, diags.Sorted()
	}
	x, unknown := l.Item(id)
	if x == nil && len(table.Rows(id)) == 0 {
		return nil, append(diags, unknown...).Sorted()
	}
	if x == nil {
		x = &Item{ID: id}
		for _, d := range unknown {
			d.Severity = diag.Warning
			diags.Add(d)
		}
	}
	m := &market{family: x.family, rules: settings.PriceRules, table: table, rates: rates, on: on}
	r := m.priceReport(x)
	r.Demonstration = l.demonstration
	if diags = append(diags, m.diags...); diags.HasErrors() {
		return nil, diags.Sorted()
	}
	return r, diags.Sorted()
}

// priceReport reports on an item. What goes wrong is kept in the market.
func (m *market) priceReport(x *Item) *PriceReport {
	r := &PriceReport{Format: 1, Item: x.ID, Title: x.Title, Date: m.on.Format(dayFormat), Currency: string(m.rules.Home), Model: x.Model()}
	item := prices.Item{ID: x.ID}
	if x.Model() {
		item = m.model(x.variant)
		r.Grade = reference(x.family.Grades)
	}
	if x.guide != nil {
		guide := estimate(m.home(*x.guide), m.rules.Home)
		r.Guide = &guide
	}
	e := m.estimate(item, x.guide)
	if len(m.diags) > 0 {
		return r
	}
	r.Rows = []PriceRow{}
	r.Sell, r.Buy = m.priceRanges(&e)
	r.SetAside = e.SetAside
	for _, row := range m.table.Rows(x.ID) {
		if row.Day.After(m.on) {
			r.Later++
		}
	}
	for i := range e.Uses {
		r.Rows = append(r.Rows, m.priceRow(&e.Uses[i], item))
	}
	slices.SortStableFunc(r.Rows, func(a, b PriceRow) int { return a.Day.Compare(b.Day) })
	r.Trend = trendOf(e.Trend())
	s := m.table.Scarcity(x.ID, m.rules, m.on)
	r.Find = PriceFind{s.Sightings, int(s.Days), m.rules.FindWithinDays, Share(s.FindChance), s.Scarce}
	return r
}

// priceRanges are what an item brings and costs, nil where it has no price.
func (m *market) priceRanges(e *prices.Estimate) (sell, buy *PriceRange) {
	if !e.Priced {
		return nil, nil
	}
	money := func(f float64) Money { return estimate(f, m.rules.Home) }
	of := func(q *prices.Quote) *PriceRange {
		return &PriceRange{Mean: money(q.Mean), P10: money(q.Quantile(0.1)), P50: money(q.Quantile(0.5)), P90: money(q.Quantile(0.9))}
	}
	return of(&e.Sell), of(&e.Buy)
}

// priceRow says what was done to a row.
func (m *market) priceRow(u *prices.Use, item prices.Item) PriceRow {
	rate, day, err := m.rates.Rate(u.Row.Currency, m.rules.Home, u.Row.Day)
	if err != nil {
		m.fail(err) // the estimate has found it before
	}
	row := PriceRow{
		Line: u.Row.Line, Day: u.Row.Day, Date: u.Row.Day.Format(dayFormat), Kind: "sold",
		Grade: u.Row.Grade, Lacking: u.Row.Lacking, Currency: string(u.Row.Currency), Qty: u.Row.Qty,
		Price:   Money{atUnit(u.Row.Price, u.Row.Currency)},
		Postage: Money{atUnit(u.Row.Postage, u.Row.Currency)},
		Source:  u.Row.Source, Note: u.Row.Note,
		Rate: Share(rate.Float()), RateDate: day.Format(dayFormat),
		Home: estimate(u.Home, m.rules.Home), Paid: 1, Factor: 1,
		Weight: Share(u.Weight), Score: Share(u.Score),
	}
	if u.Row.Asked {
		row.Kind, row.Paid = "asked", Share(m.rules.AskedFactor)
	}
	if item.Factor != nil {
		if f, err := item.Factor(u.Row); err == nil { // the estimate has found it before
			row.Factor = Share(f)
		}
	}
	row.Sound = estimate(u.Home*float64(row.Paid)/float64(row.Factor), m.rules.Home)
	switch {
	case u.SetAside:
		row.SetAside = AsideForPrice
	case u.Buying.SetAside:
		row.SetAside, row.Score = AsideForPostage, Share(u.Buying.Score)
	}
	return row
}

func trendOf(t prices.Trend) PriceTrend {
	out := PriceTrend{Confidence: Share(t.Confidence), Rows: t.Rows, Lacking: t.Lacking}
	if t.Lacking == 0 {
		rate, low, high := t.Yearly()
		out.Rate, out.Low, out.High = Share(rate), Share(low), Share(high)
	}
	return out
}

// WriteJSON writes the report, indented.
func (r *PriceReport) WriteJSON(w io.Writer) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(true)
	enc.SetIndent("", "  ")
	return enc.Encode(r)
}
