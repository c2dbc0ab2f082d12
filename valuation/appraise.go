package valuation

import (
	"errors"
	"slices"
	"strconv"
	"time"

	"lotgauge/valuation/belief"
	"lotgauge/valuation/charges"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
	"lotgauge/valuation/prices"

	"github.com/shopspring/decimal"
)

// enumerable is up to how many joint outcomes are summed one by one. Above, the
// figures that no sum over points gives are taken over the draws.
const enumerable = 30_000

// Options are what the caller may set for one appraisal.
type Options struct {
	Draws   int       // 0: the settings'
	Seed    uint64    // used if SeedSet
	SeedSet bool      // otherwise the settings'
	Today   time.Time // for a listing without a date
}

// Appraise appraises a listing. The appraisal is nil if, and only if, the
// diagnostics have errors. A missing price is no error: the appraisal then has
// no figure that rests on it, and says what is missing.
func (l *Library) Appraise(x *Listing, o Options) (*Appraisal, diag.List) {
	a, diags := l.run(x, o)
	if a == nil {
		return nil, diags
	}
	return a.report(), diags
}

// run does all of an appraisal but the report. The appraiser is nil if, and
// only if, the diagnostics have errors; warnings of the files come along.
func (l *Library) run(x *Listing, o Options) (*appraiser, diag.List) {
	a, diags := l.prepare(x, o)
	for _, step := range []func() diag.List{a.infer, a.price} {
		if !diags.HasErrors() {
			diags = append(diags, step()...)
		}
	}
	if diags.HasErrors() {
		return nil, diags.Sorted()
	}
	a.evaluate()
	return a, diags.Sorted()
}

// appraiser is one appraisal under way.
type appraiser struct {
	listing  *Listing
	settings *Settings
	family   *checklist.Family
	on       time.Time
	draws    int
	seed     uint64
	demo     bool

	table *prices.Table
	rates *prices.Rates
	buy   *charges.Sheet
	sell  *charges.Sheet
	parts *charges.Sheet

	variant   int // named by the listing, or -1
	model     *belief.Model
	posterior *belief.Posterior
	prior     *belief.Posterior

	market   *market
	ledger   *ledger
	purchase purchase
	missing  []missing
	shut     [routes][]string // unpriced items by route, open or not
	drawn    *drawn
	expected *expected
	even     *decimal.Decimal // the break-even bid, nil for none
}

// prepare reads what the appraisal needs and holds the listing against the
// family. All that is wrong is reported at once.
func (l *Library) prepare(x *Listing, o Options) (*appraiser, diag.List) {
	var diags diag.List
	a := &appraiser{listing: x, on: x.Date, demo: l.demonstration}
	if a.on.IsZero() {
		a.on = time.Date(o.Today.Year(), o.Today.Month(), o.Today.Day(), 0, 0, 0, 0, time.UTC)
	}
	a.settings = need(&diags, l.Settings)
	a.family = need(&diags, func() (*checklist.Family, diag.List) { return l.familyOf(x) })
	a.table = need(&diags, l.Prices)
	a.rates = need(&diags, l.Rates)
	if a.settings == nil {
		return a, diags
	}
	a.draws, a.seed = a.settings.Draws, a.settings.Seed
	a.demo = a.demo || a.settings.Demonstration
	if o.Draws > 0 {
		a.draws = o.Draws
	}
	if o.SeedSet {
		a.seed = o.Seed
	}
	a.sheets(l, &diags)
	if !diags.HasErrors() {
		a.checkMoney(&diags)
		a.checkRoutes(&diags)
		diags = append(diags, l.strays(a.family, a.table)...)
	}
	return a, diags
}

// need takes a loaded value and keeps its diagnostics.
func need[T any](diags *diag.List, load func() (T, diag.List)) T {
	v, d := load()
	*diags = append(*diags, d...)
	return v
}

// familyOf is the listing's family; an unknown one is reported in the listing.
func (l *Library) familyOf(x *Listing) (*checklist.Family, diag.List) {
	f, diags := l.Family(x.Family)
	if !l.has(familiesDir, x.Family) {
		diags = moved(diags, x.pos("family"))
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
		if id == "" {
			id, at = fallback, a.settings.sheetPos(key, l.shown(settingsFile))
		}
		return l.sheetFor(key, id, at, side, diags)
	}
	x, s := a.listing, a.settings
	a.buy = pick("buy", x.Buy, s.Buy, charges.Buy)
	a.sell = pick("sell", x.Sell, s.Sell, charges.Sell)
	a.parts = pick("sell_parts", x.SellParts, s.SellParts, charges.Sell)
}

