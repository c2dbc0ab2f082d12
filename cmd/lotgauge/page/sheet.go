package page

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
)

// A Sheet is what a sheet to take along on paper is made of.
type Sheet struct {
	Reckoner      *valuation.Reckoner
	Family        *checklist.Family
	Small         bool // A5; A4 otherwise
	Date          time.Time
	Finds         int // simulated for the reckoner's errors
	Draws         int
	Seed          uint64
	Folder        string // the data folder, as messages name it
	Cautions      []string
	Demonstration bool
}

// sheetView is what a sheet says.
type sheetView struct {
	Title         words
	Model         string // the catalogue number it is for, "" for any
	Scale         string
	Date, Day     string
	Small         bool
	Demonstration bool
	Currency      string
	Start, Sound  string
	Dearest       string // the catalogue number that all sound is meant of, "" where there is no other
	Floor, Below  string
	Features      []sheetFeature
	Variants      []sheetVariant
	Checks        []sheetCheck
	Errors        []string
	Cautions      []words
	Rests         []words
}

// sheetFeature is how to tell the options of a feature apart.
type sheetFeature struct {
	Title, Tell words
	Options     []words
}

// sheetVariant is a catalogue number and what it left the factory with, in the
// order of the features.
type sheetVariant struct {
	ID, Years string
	Title     words
	Fit       []words
}

// sheetCheck is a check with a row a state.
type sheetCheck struct {
	Number  int
	Title   words
	Area    string
	How     words
	Measure string
	Minutes string
	Mind    []string // what is to be minded of it
	Tight   bool     // it does not pay: set in little space
	Line    bool     // the first of those
	Unmade  string
	States  []sheetState
}

type sheetState struct {
	Title     words
	Range     string
	Change    string // against not knowing
	Deduction string // against all sound
	Stop      words
}

// WriteSheet writes a sheet to print as one HTML file in UTF-8. Nothing is
// written where it fails.
func WriteSheet(w io.Writer, s Sheet) error {
	if s.Reckoner == nil || s.Family == nil {
		return errors.New("there is nothing to write a sheet of")
	}
	var page bytes.Buffer
	if err := report().ExecuteTemplate(&page, "sheet.html", newSheetView(&s)); err != nil {
		return err
	}
	_, err := page.WriteTo(w)
	return err
}

func newSheetView(s *Sheet) *sheetView {
	r := s.Reckoner
	v := &sheetView{
		Title: newWords(titleOr(r.Title, r.Family), titleRunes), Model: clean(r.Variant), Scale: clean(s.Family.Scale),
		Date: s.Date.Format(time.DateOnly), Day: s.Date.Format("2 January 2006"), Small: s.Small, Demonstration: s.Demonstration,
		Currency: clean(r.SheetCurrency),
		Start:    amount(tenths(r.Start.Bid), r.SheetCurrency), Sound: amount(tenths(r.Sound.Bid), r.SheetCurrency),
		Floor: amount(tenths(r.Floor.Bid), r.SheetCurrency), Below: oneIn(r.Below),
	}
	if r.Variant == "" {
		v.Dearest = clean(r.Dearest)
	}
	v.Features, v.Variants = identification(s)
	for i := range r.Checks {
		c := newSheetCheck(i+1, &r.Checks[i], s)
		c.Tight, c.Line = i >= r.Paying, i == r.Paying
		v.Checks = append(v.Checks, c)
	}
	v.Errors = append(v.Errors, unseenOff(r))
	for _, e := range r.Errors {
		v.Errors = append(v.Errors, offBy(&e, len(r.Checks), r.SheetCurrency))
	}
	v.Cautions = listed(s.Cautions, sentence)
	v.Rests = listed(s.rests(), sentence)
	return v
}

// tenths rounds an amount to what can be added up with a pencil.
func tenths(m valuation.Money) *valuation.Money {
	if m.Exponent() < -1 {
		m.Decimal = m.Round(1)
	}
	return &m
}

// signed is a change of a bid.
func signed(m valuation.Money) string {
	t := tenths(m)
	if t.IsPositive() {
		return "+" + plain(t)
	}
	return plain(t)
}

// oneIn is a share of the models, "1 model in 50".
func oneIn(share valuation.Share) string {
	return fmt.Sprintf("1 model in %.0f", math.Round(1/max(float64(share), 1e-3)))
}

// unseenOff says how far off the sum is where it begins.
func unseenOff(r *valuation.Reckoner) string {
	return fmt.Sprintf("With no check made: the stop is %s on paper, %s in full.",
		amount(tenths(r.Start.Bid), r.SheetCurrency), amount(tenths(r.Unseen.Bid), r.SheetCurrency))
}

// offBy says how far the sum is from the appraisal in full.
func offBy(e *valuation.ReckonError, all int, currency string) string {
	made := fmt.Sprintf("the first %d checks", e.Checks)
	switch e.Checks {
	case all:
		made = "all " + counted(all, "check", "checks")
	case 1:
		made = "the first check"
	}
	return fmt.Sprintf("With %s made: off by %s on average, in 9 of 10 cases by no more than %s; the mean stop was %s on paper, %s in full.",
		made, amount(tenths(e.Mean), currency), amount(tenths(e.P90), currency), amount(tenths(e.StopOnPaper), currency), amount(tenths(e.StopInFull), currency))
}

