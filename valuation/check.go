package valuation

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
	"lotgauge/valuation/prices"
)

// Checked is what a check has proved sound.
type Checked struct {
	Families, Sheets, Rows int
}

// Check proves the whole folder sound: every file reads, every id and template
// resolves, every rule can fire, every part has a price or a guide, every price
// row names something known and can be converted.
func (l *Library) Check() (Checked, diag.List) {
	var done Checked
	var diags diag.List
	settings := need(&diags, l.Settings)
	table := need(&diags, l.Prices)
	rates := need(&diags, l.Rates)
	ids := need(&diags, l.Sheets)
	for _, id := range ids {
		need(&diags, func() (any, diag.List) { s, d := l.Sheet(id); return s, d })
	}
	done.Sheets = len(ids)
	families := l.checkFamilies(&diags)
	done.Families = len(families)
	if settings != nil {
		l.checkDefaults(settings, &diags)
		if rates != nil && settings.Currency != "" {
			l.checkCurrencies(settings.Currency, rates, families, &diags)
		}
	}
	if settings != nil && settings.Currency != "" && table != nil && rates != nil {
		c := &tableCheck{families: families, settings: settings, table: table, rates: rates}
		listed, _ := l.Families()
		c.partial = len(families) < len(listed)
		c.parts()
		c.rows()
		diags = append(diags, c.diags...)
		done.Rows = table.Len()
	}
	return done, diags.Sorted()
}

// checkFamilies proves every family; those without errors are returned.
func (l *Library) checkFamilies(diags *diag.List) []*checklist.Family {
	ids := need(diags, l.Families)
	var out []*checklist.Family
	owner := map[string]string{}
	for _, id := range ids {
		f, doc, ds := l.readFamily(id)
		if f != nil {
			checklist.Prove(f, doc)
			l.checkOwners(f, doc, owner)
			ds = doc.Diagnostics()
		}
		if !ds.HasErrors() {
			out = append(out, f)
		}
		*diags = append(*diags, ds...)
	}
	return out
}

// checkOwners reports part ids that two families define: part ids are one
// namespace over the folder.
func (l *Library) checkOwners(f *checklist.Family, doc *diag.Document, owner map[string]string) {
	tables := doc.Root().Children("part")
	for _, t := range tables {
		id := t.Text("id")
		if first, taken := owner[id]; taken && first != f.ID && id != "" {
			t.Report("id", "part "+quoted(id)+" is defined in family "+quoted(first)+" too", "an id of its own, or no definition here: a part may be used without one", "")
			continue
		}
		owner[id] = f.ID
	}
}

// checkDefaults reports settings that name sheets which are not there, or which
// are for the other side of a deal.
func (l *Library) checkDefaults(s *Settings, diags *diag.List) {
	for _, d := range []struct {
		key, id string
		side    charges.Side
	}{{"buy", s.Buy, charges.Buy}, {"sell", s.Sell, charges.Sell}, {"sell_parts", s.SellParts, charges.Sell}} {
		if d.id != "" {
			var own diag.List
			l.sheetFor(d.key, d.id, s.sheetPos(d.key, l.shown(settingsFile)), d.side, &own)
			*diags = append(*diags, own...)
		}
	}
}

// checkCurrencies reports currencies of sheets and families that cannot be
// converted by the newest rates.
func (l *Library) checkCurrencies(home money.Currency, rates *prices.Rates, families []*checklist.Family, diags *diag.List) {
	_, newest, _ := rates.Span()
	check := func(c money.Currency, file, what string) {
		_, _, err := rates.Rate(c, home, newest)
		var missing *prices.RateError
		if errors.As(err, &missing) {
			d := noRate(missing)
			d.Pos, d.Summary = diag.Pos{File: file}, what+" is in "+string(c)+": "+d.Summary
			diags.Add(d)
		}
	}
	ids, _ := l.Sheets()
	for _, id := range ids {
		if s, ds := l.Sheet(id); !ds.HasErrors() {
			check(s.Currency, l.shown(entryFile(sheetsDir, id)), "the sheet")
		}
	}
	for _, f := range families {
		eachAmount(f, func(a *money.Amount, what string) { check(a.Currency, f.File, what) })
	}
}

// eachAmount visits the money that a family names.
func eachAmount(f *checklist.Family, visit func(a *money.Amount, what string)) {
	see := func(a *money.Amount, what string) {
		if a != nil {
			visit(a, what)
		}
	}
	for _, v := range f.Variants {
		see(v.Guide, "the guide of variant "+quoted(v.ID))
	}
	for _, p := range f.Parts {
		if !p.Foreign {
			see(p.Guide, "the guide of part "+quoted(p.ID))
		}
	}
	for _, p := range f.Points {
		for _, s := range p.States {
			see(s.Spend, "what is spent on "+p.ID+", "+s.ID+",")
		}
	}
}