// sheetFor loads a sheet of the given side; where it is not to be had, that is
// reported where it was named.
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
	if s != nil && !ds.HasErrors() && s.Side != side {
		d.Summary = "charge sheet " + quoted(id) + " is for the other side of a deal"
		d.Expected = `a sheet with side = "buy" to buy by, side = "sell" to sell by`
		diags.Add(d)
	}
	return s
}

// checkMoney checks that the listing's amounts are in the sheet's currency.
func (a *appraiser) checkMoney(diags *diag.List) {
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
	if a.listing.KeepWorth == nil && slices.Contains(a.listing.Routes, RouteNames[keepIt]) {
		diags.Add(diag.Diagnostic{
			Severity: diag.Error, Pos: a.listing.pos("routes"),
			Summary:  "route keep without what keeping it is worth",
			Expected: `keep_worth = "150 EUR", or the route left out`,
		})
	}
}

// infer turns the findings into beliefs.
func (a *appraiser) infer() diag.List {
	r := &resolver{listing: a.listing, family: a.family, settings: a.settings}
	a.variant = r.variant()
	findings := r.findings()
	if r.diags.HasErrors() {
		return r.diags
	}
	a.model = newModel(a.family, a.variant)
	a.model.Readings = r.readings
	post, err := belief.InferFindings(a.model, findings, a.settings.Hidden)
	if err != nil {
		return diag.List{a.impossible(err)}
	}
	a.posterior = post
	a.prior, _ = belief.InferFindings(a.model, nil, a.settings.Hidden)
	return nil
}

// impossible says why nothing can be inferred from the findings.
func (a *appraiser) impossible(err error) diag.Diagnostic {
	d := diag.Diagnostic{Severity: diag.Error, Pos: diag.Pos{File: a.listing.File}, Summary: err.Error()}
	var c *belief.Contradiction
	if errors.As(err, &c) {
		d.Expected = "findings that can all be true"
		d.Try = "a trust below 1 for the doubtful one"
	}
	return d
}

// price estimates prices and fills the ledger.
func (a *appraiser) price() diag.List {
	chances := a.posterior.Variants()
	maybe := func(v int) bool { return chances[v] > 0 }
	m := newMarket(a.family, a.settings.PriceRules, a.table, a.rates, a.on, maybe)
	a.market = m
	a.purchase = purchase{sheet: a.buy, conv: m.conversion(a.buy.Currency)}
	sellAt, partsAt := m.conversion(a.sell.Currency), m.conversion(a.parts.Currency)
	if m.diags.HasErrors() {
		return m.diags
	}
	a.ledger = a.newLedger(newSale(a.sell, sellAt), newSale(a.parts, partsAt), maybe)
	if m.diags.HasErrors() {
		return m.diags
	}
	a.findMissing()
	return nil
}

func (a *appraiser) newLedger(sell, parts *sale, maybe func(v int) bool) *ledger {
	f, s := a.family, a.settings
	l := &ledger{
		family: f, market: a.market, sell: sell, parts: parts,
		bench:    s.BenchRate / 60,
		grading:  newGrading(f.Grades),
		accounts: make([]account, len(f.Variants)),
		sells:    make([]float64, len(f.Parts)),
	}
	l.takeDown = f.BreakMinutes * l.bench
	for i, p := range f.Parts {
		l.sells[i] = s.Sells
		if p.Sells != nil {
			l.sells[i] = *p.Sells
		}
	}
	l.newPieces()
	for v := range f.Variants {
		if maybe(v) {
			l.fill(v)
		}
	}
	a.openRoutes(l)
	return l
}

// openRoutes opens the routes that the listing names, else all; keeping it is
// open where the listing says what that is worth.
func (a *appraiser) openRoutes(l *ledger) {
	for r, name := range RouteNames {
		l.open[r] = len(a.listing.Routes) == 0
		for _, wanted := range a.listing.Routes {
			l.open[r] = l.open[r] || wanted == name
		}
	}
	l.open[keepIt] = a.listing.KeepWorth != nil
	if a.listing.KeepWorth != nil {
		l.keep = a.market.home(*a.listing.KeepWorth)
	}
}

// evaluate draws, and takes expectations exactly where the states can be
// summed. Under selling charges that are not straight the worths stay those of
// the draws.
func (a *appraiser) evaluate() {
	a.drawn, a.expected = a.ledger.throw(a.posterior.Draw(a.draws, a.seed), a.seed)
	if all, ok := a.posterior.Enumerate(enumerable); ok {
		exact := a.ledger.expect(all)
		if a.ledger.sell.straight {
			a.expected = exact
		} else {
			a.expected.takeStates(exact)
		}
	}
	if a.whole() {
		a.even = a.purchase.highest(a.expected.worth)
	}
}
