package valuation

import (
	"fmt"

	"lotgauge/valuation/belief"
	"lotgauge/valuation/charges"
	"lotgauge/valuation/diag"
)

// cautions are shown with every appraisal.
var cautions = [...]string{
	"This is an estimate for your own decision, not an appraisal in law.",
	"Charges, duties and taxes are your own entries: check them with the place of sale and the authority concerned.",
	"Old mains transformers and opened models: power only from a tested, isolated supply within the model's rating. Leave mains work to qualified people.",
}

// reading puts the appraisal into words for a reader.
func (a *appraiser) reading(out *Appraisal) Reading {
	out.Reading.Models = a.models(out.Variants)
	r := Reading{
		FamilyTitle: a.family.Title,
		Findings:    a.findingLines(),
		Unseen:      a.unseen(),
		Missing:     a.missingLines(),
		Warnings:    a.warnings(out),
		Cautions:    cautions[:],
		On:          a.on,
		Models:      out.Reading.Models,
		Rests:       a.rests(),
	}
	if a.whole() {
		r.Steps = a.column()
		r.Worths = spreadOf(a.drawn.ranked())
		r.Margin = a.margin()
	}
	r.Verdict, r.Reasons = a.verdict(out)
	return r
}

// column is the way from the price of a sound one to the bid, or to the worth
// where no bid will do.
func (a *appraiser) column() []Step {
	w := unsold(a.settings.Currency, a.expected.worth)
	if len(a.shut[sellAsFound]) == 0 {
		w = a.expected.column.steps(a.settings.Currency, reference(a.family.Grades), a.expected.worth)
	}
	if a.even != nil {
		w.bid(&a.purchase, *a.even)
	}
	return w.steps
}

func (a *appraiser) findingLines() []FindingLine {
	out := []FindingLine{}
	for i, b := range a.findings {
		f := &a.listing.Findings[i]
		line := FindingLine{By: f.By, Trust: b.Trust, Note: f.Note}
		a.describe(&line, f, b)
		out = append(out, line)
	}
	return out
}

// describe names a finding and what is now believed of it.
func (a *appraiser) describe(line *FindingLine, f *Finding, b belief.Finding) {
	switch b.Kind {
	case belief.VariantIs:
		line.Title, line.Value = "Catalogue number", f.Variant
		line.Now = Share(a.posterior.Variants()[b.Value])
	case belief.SymptomIs:
		line.Title, line.Value = a.family.Symptoms[b.Subject].Title, "no"
		line.Now = Share(1 - a.posterior.Symptom(b.Subject))
		if f.Present {
			line.Value, line.Now = "yes", 1-line.Now
		}
	case belief.SymptomHidden:
		line.Title, line.Value = a.family.Symptoms[b.Subject].Title, "not shown either way"
		line.Now = Share(1 - a.posterior.Symptom(b.Subject))
	case belief.FeatureOption:
		ft := &a.family.Features[b.Subject]
		line.Title, line.Value = ft.Title, spoken(f.Option)
		line.Now = a.fitChance(b.Subject, b.Value)
	case belief.PointOption:
		p := &a.family.Points[b.Subject]
		line.Title, line.Value = p.Title, spoken(f.Option)+" type"
		line.Now = a.typeChance(b.Subject, b.Value)
	case belief.PointHidden:
		line.Title, line.Value = a.family.Points[b.Subject].Title, "not shown"
		line.Now = Share(a.posterior.Point(b.Subject)[0])
	case belief.PointReading:
		line.Title, line.Value = a.family.Points[b.Subject].Title, f.Reading
		line.Now = a.readingChance(b)
	default:
		p := &a.family.Points[b.Subject]
		line.Title, line.Value = p.Title, stateTitle(&p.States[b.Value])
		line.Now = Share(a.posterior.Point(b.Subject)[b.Value])
	}
}

// fitChance is the chance that the model left the factory with an option.
func (a *appraiser) fitChance(feature, option int) Share {
	sum := 0.0
	for v, p := range a.posterior.Variants() {
		if a.family.Variants[v].Fit[feature] == option {
			sum += p
		}
	}
	return Share(sum)
}