// tableCheck holds the price table against the families.
type tableCheck struct {
	families []*checklist.Family
	settings *Settings
	table    *prices.Table
	rates    *prices.Rates
	diags    diag.List
	known    []string
	partial  bool // some family could not be read: an item may be one of its
	unrated  []unrated
}

// unrated is a currency that rows cannot be converted from, or not to the home
// currency: the error of the first of them in the file, and how many there are.
type unrated struct {
	err         *prices.RateError
	line, count int
}

// parts reports parts and variants that have neither a price nor a guide.
func (c *tableCheck) parts() {
	priced := map[string]bool{}
	for _, item := range c.table.Items() {
		priced[item] = true
	}
	for _, f := range c.families {
		for _, p := range f.Parts {
			c.known = append(c.known, p.ID)
			if p.Guide == nil && !priced[p.ID] && !p.Foreign {
				c.unpriced(f, "part", p.ID, p.ID)
			}
		}
		for v := range f.Variants {
			id := modelID(f, v)
			c.known = append(c.known, id)
			if f.Variants[v].Guide == nil && !priced[id] {
				c.unpriced(f, "variant", f.Variants[v].ID, id)
			}
		}
	}
}

func (c *tableCheck) unpriced(f *checklist.Family, kind, name, item string) {
	c.diags.Add(diag.Diagnostic{
		Severity: diag.Error, Pos: diag.Pos{File: f.File},
		Summary:  kind + " " + quoted(name) + " has neither a price nor a guide",
		Expected: "a row for " + item + " in " + c.table.File() + `, or guide = "12 EUR"`,
	})
}

// rows reports price rows for unknown items, and those that cannot be used.
func (c *tableCheck) rows() {
	for _, item := range c.table.Items() {
		if !slices.Contains(c.known, item) {
			if !c.partial {
				near, _ := diag.Nearest(item, c.known)
				c.warn(c.table.Rows(item)[0].Line, "no family knows the item "+quoted(item), near)
			}
			continue
		}
		model := c.model(item)
		for _, row := range c.table.Rows(item) {
			c.row(row, model)
		}
	}
	for _, u := range c.unrated {
		d := noRate(u.err)
		d.Pos = diag.Pos{File: c.table.File(), Line: u.line}
		if u.count > 1 {
			d.Summary += ", which " + strconv.Itoa(u.count) + " rows need, this one first"
		}
		c.diags.Add(d)
	}
}

// model is the family of an item that is a model, nil for a part.
func (c *tableCheck) model(item string) *checklist.Family {
	family, _, isModel := strings.Cut(item, "/")
	for _, f := range c.families {
		if isModel && f.ID == family {
			return f
		}
	}
	return nil
}

func (c *tableCheck) row(row prices.Row, model *checklist.Family) {
	if model != nil {
		if _, err := saleFactor(model, row); err != nil {
			c.fail(row.Line, err)
		}
	}
	_, _, err := c.rates.Rate(row.Currency, c.settings.Currency, row.Day)
	var missing *prices.RateError
	if errors.As(err, &missing) {
		c.noRate(row.Line, missing)
	}
}

// noRate counts a row that cannot be converted. One diagnostic a currency says
// what there is to do; one a row would hide the others.
func (c *tableCheck) noRate(line int, missing *prices.RateError) {
	i := slices.IndexFunc(c.unrated, func(u unrated) bool { return u.err.Currency == missing.Currency })
	if i < 0 {
		c.unrated = append(c.unrated, unrated{missing, line, 1})
		return
	}
	u := &c.unrated[i]
	u.count++
	if line < u.line {
		u.err, u.line = missing, line
	}
}

// fail reports why a row cannot be used, all that there is to say.
func (c *tableCheck) fail(line int, err error) {
	var list diag.List
	if !errors.As(err, &list) {
		list = diag.List{{Severity: diag.Error, Summary: err.Error()}}
	}
	for _, d := range list {
		d.Pos = diag.Pos{File: c.table.File(), Line: line}
		c.diags.Add(d)
	}
}

func (c *tableCheck) warn(line int, summary, try string) {
	c.diags.Add(diag.Diagnostic{Severity: diag.Warning, Pos: diag.Pos{File: c.table.File(), Line: line}, Summary: summary, Try: try})
}
