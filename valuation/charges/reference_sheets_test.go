package charges_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/charges"
	"lotgauge/valuation/money"
)

// worked are the examples that take more than a chain of charges or tiers.
var worked = map[string]func(*testing.T, *reference){
	// VAT inside the margin: a fraction of what the price exceeds the purchase by.
	"uk-margin-art-1500-2000": func(t *testing.T, c *reference) {
		b := apply(marginSheet(t, c, c.in("purchase_price"), c.in("vat_fraction")), c.in("selling_price"))
		c.want(t, "margin", b["margin"])
		c.want(t, "vat", b["vat"])
	},
	"uk-margin-loss": func(t *testing.T, c *reference) {
		b := apply(marginSheet(t, c, c.in("purchase_price"), c.in("vat_fraction")), c.in("selling_price"))
		c.want(t, "vat", b["vat"])
	},
	"uk-global-20000-8000": func(t *testing.T, c *reference) {
		b := apply(marginSheet(t, c, c.in("period_purchases"), c.in("vat_fraction")), c.in("period_sales"))
		c.want(t, "margin", b["margin"])
		c.want(t, "vat", b["vat"])
	},
	"fr-book-5-10": func(t *testing.T, c *reference) {
		vat := dec(c.in("vat_rate")).Shift(2)
		fraction := fmt.Sprintf("%s/%s", vat, vat.Add(dec("100")))
		b := apply(marginSheet(t, c, c.in("purchase_price"), fraction), c.in("selling_price"))
		c.want(t, "vat", b["vat"])
	},
	"uk-auctioneer-10000": func(t *testing.T, c *reference) {
		commission, premium := c.percent("seller_commission_rate"), c.percent("buyers_premium_rate")
		seller := apply(read(t, "sell", c.Currency, "", `id = "commission"; on = ["price"]; rate = "`+commission+`"`), c.in("hammer"))
		c.want(t, "seller_commission", seller["commission"])
		c.want(t, "paid_to_seller", seller["total"])
		buyer := apply(read(t, "buy", c.Currency, "",
			`id = "premium"; on = ["hammer"]; rate = "`+premium+`"`,
			`id = "commission"; on = ["hammer"]; rate = "`+commission+`"; memo = true`,
			`id = "margin"; on = ["premium", "commission"]; rate = "100%"; memo = true`,
			`id = "vat"; on = ["margin"]; rate = "`+c.in("vat_fraction")+`"; memo = true`,
		), c.in("hammer"))
		c.want(t, "buyers_premium", buyer["premium"])
		c.want(t, "paid_by_buyer", buyer["total"])
		c.want(t, "margin", buyer["margin"])
		c.want(t, "vat", buyer["vat"])
	},
	"uk-reduced-import-500": func(t *testing.T, c *reference) {
		b := apply(read(t, "buy", c.Currency, "",
			`id = "value"; on = ["hammer"]; rate = "`+c.percent("value_fraction")+`"; memo = true`,
			`id = "vat"; on = ["value"]; rate = "`+c.percent("vat_rate")+`"`,
		), c.in("value"))
		c.want(t, "vat_value", b["value"])
		c.want(t, "import_vat", b["vat"])
		c.want(t, "effective_rate", b["vat"].DivRound(b["hammer"], 4))
	},

	// A waiver, a memo line, reliefs of both shapes.
	"fi-food-waived": func(t *testing.T, c *reference) {
		post := `id = "post"; amount = "` + c.in("postage") + `"`
		vat := `id = "vat"; on = ["hammer", "post"]; rate = "` + c.percent("vat_rate") + `"`
		waiver := `; waived_up_to = "` + dec(c.in("levied_from")).Sub(dec("0.01")).String() + `"`
		c.want(t, "vat_computed", apply(read(t, "buy", c.Currency, "", post, vat), c.in("goods"))["vat"])
		c.want(t, "vat_levied", apply(read(t, "buy", c.Currency, "", post, vat+waiver), c.in("goods"))["vat"])
	},
	"uk-value-adjustment": func(t *testing.T, c *reference) {
		b := apply(read(t, "buy", c.Currency, "",
			`id = "freight"; amount = "`+c.in("freight")+`"`,
			`id = "insurance"; amount = "`+c.in("insurance")+`"`,
			`id = "customs-value"; on = ["hammer", "freight", "insurance"]; rate = "100%"; memo = true`,
			`id = "duty"; on = ["customs-value"]; rate = "`+c.percent("duty_rate")+`"`,
			`id = "adjustment"; amount = "`+c.in("vat_value_adjustment")+`"; memo = true`,
			`id = "vat-value"; on = ["customs-value", "duty", "adjustment"]; rate = "100%"; memo = true`,
			`id = "vat"; on = ["vat-value"]; rate = "`+c.percent("vat_rate")+`"`,
		), c.in("invoice"))
		c.want(t, "customs_value", b["customs-value"])
		c.want(t, "duty", b["duty"])
		c.want(t, "vat_value", b["vat-value"])
		c.want(t, "vat", b["vat"])
		if paid := dec("13498"); !b["total"].Equal(paid) { // 10000 + 100 + 50 + 1015 + 2333
			t.Errorf("memo lines are paid: total %s, want %s", b["total"], paid)
		}
	},
	"ca-gift-200": func(t *testing.T, c *reference) {
		s := read(t, "buy", c.Currency, "", `id = "taxable"; on = ["hammer"]; rate = "100%"; allowance = "`+c.in("exempt")+`"; memo = true`)
		c.want(t, "taxable", apply(s, c.in("gift"))["taxable"])
	},
	"uk-gift-whole-value": func(t *testing.T, c *reference) {
		limit := c.in("limit")
		s := read(t, "buy", c.Currency, "", `id = "taxable"; on = ["hammer"]; rate = "100%"; when = { on = ["hammer"], above = "`+limit+`" }; memo = true`)
		for i, key := range []string{"taxable_44", "taxable_five_at_120"} {
			consignment := decimal.Decimal{}
			for item := range strings.FieldsSeq(c.list("consignments")[i]) {
				consignment = consignment.Add(dec(item))
			}
			c.want(t, key, apply(s, consignment.String())["taxable"])
		}
		if got := apply(s, limit)["taxable"]; !got.IsZero() {
			t.Errorf("a gift of the limit is taxed on %s", got)
		}
	},
	"eu-intrinsic-140":           intrinsic,
	"eu-intrinsic-140-transport": intrinsic,
	"eu-intrinsic-160":           intrinsic,
	"eu-3euro-three-kinds":       perKind,
	"eu-3euro-same-kind":         perKind,

	// Conversions: the rate is a fraction, and the rounding is the sheet's.
	"uk-tribunal-cad": func(t *testing.T, c *reference) {
		s := read(t, "buy", "CAD", `rounding = "down"`, `id = "post"; amount = "`+c.in("postage_insurance_cad")+`"`)
		c.want(t, "total_cad", apply(s, c.in("value_cad"))["total"])
		value := s.Landed(dec(c.in("value_cad")), per("GBP", c.in("cad_per_gbp")))
		c.want(t, "value_gbp", value)
		vat := read(t, "buy", c.Currency, `rounding = "down"`, `id = "vat"; on = ["hammer"]; rate = "`+c.percent("vat_rate")+`"`)
		c.want(t, "vat", apply(vat, value.String())["vat"])
	},
	"de-forum-36-usd": func(t *testing.T, c *reference) {
		value := read(t, "buy", "USD", "").Landed(dec(c.in("price_usd")), per("EUR", c.in("usd_per_eur")))
		c.want(t, "value", value)
		vat := read(t, "buy", c.Currency, "", `id = "vat"; on = ["hammer"]; rate = "`+c.percent("vat_rate")+`"`)
		c.want(t, "vat", apply(vat, value.String())["vat"])
	},

	// Bases and taxes rounded to a step of their own.
	"ch-vacuum-2013": swiss,
	"ch-vacuum-2024": swiss,
	"ch-levy-threshold": func(t *testing.T, c *reference) {
		waived := dec(c.in("levy_limit")).Sub(dec("0.01")).String()
		for _, rate := range c.list("rates") {
			s := read(t, "buy", c.Currency, `increment = [ { from = "0", step = "1" } ]`,
				`id = "vat"; on = ["hammer"]; rate = "`+percent(rate)+`"; waived_up_to = "`+waived+`"`)
			// The smallest base with a tax: one franc above the last without.
			base := dec("1")
			for apply(s, base.String())["vat"].IsZero() {
				base = base.Add(dec("1"))
			}
			c.want(t, rate, base)
			if got := highest(t, s, base.String()); !got.Equal(base.Sub(dec("1"))) {
				t.Errorf("%s: within %s a bid of %s", rate, base, got)
			}
		}
	},
	"jp-cascade-2018": func(t *testing.T, c *reference) {
		step := `; round_to = "` + c.in("tax_step") + `"`
		b := apply(read(t, "buy", c.Currency, `rounding = "down"`,
			`id = "base"; on = ["hammer"]; rate = "100%"; memo = true; round_to = "`+c.in("base_step")+`"`,
			`id = "national"; on = ["base"]; rate = "`+c.percent("national_rate")+`"`+step,
			`id = "local"; on = ["national"]; rate = "`+c.in("local_fraction")+`"`+step,
		), c.in("goods_and_postage"))
		c.want(t, "base", b["base"])
		c.want(t, "national", b["national"])
		c.want(t, "local", b["local"])
		c.want(t, "tax", b["total"].Sub(b["hammer"]))
	},

	// A rate of a date: a sheet for each month.
	"uk-us-models-2004-2005": func(t *testing.T, c *reference) {
		start, err := time.Parse("2006-01", c.in("first_month"))
		if err != nil {
			t.Fatal(err)
		}
		var sheets []*charges.Sheet
		for rate, i := dec(c.in("first_rate")), 0; rate.LessThanOrEqual(dec(c.in("last_rate"))); i++ {
			from := start.AddDate(0, i, 0)
			valid := fmt.Sprintf("valid = [%s, %s]", from.Format(time.DateOnly), from.AddDate(0, 1, -1).Format(time.DateOnly))
			sheets = append(sheets, read(t, "buy", "EUR", valid, `id = "duty"; on = ["hammer"]; rate = "`+percent(rate.String())+`"`))
			rate = rate.Add(dec(c.in("step_per_month")))
		}
		for month := range c.Expected {
			first, err := time.Parse("2006-01", month)
			if err != nil {
				t.Fatal(err)
			}
			for _, day := range []time.Time{first, first.AddDate(0, 1, -1)} {
				found := 0
				for _, s := range sheets {
					if s.ValidOn(day) {
						found++
						c.want(t, month, apply(s, "100")["duty"].Shift(-2))
					}
				}
				if found != 1 {
					t.Errorf("%s: %d sheets are valid", day.Format(time.DateOnly), found)
				}
			}
		}
	},

	"premium-118-or-138": func(t *testing.T, c *reference) {
		premium := `id = "premium"; on = ["hammer"]; rate = "` + c.percent("premium_rate") + `"`
		vat := `; rate = "` + c.percent("vat_rate") + `"; id = "vat"`
		c.want(t, "total_margin_scheme", apply(read(t, "buy", c.Currency, "", premium, `on = ["premium"]`+vat), c.in("hammer"))["total"])
		c.want(t, "total_full_vat", apply(read(t, "buy", c.Currency, "", premium, `on = ["hammer", "premium"]`+vat), c.in("hammer"))["total"])
	},

	"inverse-125":       inverse125,
	"inverse-nl-222-64": inverseNL,
	"inverse-nl-230":    inverseNL,
	"inverse-slab-jump": inverseSlab,
	"inverse-hole":      inverseHole,

	"hmrc-per-unit-3-digits":   perUnit,
	"hmrc-per-unit-half-penny": perUnit,
	"hmrc-line-tenth-penny":    tenthPenny,
	"line-or-total-50":         lineOrTotal,
	"euro-half-cent":           halfCent,
	"euro-500-sit":             oldCurrency,
	"euro-dem-price-list":      oldCurrency,
	"euro-frf-dem":             throughEuro,
	"ca-quebec-cash":           cash,
	"gda-ties":                 ties,
	"gda-quantize":             quantize,
	"binary-traps":             binaryTraps,
	"iso4217-minor-units":      minorUnits,
}

