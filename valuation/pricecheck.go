package valuation

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/prices"
)

// CheckPrices proves the price table and the rates sound, as far as they go: all
// that [Library.Check] says of them, and beyond it warnings of rows that can be
// right and seldom are: dated after the day today, there twice, a price that does
// not fit the others of its item, a text that a spreadsheet takes for a formula.
// What is wrong with the families is not said, but that they could not be read.
func (l *Library) CheckPrices(today time.Time) (Checked, diag.List) {
	var diags diag.List
	settings := need(&diags, l.Settings)
	table := need(&diags, l.Prices)
	rates := need(&diags, l.Rates)
	ids := need(&diags, l.Families)
	if settings == nil || settings.Currency == "" || table == nil || rates == nil {
		return Checked{}, diags.Sorted()
	}
	c := &tableCheck{settings: settings, table: table, rates: rates}
	for _, id := range ids {
		f, ds := l.Family(id)
		if ds.HasErrors() {
			c.partial = true
			diags.Add(diag.Diagnostic{Severity: diag.Warning, Pos: diag.Pos{File: l.shown(familiesDir + "/" + id + ".toml")},
				Summary: "has errors: the prices of its items are not checked", Try: "lotgauge check to see them"})
			continue
		}
		c.families = append(c.families, f)
	}
	c.parts()
	c.rows()
	d := &doubts{tableCheck: c, today: today}
	for _, item := range table.Items() {
		d.item(item)
	}
	return Checked{Families: len(c.families), Rows: table.Len()}, append(diags, c.diags...).Sorted()
}

// doubts looks for rows that can be right and seldom are.
type doubts struct {
	*tableCheck
	today time.Time
}

func (d *doubts) item(item string) {
	first := map[string]int{} // lines, by what the rows say
	for _, row := range d.table.Rows(item) {
		if row.Day.After(d.today) {
			d.warn(row.Line, "the day "+row.Day.Format(dayFormat)+" has not come yet", "")
		}
		for _, text := range []string{row.Source, row.Note} {
			if strings.IndexAny(text, "=+-@") == 0 {
				d.warn(row.Line, "a spreadsheet would take "+quoted(text)+" for a formula", "lotgauge prices export, which guards it, to open it in one")
			}
		}
		seen := said(row)
		if line, twice := first[seen]; twice {
			d.warn(row.Line, fmt.Sprintf("says the same as line %d: is one sale there twice?", line), "")
		} else {
			first[seen] = row.Line
		}
	}
	d.odd(item)
}

// said is all that a row says but its note.
func said(row prices.Row) string {
	row.Note = ""
	return strings.Join(prices.FormatRow([]string{"date", "kind", "grade", "lacking", "price", "currency", "postage", "qty", "source"}, row), "\x00")
}

// odd warns of the rows that estimates of today set aside. An item that cannot
// be estimated has been reported.
func (d *doubts) odd(item string) {
	m := &market{family: d.model(item), rules: d.settings.PriceRules, table: d.table, rates: d.rates, on: d.today}
	x := prices.Item{ID: item}
	if m.family != nil {
		_, variant, _ := strings.Cut(item, "/")
		v := slices.Index(ids(m.family.Variants, func(v checklist.Variant) string { return v.ID }), variant)
		if v < 0 {
			return
		}
		x = m.model(v)
	}
	e, err := d.table.Estimate(prices.Item{ID: x.ID, Factor: x.Factor}, m.rules, m.rates, m.on)
	if err != nil {
		return
	}
	for i := range e.Uses {
		u := &e.Uses[i]
		switch {
		case u.SetAside:
			d.warn(u.Row.Line, "the price does not fit the others of "+item+" and is set aside", "lotgauge prices show "+item)
		case u.Buying.SetAside:
			d.warn(u.Row.Line, "the price with postage does not fit the others of "+item+" and is set aside for buying", "lotgauge prices show "+item)
		}
	}
}
