package valuation

import (
	"errors"
	"time"

	"lotgauge/valuation/belief"
	"lotgauge/valuation/charges"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
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
	defer l.columns.end()
	a, diags := l.runWith(&l.columns, x, o)
	if a == nil {
		return nil, diags
	}
	return a.report(), diags
}

// run does all of an appraisal but the report. The appraiser is nil if, and
// only if, the diagnostics have errors; warnings of the files come along.
func (l *Library) run(x *Listing, o Options) (*appraiser, diag.List) { return l.runWith(nil, x, o) }

// runWith is run on columns that are on loan.
func (l *Library) runWith(columns *loan, x *Listing, o Options) (*appraiser, diag.List) {
	a, diags := l.prepare(x, o)
	a.loan = columns
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
	loan     *loan

	table *prices.Table
	rates *prices.Rates
	buy   *charges.Sheet
	sell  *charges.Sheet
	parts *charges.Sheet

	variant   int // named by the listing, or -1
	findings  []belief.Finding
	readings  []belief.Reading // that findings refer to
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

// infer turns the findings into beliefs.
func (a *appraiser) infer() diag.List {
	a.model = newModel(a.family, a.variant)
	a.model.Readings = a.readings
	post, err := belief.InferFindings(a.model, a.findings, a.settings.Hidden)
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
		family: f, market: a.market, sell: sell, parts: parts, loan: a.loan,
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
