package valuation

import (
	"slices"
	"strconv"
	"time"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// prepare reads what the appraisal needs and holds the listing against the
// family and the charge sheets. All that is wrong is reported at once: a file
// that cannot be used keeps only from being said what would rest on it.
func (l *Library) prepare(x *Listing, o Options) (*appraiser, diag.List) {
	diags := slices.Clone(x.faults)
	a := &appraiser{listing: x, on: x.Date, demo: l.demonstration}
	if a.on.IsZero() {
		a.on = time.Date(o.Today.Year(), o.Today.Month(), o.Today.Day(), 0, 0, 0, 0, time.UTC)
	}
	a.settings = need(&diags, l.Settings)
	a.family = need(&diags, func() (*checklist.Family, diag.List) { return l.familyOf(x) })
	a.table = need(&diags, l.Prices)
	a.rates = need(&diags, l.Rates)
	if a.settings != nil {
		a.draws, a.seed = a.settings.Draws, a.settings.Seed
		a.demo = a.demo || a.settings.Demonstration
		a.sheets(l, &diags)
	}
	if o.Draws > 0 {
		a.draws = o.Draws
	}
	if o.SeedSet {
		a.seed = o.Seed
	}
	a.checkMoney(&diags)
	a.checkRoutes(&diags)
	if a.family != nil {
		diags = append(diags, a.resolve()...)
	}
	if !diags.HasErrors() {
		diags = append(diags, l.strays(a.family, a.table)...)
	}
	return a, diags
}

// resolve holds what the listing says of its model against the family.
func (a *appraiser) resolve() diag.List {
	r := &resolver{listing: a.listing, family: a.family, settings: a.settings}
	a.variant = r.variant()
	a.findings = r.findings()
	a.readings = r.readings
	return r.diags
}

// need takes a loaded value and keeps its diagnostics.
func need[T any](diags *diag.List, load func() (T, diag.List)) T {
	v, d := load()
	*diags = append(*diags, d...)
	return v
}

// familyOf is the listing's family, nil where it has errors; an unknown one is
// reported in the listing. Which one a listing is of may not have been read.
func (l *Library) familyOf(x *Listing) (*checklist.Family, diag.List) {
	if x.Family == "" && x.faults.HasErrors() {
		return nil, nil
	}
	f, diags := l.Family(x.Family)
	if _, folder := l.Families(); !l.has(familiesDir, x.Family) && !folder.HasErrors() {
		diags = moved(diags, x.pos("family"))
	}
	if diags.HasErrors() {
		f = nil
	}
	return f, diags
}

// moved are diagnostics put in another place: where an unknown name stands.
func moved(list diag.List, at diag.Pos) diag.List {
	out := slices.Clone(list)
	for i := range out {
		out[i].Pos = at
	}
	return out
}

// sheets loads the charge sheets that the listing or else the settings name.
func (a *appraiser) sheets(l *Library, diags *diag.List) {
	pick := func(key, own, fallback string, side charges.Side) *charges.Sheet {
		at, id := a.listing.pos(key), own
		if a.listing.root.Unread(key) {
			return nil // not the settings' either
		}
		if id == "" {
			id, at = fallback, a.settings.sheetPos(key, l.shown(settingsFile))
		}
		if id == "" && l.settings.diags.HasErrors() {
			return nil // it may be what could not be read
		}
		return l.sheetFor(key, id, at, side, diags)
	}
	x, s := a.listing, a.settings
	a.buy = pick("buy", x.Buy, s.Buy, charges.Buy)
	a.sell = pick("sell", x.Sell, s.Sell, charges.Sell)
	a.parts = pick("sell_parts", x.SellParts, s.SellParts, charges.Sell)
}

// sheetFor loads a sheet of the given side; where it is not to be had, that is
// reported where it was named, and there is none.
func (l *Library) sheetFor(key, id string, at diag.Pos, side charges.Side, diags *diag.List) *charges.Sheet {
	d := diag.Diagnostic{Severity: diag.Error, Pos: at}
	if !l.has(sheetsDir, id) { // the folder may be to blame, not who names a sheet
		if _, missing := l.Sheets(); missing.HasErrors() {
			*diags = append(*diags, missing...)
			return nil
		}
	}
	if id == "" {
		known, _ := l.Sheets()
		d.Summary, d.Expected = "no charge sheet named for "+key, key+" = one of "+listed(known)
		diags.Add(d)
		return nil
	}
	s, ds := l.Sheet(id)
	if !l.has(sheetsDir, id) {
		ds = moved(ds, at)
	}
	*diags = append(*diags, ds...)
	switch {
	case s == nil || ds.HasErrors():
		return nil
	case s.Side != side:
		d.Summary = "charge sheet " + quoted(id) + " is for the other side of a deal"
		d.Expected = `a sheet with side = "buy" to buy by, side = "sell" to sell by`
		diags.Add(d)
		return nil
	}
	return s
}

// checkMoney checks that the listing's amounts are in the sheet's currency, where
// it is known by which sheet to buy.
func (a *appraiser) checkMoney(diags *diag.List) {
	if a.buy == nil {
		return
	}
	check := func(key string, m *money.Amount, want money.Currency) {
		if m != nil && m.Currency != want {
			diags.Add(diag.Diagnostic{
				Severity: diag.Error, Pos: a.listing.pos(key),
				Summary:  key + " in " + string(m.Currency) + ", but the charge sheet " + quoted(a.buy.ID) + " is in " + string(want),
				Expected: "an amount in " + string(want) + ", or another sheet under buy",
			})
		} else if m != nil && -m.Value.Exponent() > want.Digits() && !m.Value.Equal(m.Value.Truncate(want.Digits())) {
			diags.Add(diag.Diagnostic{
				Severity: diag.Error, Pos: a.listing.pos(key),
				Summary: key + " in parts of the smallest coin: " + m.String(), Expected: "at most " + strconv.Itoa(int(want.Digits())) + " decimals",
			})
		}
	}
	check("ask", a.listing.Ask, a.buy.Currency)
	if h := a.listing.Hammer; h != nil {
		check("hammer", &h.Low, a.buy.Currency)
		check("hammer", &h.High, a.buy.Currency)
	}
}

// checkRoutes checks that some way out is open: keeping it alone needs to be
// worth something.
func (a *appraiser) checkRoutes(diags *diag.List) {
	if a.listing.KeepWorth == nil && !a.listing.root.Unread("keep_worth") && slices.Contains(a.listing.Routes, RouteNames[keepIt]) {
		diags.Add(diag.Diagnostic{
			Severity: diag.Error, Pos: a.listing.pos("routes"),
			Summary:  "route keep without what keeping it is worth",
			Expected: `keep_worth = "150 EUR", or the route left out`,
		})
	}
}
