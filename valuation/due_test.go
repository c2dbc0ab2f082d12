package valuation_test

import (
	"path/filepath"
	"testing"

	"lotgauge/valuation"
)

// TestDueByHand works one case by hand: a listing sold as found at a fixed
// price, of one variant, all of it seen. Only the price of a sound one matters,
// and knowing it is worth the mean of max(0, worth − landed) over its 41 values
// less max(0, mean worth − landed).
func TestDueByHand(t *testing.T) {
	l := openReference(t)
	listing := head + `variant = "318"
sale = "fixed"
ask = "110 EUR"
buy = "table"
routes = ["sell-as-found"]
` + seenAll
	a, diags := l.Appraise(parse(t, listing), valuation.Options{})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	due, diags := l.Due([]*valuation.Listing{parse(t, listing)}, valuation.Options{})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	if len(due) != 1 || due[0].Item != "quillmore-t3/318" || due[0].Rows != 1 || due[0].Listings != 1 {
		t.Fatalf("due %+v", due)
	}
	// The draws hold the same worths: their spread gives the same figure, within
	// the noise of the draws.
	informed, n := 0.0, 0.0
	for _, b := range a.Reading.Worths {
		informed += b.Share * max(0, (b.From+b.To)/2-110)
		n += b.Share
	}
	worth, _ := a.Worth.Mean.Float64()
	got, _ := due[0].Gain.Float64()
	se, _ := a.Worth.SE.Float64()
	c := &comparison{T: t}
	c.near("gain", got, informed/n-max(0, worth-110), 4*se+0.2)
	if got <= 0 {
		t.Error("knowing the price is worth nothing at a price on the edge")
	}
}

const seenAll = `
[[finding]]
point = "tyres"
state = "sound"
by = "hand"
[[finding]]
point = "pickup"
state = "sound"
by = "hand"
[[finding]]
point = "reverser"
state = "sound"
by = "hand"
[[finding]]
point = "lamps"
state = "sound"
by = "hand"
[[finding]]
point = "paint"
state = "sound"
by = "hand"
`

// TestDueRanks: over the demonstration listings the price of a sound one of a
// variant on the edge matters more than that of a bulb, nothing is below zero,
// and more listings never make a price matter less.
func TestDueRanks(t *testing.T) {
	l := openDemo(t)
	one := []*valuation.Listing{readListing(t, "../testdata/listings/rich.toml")}
	both := append(one, readListing(t, "../testdata/listings/stall.toml"))
	few, diags := l.Due(one, valuation.Options{Draws: 4000})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	many, _ := l.Due(both, valuation.Options{Draws: 4000})
	gain := map[string]float64{}
	for _, d := range many {
		gain[d.Item], _ = d.Gain.Float64()
	}
	for _, d := range few {
		g, _ := d.Gain.Float64()
		if g < 0 || gain[d.Item] < g-0.005 {
			t.Errorf("%s: %v of one, %v of both", d.Item, g, gain[d.Item])
		}
	}
	if len(few) < 10 || few[0].Gain.IsZero() {
		t.Errorf("%d prices, first %+v", len(few), few[0])
	}
	if gain["pellworth-ce4/6043"] <= gain["lamp-bulb"] {
		t.Errorf("a model's price matters less than a bulb's: %v, %v", gain["pellworth-ce4/6043"], gain["lamp-bulb"])
	}
}

func TestDueMissingFirst(t *testing.T) {
	l := patched(t, patch{"families/quillmore-t3.toml", "guide = \"3 EUR\"\n", ""})
	x := readListing(t, filepath.Join(referenceDir, "listings", "a.toml"))
	due, diags := l.Due([]*valuation.Listing{x}, valuation.Options{})
	if diags.HasErrors() || len(due) != 1 || !due[0].Unpriced || due[0].Item != "lamp-brass" {
		t.Errorf("due %+v, %v", due, diags)
	}
}
