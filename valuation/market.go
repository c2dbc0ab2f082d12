package valuation

import (
	"errors"
	"fmt"
	"time"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
	"lotgauge/valuation/prices"
)

// market is what everything costs and brings on one day, in the home currency.
type market struct {
	family *checklist.Family
	rules  prices.Rules
	table  *prices.Table
	rates  *prices.Rates
	on     time.Time

	models []prices.Estimate // by variant; only those that may be it
	parts  []prices.Estimate // by part of the family
	finds  []prices.Scarcity // by part
	diags  diag.List
}

// newMarket estimates the parts of the family and those variants that may be.
func newMarket(f *checklist.Family, rules prices.Rules, table *prices.Table, rates *prices.Rates, on time.Time, maybe func(v int) bool) *market {
	m := &market{family: f, rules: rules, table: table, rates: rates, on: on}
	m.models = make([]prices.Estimate, len(f.Variants))
	for v := range f.Variants {
		if maybe(v) {
			m.models[v] = m.estimate(m.model(v), f.Variants[v].Guide)
		}
	}
	m.parts, m.finds = make([]prices.Estimate, len(f.Parts)), make([]prices.Scarcity, len(f.Parts))
	for i := range f.Parts {
		p := &f.Parts[i]
		m.parts[i] = m.estimate(prices.Item{ID: p.ID}, p.Guide)
		m.finds[i] = table.Scarcity(p.ID, rules, on)
	}
	return m
}

// modelID is the item under which the price table keeps a variant.
func modelID(f *checklist.Family, v int) string { return f.ID + "/" + f.Variants[v].ID }

func (m *market) model(v int) prices.Item {
	return prices.Item{
		ID:     modelID(m.family, v),
		Factor: func(r prices.Row) (float64, error) { return saleFactor(m.family, r) },
	}
}

// estimate estimates an item. Where its guide cannot be converted that is
// reported, and where its price comes to nothing it has none.
func (m *market) estimate(item prices.Item, guide *money.Amount) prices.Estimate {
	if guide != nil {
		if item.Guide = m.home(*guide); item.Guide == 0 {
			return prices.Estimate{}
		}
		item.HasGuide = true
	}
	e, err := m.table.Estimate(item, m.rules, m.rates, m.on)
	if err != nil {
		m.fail(err)
	}
	if e.Sell.Values[0] <= 0 {
		e.Priced = false
	}
	return e
}

// home is an amount in the home currency at the market's day.
func (m *market) home(a money.Amount) float64 {
	rate, _, err := m.rates.Rate(a.Currency, m.rules.Home, m.on)
	if err != nil {
		m.fail(err)
		return 0
	}
	return rate.MulDecimal(a.Value).Float()
}

// conversion is what turns a sheet's currency into the home currency.
func (m *market) conversion(from money.Currency) charges.Conversion {
	rate, _, err := m.rates.Rate(from, m.rules.Home, m.on)
	if err != nil {
		m.fail(err)
	}
	return charges.Conversion{Rate: rate, Home: m.rules.Home}
}

// fail keeps an error of the price room; the same one is reported once.
func (m *market) fail(err error) {
	var list diag.List
	var d diag.Diagnostic
	var rate *prices.RateError
	switch {
	case errors.As(err, &list):
	case errors.As(err, &d):
		list = diag.List{d}
	case errors.As(err, &rate):
		list = diag.List{noRate(rate)}
	default:
		list = diag.List{{Severity: diag.Error, Summary: err.Error()}}
	}
	m.diags = append(m.diags, list...).Sorted()
}

// noRate says in which file a rate is missing and how to mend it.
func noRate(e *prices.RateError) diag.Diagnostic {
	d := diag.Diagnostic{
		Severity: diag.Error, Pos: diag.Pos{File: e.File}, Summary: e.Error(),
		Expected: fmt.Sprintf("a rate of %s from at most %d days before", e.Currency, prices.MaxRateAge),
		Try:      "add the day to the file, as the European Central Bank publishes it",
	}
	switch {
	case e.NoFile:
		d.Expected, d.Try = "exchange rates in "+e.File, "lotgauge rates update FILE, with the file that the European Central Bank publishes"
	case e.NoColumn:
		d.Expected, d.Try = fmt.Sprintf("a column %s, in units for 1 EUR", e.Currency), "lotgauge rates update FILE if the European Central Bank publishes it, or add the column"
	}
	return d
}

// saleFactor is what the price of a model is divided by to bring it to the
// reference grade, sound: its grade's factor times those of what it lacked. The
// error is a [diag.List] of all that the family does not know, without places.
func saleFactor(f *checklist.Family, r prices.Row) (float64, error) {
	factor := 1.0
	var faults diag.List
	times := func(x float64, err error) {
		var d diag.Diagnostic
		if factor *= x; errors.As(err, &d) {
			faults.Add(d)
		}
	}
	if r.Grade != "" {
		times(gradeFactor(f, r.Grade))
	}
	for _, l := range lackings(r.Lacking) {
		times(lackingFactor(f, l))
	}
	if len(faults) > 0 {
		return 0, faults
	}
	if factor <= 0 {
		return 0, fmt.Errorf("a sale at factor 0 says nothing of the price of a sound one")
	}
	return factor, nil
}

func gradeFactor(f *checklist.Family, id string) (float64, error) {
	for _, g := range f.Grades {
		if g.ID == id {
			return g.Factor, nil
		}
	}
	known := ids(f.Grades, func(g checklist.Grade) string { return g.ID })
	return 0, unknownInRow("grade", "family "+f.ID+" has no grade "+quoted(id), id, known)
}

func lackingFactor(f *checklist.Family, l lacking) (float64, error) {
	i := f.PointIndex(l.point)
	if i < 0 {
		return 0, unknownInRow("lacking", "family "+f.ID+" has no point "+quoted(l.point), l.point, pointIDs(f))
	}
	p := &f.Points[i]
	s := p.StateIndex(l.state)
	if s < 0 {
		return 0, unknownInRow("lacking", "point "+quoted(l.point)+" has no state "+quoted(l.state), l.state, stateIDs(p))
	}
	return p.States[s].Factor, nil
}

// unknownInRow is the error for a name in a cell that the family does not know.
func unknownInRow(column, summary, name string, known []string) diag.Diagnostic {
	near, _ := diag.Nearest(name, known)
	return diag.Diagnostic{Severity: diag.Error, Key: column, Summary: summary, Expected: oneOfThese(known), Try: near}
}

// oneOfThese is what a name is expected to be, "" where there are too many to
// be read.
func oneOfThese(known []string) string {
	const most = 20
	if len(known) > most {
		return ""
	}
	return "one of " + listed(known)
}
