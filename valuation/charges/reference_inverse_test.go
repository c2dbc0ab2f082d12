package charges_test

import (
	"fmt"
	"strings"
	"testing"
)

// inverse125 has an answer that depends on whether the lines are rounded.
func inverse125(t *testing.T, c *reference) {
	fees := func(more string) []string {
		var list []string
		for i, rate := range c.list("rates_on_price") {
			list = append(list, fmt.Sprintf(`id = "fee-%d"; on = ["hammer"]; rate = %q%s`, i+1, percent(rate), more))
		}
		return list
	}
	rounded := read(t, "buy", c.Currency, "", fees("")...)
	c.want(t, "largest_price_lines_rounded_half_up", highest(t, rounded, c.in("budget")))
	exact := read(t, "buy", c.Currency, "", fees(`; round_to = "0.0001"`)...)
	c.want(t, "largest_price", highest(t, exact, c.in("budget")))
}

// inverseNL has a duty that starts above a limit.
func inverseNL(t *testing.T, c *reference) {
	s := read(t, "buy", c.Currency, "",
		`id = "postage"; amount = "`+c.in("postage")+`"`,
		`id = "insurance"; amount = "`+c.in("insurance")+`"`,
		`id = "duty"; on = ["hammer", "postage", "insurance"]; rate = "`+c.percent("duty_rate")+`"; when = { on = ["hammer"], above = "`+c.in("duty_above")+`" }`,
		`id = "vat"; on = ["hammer", "postage", "insurance", "duty"]; rate = "`+c.percent("vat_rate")+`"`,
	)
	bid := highest(t, s, c.in("budget"))
	c.want(t, "largest_goods", bid)
	if _, ok := c.Expected["landed_there"]; ok {
		c.want(t, "landed_there", s.Landed(bid, home("EUR")))
		c.want(t, "landed_one_cent_more", s.Landed(bid.Add(dec("0.01")), home("EUR")))
	}
}

// inverseSlab has rates on the whole price that rise: the bands named in the
// section of the example.
func inverseSlab(t *testing.T, c *reference) {
	s := read(t, "buy", c.Currency, `increment = [ { from = "0", step = "1" } ]`, `id = "duty"; on = ["hammer"]; tiering = "whole"
		tiers = [ { up_to = "125000", rate = "0%" }, { up_to = "250000", rate = "1%" }, { up_to = "500000", rate = "3%" }, { rate = "4%" } ]`)
	for _, price := range c.list("prices") {
		c.want(t, "total_at_"+price, apply(s, price)["total"])
	}
	// Between the two totals the lower price is the highest one.
	if got := highest(t, s, "257501.02"); !got.Equal(dec("250000")) {
		t.Errorf("one cent below the second total: got %s", got)
	}
	if got := highest(t, s, "257501.03"); !got.Equal(dec("250001")) {
		t.Errorf("at the second total: got %s", got)
	}
}

// inverseHole has a rate on the whole price that falls.
func inverseHole(t *testing.T, c *reference) {
	var tiers []string
	for _, tier := range c.list("tiers_whole") {
		bound, rate, _ := strings.Cut(tier, ":")
		upTo := fmt.Sprintf("up_to = %q, ", bound)
		if bound == "above" {
			upTo = ""
		}
		tiers = append(tiers, fmt.Sprintf("{ %srate = %q }", upTo, percent(rate)))
	}
	s := read(t, "buy", c.Currency, `increment = [ { from = "0", step = "`+c.in("step")+`" } ]`,
		`id = "premium"; on = ["hammer"]; tiering = "whole"; tiers = [ `+strings.Join(tiers, ", ")+` ]`)
	c.want(t, "highest_bid", highest(t, s, c.in("budget")))
	for key := range c.Expected {
		if bid, ok := strings.CutPrefix(key, "landed_at_"); ok {
			c.want(t, key, s.Landed(dec(bid), home(s.Currency)))
		}
	}
}