// rests says what the figures rest on.
func (s *Sheet) rests() []string {
	r, folder := s.Reckoner, "the folder "+s.Folder
	if s.Demonstration {
		folder = "the demonstration, " + s.Folder + ","
	}
	return []string{
		fmt.Sprintf("Prices and odds of %s as of %s; family file %s", folder, s.Date.Format("2 January 2006"), s.Family.File),
		fmt.Sprintf("Bids by the charge sheet %s, in %s; the home currency is %s", titleOr(r.SheetTitle, r.Sheet), r.SheetCurrency, r.Currency),
		fmt.Sprintf("%s draws, seed %d; how far the sum is off was measured over %s simulated finds", grouped(fmt.Sprint(s.Draws)), s.Seed, grouped(fmt.Sprint(s.Finds))),
	}
}

// identification tells the catalogue numbers apart. Features that all of them
// share are left out.
func identification(s *Sheet) ([]sheetFeature, []sheetVariant) {
	f := s.Family
	var features []sheetFeature
	for _, x := range f.Features {
		features = append(features, sheetFeature{Title: name(titleOr(x.Title, x.ID)), Tell: sentence(x.Tell), Options: listed(x.Options, spokenName)})
	}
	var variants []sheetVariant
	for _, x := range f.Variants {
		if s.Reckoner.Variant != "" && x.ID != s.Reckoner.Variant {
			continue
		}
		v := sheetVariant{ID: clean(x.ID), Title: name(x.Title), Years: years(x.From, x.To)}
		for i, option := range x.Fit {
			v.Fit = append(v.Fit, spokenName(f.Features[i].Options[option]))
		}
		variants = append(variants, v)
	}
	return features, variants
}

// spokenName is an id as a name.
func spokenName(id string) words { return name(strings.ReplaceAll(id, "-", " ")) }

func years(from, to int) string {
	switch {
	case from == 0 && to == 0:
		return ""
	case to == 0 || from == to:
		return fmt.Sprint(from)
	case from == 0:
		return fmt.Sprintf("to %d", to)
	}
	return fmt.Sprintf("%d–%d", from, to)
}

func newSheetCheck(number int, c *valuation.ReckonedCheck, s *Sheet) sheetCheck {
	out := sheetCheck{
		Number: number, Title: name(titleOr(c.Title, c.ID)), Area: clean(c.Area), How: sentence(stopped(c.How)),
		Minutes: fmt.Sprintf("%.3g", c.Minutes), Unmade: signed(negative(c.Unmade.Bid)), Mind: inShort(c.Mind),
	}
	if m := c.Measure; m != nil {
		out.Measure = clean(m.What)
		if m.Within > 0 {
			out.Measure += fmt.Sprintf(", to %g %s", m.Within, clean(m.Unit))
		}
	}
	for i := range c.States {
		out.States = append(out.States, newSheetState(&c.States[i], c, s.Family))
	}
	return out
}

// inShort says what is to be minded of a check; the sheet begins with the rest.
func inShort(mind []string) (out []string) {
	for _, what := range mind {
		switch what {
		case checklist.MindOpening:
			out = append(out, "Only with the seller's leave.")
		case checklist.MindPower:
			out = append(out, "Only on your own supply.")
		case checklist.MindSolvent:
			out = append(out, "No solvent or oil without the owner's leave.")
		}
	}
	return out
}

// negative is what is taken off.
func negative(m valuation.Money) valuation.Money {
	m.Decimal = m.Neg()
	return m
}

func newSheetState(x *valuation.ReckonedState, c *valuation.ReckonedCheck, f *checklist.Family) sheetState {
	title := titleOr(x.Title, x.ID)
	if c.Kind == valuation.CheckVariant {
		title = x.ID + ": " + title
	}
	return sheetState{
		Title: name(title), Range: limits(c, x.ID, f), Change: signed(x.Change.Bid), Deduction: signed(negative(x.Deduction.Bid)),
		Stop: sentence(x.Stop),
	}
}

// limits are the readings of a state, "14 to 14.1 mm".
func limits(c *valuation.ReckonedCheck, state string, f *checklist.Family) string {
	at := f.PointIndex(c.ID)
	if c.Measure == nil || at < 0 {
		return ""
	}
	i := f.Points[at].StateIndex(state)
	if i < 0 || f.Points[at].States[i].Range == nil {
		return ""
	}
	r, unit := f.Points[at].States[i].Range, clean(c.Measure.Unit)
	switch {
	case math.IsInf(r.From, -1):
		return fmt.Sprintf("up to %g %s", r.To, unit)
	case math.IsInf(r.To, 1):
		return fmt.Sprintf("from %g %s", r.From, unit)
	}
	return fmt.Sprintf("%g to %g %s", r.From, r.To, unit)
}
