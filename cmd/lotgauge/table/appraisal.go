package table

import (
	"io"
	"strings"

	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
)

// A section prints one part of an appraisal.
type section = func(*printer, *valuation.Appraisal)

// The sections stand in the order in which a bidder decides: what to do, how
// the figure comes about and how sure it is, what knowing more is worth, and
// then what all of it rests on.
var (
	short = []section{
		(*printer).headline, (*printer).alerts, (*printer).demonstration, (*printer).subject, (*printer).missing,
		(*printer).steps, (*printer).sureness, (*printer).questions, (*printer).parts, (*printer).routes,
		(*printer).found, (*printer).unseen, (*printer).rules, (*printer).mind, (*printer).more,
	}
	full = []section{
		(*printer).headline, (*printer).alerts, (*printer).demonstration, (*printer).subject, (*printer).missing,
		(*printer).steps, (*printer).sureness, (*printer).bill, (*printer).questions, (*printer).parts, (*printer).routes,
		(*printer).findings, (*printer).unseen, (*printer).scores, (*printer).models, (*printer).setAside, (*printer).rules, (*printer).mind, (*printer).rests,
	}
)

// Appraisal prints an appraisal: what a bidder decides by, or in full.
func Appraisal(w io.Writer, a *valuation.Appraisal, o Options) error {
	p := newPrinter(o)
	sections := short
	if o.Full {
		sections = full
	}
	for _, print := range sections {
		print(p, a)
	}
	return p.writeTo(w)
}

// more says where the rest is.
func (p *printer) more(a *valuation.Appraisal) {
	text := "--full shows all of it and what it rests on"
	switch {
	case a.Worth == nil:
		text += ". Which questions to the seller are worth asking can be said once there is a price."
	case len(worthAsking(a)) > 0:
		text += "; --ask en writes the questions to the seller."
	default:
		text += "."
	}
	p.blank()
	p.para(faint, "", "", text)
}

// demonstration says that nothing of it is real.
func (p *printer) demonstration(a *valuation.Appraisal) { p.invented(a.Demonstration) }

func (p *printer) invented(demonstration bool) {
	if demonstration {
		p.para(warn, "", "", DemonstrationNote)
	}
}

// DemonstrationNote is printed with whatever comes of the built-in folder, or of
// one that began as its copy and does not say yet that its prices are real.
const DemonstrationNote = "DEMONSTRATION: invented makers, models and prices. lotgauge init DIR starts your own folder; " +
	"taking demonstration out of its settings.toml ends this notice."

// How much is shown of a text that anybody may have written, in characters.
const (
	titleRunes = 120
	noteRunes  = 240
)

// subject says what is appraised.
func (p *printer) subject(a *valuation.Appraisal) {
	r := &a.Reading
	p.blank()
	p.para(strong, "", "", clipped(a.Title, titleRunes))
	p.para(plain, "", "", r.FamilyTitle+", "+r.On.Format("2 January 2006"))
	p.answers("Catalogue number: ", a.Variants, func(c valuation.Chance) string { return c.ID + bracketed(c.Title) })
	known := len(a.Histories) != 1 || a.Histories[0].ID != checklist.AnyHistory
	if known && p.full {
		p.answers("How it was kept: ", a.Histories, func(c valuation.Chance) string { return c.Title })
	}
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
