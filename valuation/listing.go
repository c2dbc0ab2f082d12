package valuation

import (
	"io"
	"slices"
	"strconv"
	"time"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// A Listing is one lot on offer and what is known of it.
type Listing struct {
	File      string // how diagnostics name it
	Title     string
	Family    string
	Variant   string // catalogue number; empty: to be inferred
	Date      time.Time
	Fixed     bool // a fixed price; otherwise an auction
	Ask       *money.Amount
	Hammer    *Hammer
	Buy       string // charge sheets; empty: those of the settings
	Sell      string
	SellParts string
	Routes    []string // empty: all
	KeepWorth *money.Amount
	Findings  []Finding

	root   *diag.Table // where it was read from, nil where it was not
	faults diag.List   // what is wrong with its file, where there are errors
}

// firstYear is the first that a listing may be of: there were no models to sell
// second-hand before.
const firstYear = 1900

// Hammer is where bidding should end, the 10% and the 90% point.
type Hammer struct{ Low, High money.Amount }

// A Finding is what is known of one point, feature, symptom or of the variant.
// Exactly one of Point (with State, Option, Reading or by hidden), Feature (with
// Option), Symptom (with Present, or by hidden: nobody shows it running) and
// Variant is set.
type Finding struct {
	Point, State    string
	Reading         string // of the point's measure, "13.9 mm"
	Feature, Option string
	Symptom         string
	Present         bool
	Variant         string
	By              string
	Trust           *float64 // nil: the settings' for By
	Note            string

	table   *diag.Table
	partial bool // it was not read whole: only its names can be looked at
}

// pos is the place of a key of the finding, or of the listing's file.
func (f *Finding) pos(file, key string) diag.Pos { return place(f.table, file, key) }

// pos is the place of a key of the listing.
func (x *Listing) pos(key string) diag.Pos { return place(x.root, x.File, key) }

func place(t *diag.Table, file, key string) diag.Pos {
	if t == nil {
		return diag.Pos{File: file}
	}
	if !t.Has(key) {
		key = ""
	}
	return t.Pos(key)
}

// ReadListing reads a listing by itself. Ids are held only against the family,
// when it is appraised. Where the diagnostics have errors the listing is what
// could be read, nil where nothing could: whatever it is given to refuses it with
// these errors and those of its ids together.
func ReadListing(file string, r io.Reader) (*Listing, diag.List) {
	doc := diag.ReadDocument(file, r)
	if doc.Broken() {
		return nil, doc.Diagnostics()
	}
	t := doc.Root()
	readFormat(t)
	x := &Listing{
		File:      file,
		Title:     t.Required("title"),
		Family:    t.Required("family"),
		Variant:   t.Text("variant"),
		Fixed:     t.Choice("sale", "auction", "auction", "fixed") == "fixed",
		Buy:       t.Text("buy"),
		Sell:      t.Text("sell"),
		SellParts: t.Text("sell_parts"),
		Routes:    readRoutes(t),
		Ask:       readAmount(t, "ask"),
		KeepWorth: readAmount(t, "keep_worth"),
		root:      t,
	}
	x.Date, _ = t.Date("date")
	if t.Has("date") && x.Date.Year() < firstYear {
		t.Report("date", "a listing of "+strconv.Itoa(x.Date.Year()), "a day from "+strconv.Itoa(firstYear)+" on", "")
	}
	if t.Has("hammer") && x.Fixed {
		t.Warn("hammer", "a fixed price has no hammer", `sale = "auction", or hammer left out`, "")
	}
	x.Hammer = readHammer(t)
	for _, c := range t.Children("finding") {
		x.Findings = append(x.Findings, readFinding(c))
	}
	if x.Fixed && !t.Has("ask") && !t.Unread("ask") {
		t.Report("sale", "a fixed price without a price", `ask = "60 EUR"`, "")
	}
	t.Finish()
	diags := doc.Diagnostics()
	if diags.HasErrors() {
		x.faults = diags
	}
	return x, diags
}

// ReadListing reads a listing that is for the folder. Where its file has errors,
// so that there can be no appraisal to say it, what else is wrong with the file
// is said along with them: what the family and the charge sheets do not know.
func (l *Library) ReadListing(file string, r io.Reader) (*Listing, diag.List) {
	x, diags := ReadListing(file, r)
	if x == nil || !diags.HasErrors() {
		return x, diags
	}
	_, all := l.prepare(x, Options{})
	elsewhere := func(d diag.Diagnostic) bool { return d.Pos.File != file }
	return x, slices.DeleteFunc(all, elsewhere).Sorted()
}

func readAmount(t *diag.Table, key string) *money.Amount {
	if a, ok := diag.Parse(t, key, `money such as "38 GBP"`, money.ParseAmount); ok {
		return &a
	}
	return nil
}

func readRoutes(t *diag.Table) []string {
	names := t.Texts("routes")
	seen := map[string]bool{}
	for _, name := range names {
		if _, ok := routeByName(name); !ok {
			near, _ := diag.Nearest(name, RouteNames[:])
			t.Report("routes", "no route is called "+quoted(name), "one of "+listed(RouteNames[:]), near)
		}
		if seen[name] {
			t.Report("routes", "route "+quoted(name)+" named twice", "each route once", "")
		}
		seen[name] = true
	}
	if t.Has("routes") && len(names) == 0 {
		t.Report("routes", "no route left", "at least one of "+listed(RouteNames[:]), "leave the key out for all of them")
	}
	return names
}

func readHammer(t *diag.Table) *Hammer {
	c := t.Child("hammer")
	if c == nil {
		return nil
	}
	low, high := readAmount(c, "low"), readAmount(c, "high")
	switch {
	case c.Unread("low") || c.Unread("high"): // and nothing to be said of both
	case !c.Has("low") || !c.Has("high"):
		c.Report("", "hammer needs both ends", `{ low = "40 GBP", high = "95 GBP" }`, "")
	case low.Currency != high.Currency:
		c.Report("high", "two currencies", "both ends in "+string(low.Currency), "")
	case !low.Value.IsPositive() || !high.Value.GreaterThan(low.Value):
		c.Report("high", "the high end is not above the low one", "0 < low < high", "")
	default:
		return &Hammer{Low: *low, High: *high}
	}
	return nil
}

// readFinding reads one [[finding]]; what it is about decides which keys it
// may have.
func readFinding(t *diag.Table) Finding {
	f := Finding{
		Point:   t.Text("point"),
		State:   t.Text("state"),
		Reading: t.Text("reading"),
		Feature: t.Text("feature"),
		Option:  t.Text("option"),
		Symptom: t.Text("symptom"),
		Variant: t.Text("variant"),
		Present: t.Flag("present", true),
		By:      t.Choice("by", "", ByHand, ByTrack, ByPhoto, BySeller, ByHidden),
		Note:    t.Text("note"),
		table:   t,
	}
	if t.Has("trust") {
		trust := t.Number("trust", 1, 0, 1)
		f.Trust = &trust
	}
	f.partial = !checkFinding(t, &f)
	t.Finish()
	return f
}

// checkFinding reports a finding that is about nothing, about two things, or
// that says nothing of what it is about; false where it is not whole. Where a key
// could not be read nobody knows.
func checkFinding(t *diag.Table, f *Finding) bool {
	if !t.Has("by") && !t.Unread("by") {
		t.Report("", "a finding without evidence", "by = "+listed([]string{ByHand, ByTrack, ByPhoto, BySeller, ByHidden}), "")
	}
	if slices.ContainsFunc([]string{"point", "state", "reading", "feature", "option", "symptom", "variant", "by", "present"}, t.Unread) {
		return false
	}
	about := 0
	for _, s := range []string{f.Point, f.Feature, f.Symptom, f.Variant} {
		if s != "" {
			about++
		}
	}
	hidden := f.By == ByHidden
	whole := true
	wrong := func(key, summary, expected string) {
		t.Report(key, summary, expected, "")
		whole = false
	}
	switch {
	case about != 1:
		wrong("", "a finding is about one thing", "one of point, feature, symptom, variant")
	case hidden && f.Point+f.Symptom == "":
		wrong("by", "only a point or a symptom can be hidden", "point = … or symptom = …")
	case hidden && f.State+f.Option+f.Reading != "":
		wrong("by", "a hidden point shows no state", "state, option and reading left out, or another by")
	case !hidden && f.Point != "" && bit(f.State != "")+bit(f.Option != "")+bit(f.Reading != "") != 1:
		wrong("point", "what was found of the point?", "one of state, option and reading")
	case f.Feature != "" && f.Option == "":
		wrong("feature", "which option was seen?", "option = …")
	case hidden && f.Symptom != "" && t.Has("present"):
		wrong("present", "what is hidden is neither there nor not", "present left out, or another by")
	case f.Symptom != "" && !hidden && !t.Has("present"):
		wrong("symptom", "is the symptom there or not?", "present = true or present = false")
	}
	checkStray(t, f)
	return whole
}

// checkStray reports keys that go with another kind of finding.
func checkStray(t *diag.Table, f *Finding) {
	stray := func(key string, ok bool) {
		if t.Has(key) && !ok {
			t.Report(key, key+" does not go with this finding", "it left out", "")
		}
	}
	stray("state", f.Point != "")
	stray("reading", f.Point != "")
	stray("option", f.Point != "" || f.Feature != "")
	stray("present", f.Symptom != "")
	stray("trust", f.By != ByHidden)
}
