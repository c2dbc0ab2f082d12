package table

import (
	"io"
	"strings"

	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
)

// Appraisal prints an appraisal: first what to do, then why, then all that it
// rests on.
func Appraisal(w io.Writer, a *valuation.Appraisal, o Options) error {
	p := newPrinter(o)
	for _, part := range []func(*valuation.Appraisal){
		p.headline, p.demonstration, p.subject, p.missing, p.steps, p.bill, p.sureness,
		p.findings, p.unseen, p.scores, p.models, p.parts, p.routes, p.questions, p.rules, p.remarks,
	} {
		part(a)
	}
	return p.writeTo(w)
}

// demonstration says that nothing of it is real.
func (p *printer) demonstration(a *valuation.Appraisal) {
	if a.Demonstration {
		p.para(warn, "", "", DemonstrationNote)
	}
}

// DemonstrationNote is printed with whatever comes of the built-in folder.
const DemonstrationNote = "DEMONSTRATION: invented makers, models and prices. lotgauge init DIR starts a data folder of your own."

// subject says what is appraised.
func (p *printer) subject(a *valuation.Appraisal) {
	r := &a.Reading
	p.blank()
	p.para(strong, "", "", a.Title)
	p.para(plain, "", "", r.FamilyTitle+", "+r.On.Format("2 January 2006"))
	p.answers("Catalogue number: ", a.Variants, func(c valuation.Chance) string { return c.ID + bracketed(c.Title) })
	if len(a.Histories) == 1 && a.Histories[0].ID == checklist.AnyHistory {
		return // the family knows of none
	}
	p.answers("How it was kept: ", a.Histories, func(c valuation.Chance) string { return c.Title })
}

// answers lists what may be, with its chance: "6043 (red) 97%; 6044 (blue) 3%".
func (p *printer) answers(what string, chances []valuation.Chance, name func(valuation.Chance) string) {
	var all []string
	few := 0
	for _, c := range chances {
		switch {
		case c.Chance >= certain:
			all = append(all, name(c))
		case c.Chance >= negligible:
			all = append(all, name(c)+" "+percent(c.Chance))
		case c.Chance > 0:
			few++
		}
	}
	if few > 0 && len(all) > 1 {
		all = append(all, counted(few, "other")+" <1%")
	}
	if len(all) > 0 {
		p.para(plain, "", margin, what+strings.Join(all, "; "))
	}
}

func bracketed(s string) string {
	if s == "" {
		return ""
	}
	return " (" + s + ")"
}
