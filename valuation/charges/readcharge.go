package charges

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// reserved are the names of first lines, which no charge may have.
var reserved = []string{"hammer", "price"}

// charges reads all of them, in order. At each, named are the lines above, which
// it may rest on, and later the charges from itself on, which it may not: so
// there are no circles.
func (r *reader) charges(t *diag.Table) {
	tables := capped(t, "charge")
	for _, c := range tables {
		id := c.Text("id")
		r.later = append(r.later, id)
		r.nameless = r.nameless || id == ""
	}
	r.named = append(r.named, r.sheet.First())
	for _, c := range tables {
		charge := r.charge(c)
		r.sheet.Charges = append(r.sheet.Charges, charge)
		r.named = append(r.named, charge.ID)
		r.later = r.later[1:]
	}
}

// charge reads one. The sheet's rounding and the minor unit stand in for what
// it does not say.
func (r *reader) charge(t *diag.Table) Charge {
	c := Charge{ID: t.ID("id")}
	switch {
	case slices.Contains(reserved, c.ID):
		t.Report("id", c.ID+" is the name of the first line", "another id", "")
	case c.ID != "" && slices.Contains(r.named, c.ID):
		t.Report("id", fmt.Sprintf("the id %s is used twice", c.ID), "an id of its own for each charge", "")
	}
	c.Title = titled(t, c.ID)
	c.Memo = t.Flag("memo", false)
	c.Rounding = rounding(t, r.sheet.Rounding)
	c.RoundTo = r.sheet.Currency.Unit()
	if step := r.amount(t, "round_to"); step != nil {
		c.RoundTo = *step
		positive(t, "round_to", step)
	}
	r.kind(t, &c)
	c.When = r.when(t)
	return c
}

// kind reads what the charge is made of: an amount, or a rate on other lines.
func (r *reader) kind(t *diag.Table, c *Charge) {
	var given []string
	for _, key := range []string{"amount", "rate", "tiers"} {
		if t.Has(key) {
			given = append(given, key)
		}
	}
	switch {
	case len(given) == 0:
		t.Report("", "a charge without a figure", "amount, rate or tiers", "")
	case len(given) > 1:
		t.Report(given[1], given[1]+" beside "+given[0], "only one of amount, rate and tiers", "")
	}
	c.Amount = r.exact(t, "amount")
	c.On = r.resolve(t, "on")
	c.Tiers = r.tiers(t)
	c.Whole = t.Choice("tiering", "slice", "slice", "whole") == "whole"
	c.Allowance, c.WaivedUpTo = r.amount(t, "allowance"), r.amount(t, "waived_up_to")
	c.Min, c.Max = r.exact(t, "min"), r.exact(t, "max")
	ordered(t, "min", "max", c.Min, c.Max)
	if len(given) == 1 && given[0] != "amount" {
		t.Need("on", fmt.Sprintf("the lines it rests on, such as [%q]", r.sheet.First()))
		return
	}
	for _, key := range []string{"on", "tiering", "allowance", "min", "max", "waived_up_to"} {
		if len(given) == 1 && t.Has(key) {
			t.Report(key, key+" beside amount", "a fixed amount alone, or a rate", "")
		}
	}
}

// tiers reads tiers, or a plain rate as one. Bounds ascend, and only the last
// tier has none, so that every base has a rate.
func (r *reader) tiers(t *diag.Table) []Tier {
	rate, plain := diag.Parse(t, "rate", aRate, money.ParseRate)
	var tiers []Tier
	if plain {
		tiers = append(tiers, Tier{Rate: rate})
	}
	var below decimal.Decimal
	tables := capped(t, "tiers")
	for i, c := range tables {
		var tier Tier
		if c.Need("rate", aRate) {
			tier.Rate, _ = diag.Parse(c, "rate", aRate, money.ParseRate)
		}
		upTo, last := r.amount(c, "up_to"), i == len(tables)-1
		switch {
		case last && c.Has("up_to"):
			c.Report("up_to", "nothing is said about what is above", "a last tier without up_to", "")
		case !last && c.Need("up_to", "a bound: only the last tier has none") && upTo != nil:
			if tier.UpTo, tier.Bounded = *upTo, true; upTo.LessThanOrEqual(below) {
				c.Report("up_to", "the tiers do not ascend", "more than "+below.String(), "")
			}
			below = *upTo
		}
		tiers = append(tiers, tier)
	}
	if t.Has("tiers") && len(tables) == 0 {
		t.Report("tiers", "no tier", `at least one, such as { rate = "20%" }`, "")
	}
	return tiers
}

// when reads a condition, nil where there is none.
func (r *reader) when(t *diag.Table) *When {
	c := t.Child("when")
	if c == nil {
		return nil
	}
	w := &When{Above: r.amount(c, "above"), UpTo: r.amount(c, "up_to")}
	if c.Need("on", fmt.Sprintf("the lines that are compared, such as [%q]", r.sheet.First())) {
		w.On = r.resolve(c, "on")
	}
	if !c.Has("above") && !c.Has("up_to") {
		c.Report("", "a condition without a bound", "above or up_to", "")
	}
	if w.Above != nil && w.UpTo != nil && w.Above.GreaterThanOrEqual(*w.UpTo) {
		c.Report("up_to", "the condition never holds", "more than above, which is "+w.Above.String(), "")
	}
	return w
}