// per is a conversion at so many units of the sheet's currency for one at home.
func per(home money.Currency, rate string) charges.Conversion {
	return charges.Conversion{Rate: money.NewRatio(dec("1"), dec(rate)), Home: home}
}

// marginSheet takes the VAT out of the margin of a sale.
func marginSheet(t *testing.T, c *reference, purchase, fraction string) *charges.Sheet {
	return read(t, "sell", c.Currency, "",
		`id = "margin"; on = ["price"]; rate = "100%"; allowance = "`+purchase+`"; memo = true`,
		`id = "vat"; on = ["margin"]; rate = "`+fraction+`"`)
}

// intrinsic looks at the goods alone: duty falls due above the limit, and
// transport shown apart does not count.
func intrinsic(t *testing.T, c *reference) {
	s := read(t, "buy", c.Currency, "",
		`id = "transport"; amount = "`+c.in("transport_shown")+`"`,
		`id = "vat"; amount = "`+c.in("vat_shown")+`"`,
		`id = "intrinsic"; on = ["hammer"]; rate = "100%"; memo = true`,
		`id = "duty"; on = ["hammer", "transport"]; rate = "4.7%"; when = { on = ["intrinsic"], above = "`+c.in("limit")+`" }`,
	)
	b := apply(s, c.in("goods"))
	c.want(t, "intrinsic_value", b["intrinsic"])
	c.looked["within_limit"] = true
	if within := b["duty"].IsZero(); fmt.Sprint(within) != c.Expected["within_limit"] {
		t.Errorf("within the limit: %v, want %s", within, c.Expected["within_limit"])
	}
}