// typeChance is the chance that the part at a point is of an option's type: an
// original one where that is what the model left the factory with, and one that
// is not original where it is not.
func (a *appraiser) typeChance(point, option int) Share {
	p := &a.family.Points[point]
	sum := 0.0
	for v, pv := range a.posterior.Variants() {
		fits := a.family.Variants[v].Fit[p.Feature] == option
		for s, c := range a.posterior.PointGiven(v, point) {
			if st := &p.States[s]; st.Complete && st.Original == fits {
				sum += float64(pv * c)
			}
		}
	}
	return Share(sum)
}

// unseen are the titles of the points that may be there and that nothing is
// known of.
func (a *appraiser) unseen() []string {
	out := []string{}
	found := a.found()
	for i := range a.family.Points {
		if !found[i] && a.posterior.Applies(i) > 0 {
			out = append(out, a.family.Points[i].Title)
		}
	}
	return out
}

// warnings are what a reader should know of the figures themselves.
func (a *appraiser) warnings(out *Appraisal) diag.List {
	var list diag.List
	warn := func(at diag.Pos, summary, try string) {
		list.Add(diag.Diagnostic{Severity: diag.Warning, Pos: at, Summary: summary, Try: try})
	}
	if a.listing.Date.IsZero() {
		warn(diag.Pos{}, "the listing has no date: today's prices and rates were used", "a date makes the appraisal reproducible")
	}
	for _, s := range []*charges.Sheet{a.buy, a.sell, a.parts} {
		if !s.ValidOn(a.on) {
			warn(diag.Pos{}, "the charge sheet "+quoted(s.ID)+" does not claim to hold on "+out.Date, "check its charges")
		}
	}
	for i := range a.listing.Findings {
		f := &a.listing.Findings[i]
		if f.Point != "" && a.posterior.Applies(a.family.PointIndex(f.Point)) == 0 {
			warn(f.pos(a.listing.File, "point"), "the model has no "+quoted(f.Point)+": the finding counts for nothing", "is it another catalogue number?")
		}
	}
	a.contradictions(warn)
	switch n := a.misprints(out); {
	case n == 1:
		warn(diag.Pos{}, "one price row stands so far apart from the others that it was set aside", "")
	case n > 1:
		warn(diag.Pos{}, fmt.Sprintf("%d price rows stand so far apart from the others that they were set aside", n), "")
	}
	return list
}

// contradictions warns of a catalogue number that does not go with what was seen,
// and of a point found in two states.
func (a *appraiser) contradictions(warn func(at diag.Pos, summary, try string)) {
	state := map[string]string{}
	for i := range a.listing.Findings {
		f := &a.listing.Findings[i]
		if o := a.otherFit(f); o != "" {
			warn(f.pos(a.listing.File, "option"),
				"a "+a.listing.Variant+" left the factory with "+o+", but "+spoken(f.Option)+" was seen: another number, or an exchanged part",
				"leave variant out and write the number as a finding, if it is only said to be one")
		}
		if f.State == "" {
			continue
		}
		if first := state[f.Point]; first != "" && first != f.State {
			warn(f.pos(a.listing.File, "state"), quoted(f.Point)+" was found "+spoken(first)+" and "+spoken(f.State)+": both count", "")
		}
		state[f.Point] = f.State
	}
}

// otherFit is the option that the named variant left the factory with, where a
// finding saw another one.
func (a *appraiser) otherFit(f *Finding) string {
	if a.variant < 0 || f.Option == "" {
		return ""
	}
	i := a.family.FeatureIndex(f.Feature)
	if f.Point != "" {
		i = a.family.Points[a.family.PointIndex(f.Point)].Feature
	}
	fit := a.family.Features[i].Options[a.family.Variants[a.variant].Fit[i]]
	if fit == f.Option {
		return ""
	}
	return a.family.Features[i].Title + " " + spoken(fit)
}

// misprints counts the rows set aside among the prices of the variants that it
// may be and of the parts that may have to be bought.
func (a *appraiser) misprints(out *Appraisal) int {
	n := 0
	for _, m := range out.Reading.Models {
		n += m.SetAside
	}
	for _, p := range out.Parts {
		n += p.SetAside
	}
	return n
}
