package valuation

import (
	"slices"
	"time"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

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
	unread := slices.ContainsFunc(unknown, func(d diag.Diagnostic) bool { return d.Pos.File != "" }) // a family: it may be one of it
	if x == nil && (unread || len(table.Rows(id)) == 0) {
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