// perKind is an amount for each kind of goods.
func perKind(t *testing.T, c *reference) {
	var list []string
	for len(list) < int(dec(c.in("kinds")).IntPart()) {
		list = append(list, fmt.Sprintf(`id = "duty-%d"; amount = %q`, len(list)+1, c.in("duty_per_kind")))
	}
	b := apply(read(t, "buy", c.Currency, "", list...), "100")
	c.want(t, "duty", b["total"].Sub(b["hammer"]))
}

// swiss is import VAT with the base brought to whole francs.
func swiss(t *testing.T, c *reference) {
	rate := charges.Conversion{Rate: money.WholeRatio(dec(c.in("chf_per_eur"))), Home: "CHF"}
	post := read(t, "buy", "EUR", "", `id = "post"; amount = "`+c.in("postage_eur")+`"`)
	converted := post.Landed(dec(c.in("goods_eur")), rate)
	c.want(t, "converted", converted)
	sheet := func(rounding string) bill {
		return apply(read(t, "buy", c.Currency, "",
			`id = "clearance"; amount = "`+c.in("clearance_fee")+`"`,
			`id = "opening"; amount = "`+c.in("opening_fee")+`"`,
			`id = "value"; on = ["hammer", "clearance", "opening"]; rate = "100%"; memo = true`,
			`id = "base"; on = ["value"]; rate = "100%"; memo = true; round_to = "`+c.in("base_step")+`"; rounding = "`+rounding+`"`,
			`id = "vat"; on = ["base"]; rate = "`+c.percent("vat_rate")+`"`,
		), converted.String())
	}
	b := sheet(c.in("base_rounding"))
	c.want(t, "taxable_value", b["value"])
	c.want(t, "vat_base", b["base"])
	c.want(t, "vat", b["vat"])
	if _, ok := c.Derived["vat_if_base_cut_to_196"]; ok {
		c.want(t, "vat_if_base_cut_to_196", sheet("down")["vat"])
	}
}
