package main

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
)

// TestDocument is the listing file of a find with everything in it.
func TestDocument(t *testing.T) {
	trust := 0.6
	f := find{
		Title: "Loft \"find\" \\ \u0007\u007f 火", Family: largest, Variant: "6043", Date: "2026-03-14", Ask: "38.00 GBP",
		Buy: "northquay", Sell: "private-parcel", SellParts: "private-letter", Routes: []string{"part-out", "keep"}, KeepWorth: "150.00 EUR",
		Hammer: &hammer{Low: "40.00 GBP", High: "95.00 GBP"},
		Findings: []finding{
			{Point: "body", State: "sound", By: "hand", Note: "line\nbreak"},
			{Point: "box", By: "hidden"},
			{Feature: "livery", Option: "red", By: "photo"},
			{Symptom: "hums", By: "seller", Trust: &trust},
			{Symptom: "no-movement", Present: true, By: "track"},
			{Variant: "6043", By: "seller"},
		},
	}
	want := `format = 1
title = "Loft \"find\" \\ \u0007\u007F 火"
family = "pellworth-ce4"
variant = "6043"
date = 2026-03-14
ask = "38.00 GBP"
hammer = { low = "40.00 GBP", high = "95.00 GBP" }
buy = "northquay"
sell = "private-parcel"
sell_parts = "private-letter"
routes = ["part-out", "keep"]
keep_worth = "150.00 EUR"

[[finding]]
point = "body"
state = "sound"
by = "hand"
note = "line\u000Abreak"

[[finding]]
point = "box"
by = "hidden"

[[finding]]
feature = "livery"
option = "red"
by = "photo"

[[finding]]
symptom = "hums"
present = false
by = "seller"
trust = 0.6

[[finding]]
symptom = "no-movement"
present = true
by = "track"

[[finding]]
variant = "6043"
by = "seller"
`
	if diff := cmp.Diff(want, f.document()); diff != "" {
		t.Error(diff)
	}
	x, diags := valuation.ReadListing("", strings.NewReader(f.document()))
	if len(diags) > 0 {
		t.Fatal(diags)
	}
	if diff := cmp.Diff(f, newFind(x)); diff != "" {
		t.Errorf("read again it is another: %s", diff)
	}
}

// TestUnnamedPrice: a fixed price that nobody has named is left open, since a
// listing file cannot have one.
func TestUnnamedPrice(t *testing.T) {
	f := find{Title: "t", Family: largest, Fixed: true}
	if strings.Contains(f.document(), "sale") {
		t.Error(f.document())
	}
}

// FuzzTitle: any title comes back out of the listing file, with what is no
// UTF-8 replaced.
func FuzzTitle(f *testing.F) {
	for _, s := range []string{"a", `"""`, "\x00\x1f\x7f", "\\u0041", "\xff\x8b\xc1", "\u2028\r\n", "'''"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, title string) {
		if title == "" {
			return
		}
		in := find{Title: title, Family: largest, Findings: []finding{{Point: "p", State: "s", By: "hand", Note: title}}}
		x, diags := valuation.ReadListing("", strings.NewReader(in.document()))
		if diags.HasErrors() {
			t.Fatalf("%q: %v", title, diags)
		}
		if want := string([]rune(title)); x.Title != want || x.Findings[0].Note != want {
			t.Errorf("%q came back as %q and %q", title, x.Title, x.Findings[0].Note)
		}
	})
}
