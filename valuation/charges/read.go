package charges

import (
	"fmt"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// MaxEach is how many charges, tiers of a charge and increments a sheet may
// have at most.
const MaxEach = 100

// What keys expect, in words.
const (
	aCurrency = `an ISO 4217 code such as "EUR"`
	anAmount  = `an amount without its currency, such as "9.50"`
	aRate     = `a rate such as "25%" or "1/6"`
)

// A reader is a sheet half read.
type reader struct {
	sheet *Sheet
	named []string // the lines so far, in order: the first line, then charges
	later []string // the charges from the present one on

	// What could not be read, and has been reported: what names it is not at fault.
	sideless bool // the side of the sheet
	nameless bool // the id of some charge
}

// Read reads a charge sheet. What is wrong goes into doc, all of it in one go.
// The sheet is never nil, but fit for use only if doc then has no errors.
func Read(doc *diag.Document) *Sheet {
	r := &reader{sheet: &Sheet{Side: Buy}}
	t := doc.Root()
	r.header(t)
	r.increments(t)
	r.charges(t)
	if r.sheet.Side == Buy && !r.sideless && r.sheet.runs() > maxRuns {
		t.Report("charge", "the charges can fall in too many combinations as the bid rises",
			fmt.Sprintf("fewer tiers that fall and up_to bounds: at most %d combinations", maxRuns), "")
	}
	t.Finish()
	return r.sheet
}

// header reads what concerns the whole sheet. The currency comes before all
// amounts, since it says how fine they may be.
func (r *reader) header(t *diag.Table) {
	s := r.sheet
	if t.Need("format", "format = 1") {
		t.Integer("format", 1, 1, 1)
	}
	s.ID = t.ID("id")
	s.Title = titled(t, s.ID)
	t.Need("side", `"buy" or "sell"`)
	switch t.Choice("side", "", "buy", "sell") {
	case "":
		r.sideless = true
	case "sell":
		s.Side = Sell
	}
	if t.Need("currency", aCurrency) {
		s.Currency, _ = diag.Parse(t, "currency", aCurrency, money.ParseCurrency)
	}
	s.Rounding = rounding(t, money.HalfUp)
	r.margin(t)
	r.valid(t)
}

// titled is the title of a table, its id if it has none.
func titled(t *diag.Table, id string) string {
	if title := t.Text("title"); title != "" {
		return title
	}
	return id
}

// rounding reads the key rounding, def where it is not there.
func rounding(t *diag.Table, def money.Rounding) money.Rounding {
	name := t.Choice("rounding", def.String(), money.HalfUp.String(), money.HalfEven.String(), money.Down.String())
	rule, _ := money.ParseRounding(name) // Choice has seen to it
	return rule
}

// margin reads convert, which only a buying sheet has: a card's surcharge makes
// a purchase dearer, and there is none on money that comes in.
func (r *reader) margin(t *diag.Table) {
	convert := t.Child("convert")
	if convert == nil {
		return
	}
	if r.sheet.Side == Sell {
		t.Report("convert", "a selling sheet converts nothing", "no convert: what is received is converted at the day's rate", "")
	}
	if convert.Need("margin", aRate) {
		r.sheet.Margin, _ = diag.Parse(convert, "margin", aRate, money.ParseRate)
	}
}

// valid reads the first and the last day.
func (r *reader) valid(t *diag.Table) {
	if !t.Has("valid") {
		return
	}
	const expected = "the first and the last day, such as [2026-07-01, 2028-06-30]"
	switch days := t.Dates("valid"); {
	case len(days) != 2:
		t.Report("valid", fmt.Sprintf("it has %d of two dates", len(days)), expected, "")
	case days[1].Before(days[0]) && !days[1].IsZero(): // zero: it was no date
		t.Report("valid", "the last day is before the first", expected, "")
	default:
		r.sheet.ValidFrom, r.sheet.ValidTo = days[0], days[1]
	}
}

// increments reads the ladder: it begins at 0 and ascends.
func (r *reader) increments(t *diag.Table) {
	if t.Has("increment") && r.sheet.Side == Sell {
		t.Report("increment", "a sale has no bids", "no increment on a selling sheet", "")
	}
	for _, c := range capped(t, "increment") {
		r.increment(c)
	}
}

// increment reads one stretch of it.
func (r *reader) increment(t *diag.Table) {
	var rung Rung
	if step := r.exact(t, "step"); t.Need("step", anAmount) && step != nil {
		rung.Step = *step
		positive(t, "step", step)
	}
	before := r.sheet.Increment
	if from := r.exact(t, "from"); t.Need("from", anAmount) && from != nil {
		rung.From = *from
		if len(before) == 0 && from.Sign() != 0 {
			t.Report("from", "the lowest bids have no step", `from = "0" in the first increment`, "")
		}
		if n := len(before); n > 0 && from.LessThanOrEqual(before[n-1].From) {
			t.Report("from", "the increments do not ascend", "more than "+before[n-1].From.String(), "")
		}
	}
	r.sheet.Increment = append(before, rung)
}

// capped is the tables of an array, cut at MaxEach.
func capped(t *diag.Table, key string) []*diag.Table {
	all := t.Children(key)
	if len(all) > MaxEach {
		t.Report(key, fmt.Sprintf("%d entries", len(all)), fmt.Sprintf("at most %d", MaxEach), "")
		all = all[:MaxEach]
	}
	return all
}

// amount reads an optional amount, nil where there is none.
func (r *reader) amount(t *diag.Table, key string) *decimal.Decimal {
	d, ok := diag.Parse(t, key, anAmount, money.ParsePlain)
	if !ok {
		return nil
	}
	return &d
}

// exact is amount for what can be paid or bid: a multiple of the minor unit.
// Anything else is nil.
func (r *reader) exact(t *diag.Table, key string) *decimal.Decimal {
	d := r.amount(t, key)
	unit := r.sheet.Currency.Unit()
	if d != nil && r.sheet.Currency != "" && !money.Down.RoundDecimal(*d, unit).Equal(*d) {
		t.Report(key, fmt.Sprintf("%s is finer than the smallest amount of %s", d, r.sheet.Currency), "a multiple of "+unit.String(), "")
		return nil
	}
	return d
}

// positive reports an amount that is 0. Below that none is read.
func positive(t *diag.Table, key string, d *decimal.Decimal) {
	if d != nil && d.Sign() == 0 {
		t.Report(key, "it is 0", "an amount above 0", "")
	}
}

// ordered reports a lower bound that is above the upper one.
func ordered(t *diag.Table, low, high string, least, most *decimal.Decimal) {
	if least != nil && most != nil && least.GreaterThan(*most) {
		t.Report(high, fmt.Sprintf("%s is below %s", high, low), "at least "+least.String(), "")
	}
}
