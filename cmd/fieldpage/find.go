package main

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"lotgauge/valuation"
)

// find is a listing as the page keeps it: the keys of a listing file, empty
// where the file would leave them out. Amounts are text with their currency.
type find struct {
	Title     string    `json:"title"`
	Family    string    `json:"family"`
	Variant   string    `json:"variant,omitempty"`
	Date      string    `json:"date"`
	Fixed     bool      `json:"fixed"`
	Ask       string    `json:"ask,omitempty"`
	Hammer    *hammer   `json:"hammer,omitempty"`
	Buy       string    `json:"buy,omitempty"`
	Sell      string    `json:"sell,omitempty"`
	SellParts string    `json:"sell_parts,omitempty"`
	Routes    []string  `json:"routes,omitempty"`
	KeepWorth string    `json:"keep_worth,omitempty"`
	Findings  []finding `json:"findings"`
}

type hammer struct {
	Low  string `json:"low"`
	High string `json:"high"`
}

type finding struct {
	Point   string   `json:"point,omitempty"`
	State   string   `json:"state,omitempty"`
	Reading string   `json:"reading,omitempty"`
	Feature string   `json:"feature,omitempty"`
	Option  string   `json:"option,omitempty"`
	Symptom string   `json:"symptom,omitempty"`
	Present bool     `json:"present,omitempty"` // of a symptom
	Variant string   `json:"variant,omitempty"`
	By      string   `json:"by"`
	Trust   *float64 `json:"trust,omitempty"`
	Note    string   `json:"note,omitempty"`
}

// document is the find as a listing file, the one form in which the engine
// takes one. A fixed price that nobody has named yet is none.
func (f *find) document() string {
	w := &writer{}
	w.line("format = 1")
	w.text("title", f.Title)
	w.text("family", f.Family)
	w.text("variant", f.Variant)
	if _, err := time.Parse(dayFormat, f.Date); err == nil {
		w.line("date = " + f.Date)
	} else {
		w.text("date", f.Date) // for the engine to refuse
	}
	if f.Fixed && f.Ask != "" {
		w.text("sale", "fixed")
	}
	w.text("ask", f.Ask)
	if h := f.Hammer; h != nil {
		w.line("hammer = { low = " + quoted(h.Low) + ", high = " + quoted(h.High) + " }")
	}
	w.text("buy", f.Buy)
	w.text("sell", f.Sell)
	w.text("sell_parts", f.SellParts)
	w.texts("routes", f.Routes)
	w.text("keep_worth", f.KeepWorth)
	for i := range f.Findings {
		w.finding(&f.Findings[i])
	}
	return w.String()
}

// listing is the find as the engine takes it, for its library. What the file would
// be warned of concerns nobody here.
func (f *find) listing(library *valuation.Library) (*valuation.Listing, error) {
	x, diags := library.ReadListing("", strings.NewReader(f.document()))
	if err := diags.Err(); err != nil {
		return nil, err
	}
	return x, nil
}

// writer writes TOML line by line.
type writer struct{ strings.Builder }

func (w *writer) line(s string) { w.WriteString(s + "\n") }

// text writes a text; an empty one is left out.
func (w *writer) text(key, value string) {
	if value != "" {
		w.line(key + " = " + quoted(value))
	}
}

func (w *writer) texts(key string, values []string) {
	var all []string
	for _, v := range values {
		all = append(all, quoted(v))
	}
	if len(all) > 0 {
		w.line(key + " = [" + strings.Join(all, ", ") + "]")
	}
}

func (w *writer) finding(f *finding) {
	w.line("\n[[finding]]")
	w.text("point", f.Point)
	w.text("state", f.State)
	w.text("reading", f.Reading)
	w.text("feature", f.Feature)
	w.text("option", f.Option)
	w.text("symptom", f.Symptom)
	if f.Symptom != "" {
		w.line("present = " + strconv.FormatBool(f.Present))
	}
	w.text("variant", f.Variant)
	w.text("by", f.By)
	if f.Trust != nil {
		w.line("trust = " + strconv.FormatFloat(*f.Trust, 'f', -1, 64))
	}
	w.text("note", f.Note)
}

// quoted is a basic string of TOML 1.0: control characters escaped, and what is
// no UTF-8 replaced.
func quoted(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < 0x20 || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// newFind is a listing as the page keeps it.
func newFind(x *valuation.Listing) find {
	f := find{
		Title: x.Title, Family: x.Family, Variant: x.Variant, Fixed: x.Fixed,
		Buy: x.Buy, Sell: x.Sell, SellParts: x.SellParts, Routes: x.Routes, Findings: []finding{},
	}
	if !x.Date.IsZero() {
		f.Date = x.Date.Format(dayFormat)
	}
	if x.Ask != nil {
		f.Ask = x.Ask.String()
	}
	if x.KeepWorth != nil {
		f.KeepWorth = x.KeepWorth.String()
	}
	if h := x.Hammer; h != nil {
		f.Hammer = &hammer{Low: h.Low.String(), High: h.High.String()}
	}
	for i := range x.Findings {
		f.Findings = append(f.Findings, newFinding(&x.Findings[i]))
	}
	return f
}

func newFinding(g *valuation.Finding) finding {
	return finding{
		Point: g.Point, State: g.State, Reading: g.Reading, Feature: g.Feature, Option: g.Option,
		Symptom: g.Symptom, Present: g.Symptom != "" && g.Present, Variant: g.Variant,
		By: g.By, Trust: g.Trust, Note: g.Note,
	}
}
