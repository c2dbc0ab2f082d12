package table

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"lotgauge/valuation/checklist"
)

// Families prints a list of families, one a line.
func Families(w io.Writer, families []*checklist.Family, demonstration bool, o Options) error {
	p := newPrinter(o)
	if demonstration {
		p.para(warn, "", "", DemonstrationNote)
		p.blank()
	}
	if len(families) == 0 {
		p.para(plain, "", "", "There is no family in this data folder yet.")
	}
	g := &grid{columns: []column{
		{head: "Family"}, {head: "What it is", flex: true}, {head: "Scale"},
		{head: "Variants", right: true}, {head: "Points", right: true},
	}}
	for _, f := range families {
		g.add(words(f.ID), words(f.Title), words(f.Scale),
			words(fmt.Sprint(len(f.Variants))), words(fmt.Sprint(len(f.Points))))
	}
	p.grid(g)
	return p.writeTo(w)
}

// Family prints one checklist: its variants, how to tell them apart, what to
// inspect and what a test may show.
func Family(w io.Writer, f *checklist.Family, demonstration bool, o Options) error {
	p := newPrinter(o)
	p.para(strong, "", "", f.Title)
	p.para(plain, "", "", f.ID+bracketed(f.Scale))
	if demonstration {
		p.para(warn, "", "", DemonstrationNote)
	}
	p.grades(f)
	p.variants(f)
	p.features(f)
	p.points(f)
	p.symptoms(f)
	p.familyParts(f)
	return p.writeTo(w)
}

// grades says by which grades its prices are compared, and what each is worth
// against the reference grade.
func (p *printer) grades(f *checklist.Family) {
	var all []string
	for _, g := range f.Grades {
		all = append(all, tied(fmt.Sprintf("%s %.0f%%", g.ID, 100*g.Factor)))
	}
	if len(all) > 0 {
		p.para(plain, "", margin, "Grades, and what one brings against a sound one: "+strings.Join(all, ", "))
	}
}

// familyParts lists the parts by the ids that price rows name.
func (p *printer) familyParts(f *checklist.Family) {
	if len(f.Parts) == 0 {
		return
	}
	p.heading("Parts, as prices.csv names them")
	g := &grid{columns: []column{{head: "Part"}, {head: "What it is", flex: true}, {head: "Group", flex: true}, {head: "Guide", right: true}}}
	guides := make([]string, len(f.Parts))
	for i := range f.Parts {
		if x := f.Parts[i].Guide; x != nil {
			guides[i] = x.String()
		}
	}
	guides = aligned(guides)
	for i := range f.Parts {
		x := &f.Parts[i]
		g.add(words(x.ID), words(x.Title), words(x.Group), words(guides[i]))
	}
	p.grid(g)
}

func (p *printer) variants(f *checklist.Family) {
	p.heading("Variants")
	g := &grid{columns: []column{{head: "Number"}, {head: "Years"}, {head: "What it is", flex: true}, {head: "Left the factory with", flex: true}}}
	for _, v := range f.Variants {
		var fit []string
		for i, option := range v.Fit {
			fit = append(fit, f.Features[i].ID+" "+f.Features[i].Options[option])
		}
		g.add(words(v.ID), words(years(v.From, v.To)), words(v.Title), words(strings.Join(fit, ", ")))
	}
	p.grid(g)
}

// years is a span of years, as far as known.
func years(from, to int) string {
	switch {
	case from == 0 && to == 0:
		return ""
	case from == to:
		return fmt.Sprint(from)
	case from == 0:
		return fmt.Sprintf("to %d", to)
	case to == 0:
		return fmt.Sprintf("from %d", from)
	}
	return fmt.Sprintf("%d-%d", from, to)
}

func (p *printer) features(f *checklist.Family) {
	if len(f.Features) == 0 {
		return
	}
	p.heading("How to tell them apart")
	g := &grid{columns: []column{{head: "Feature", flex: true}, {head: "May be", flex: true}, {head: "How to tell", flex: true}}}
	for _, x := range f.Features {
		g.add(words(x.Title, idNote(x.ID, x.Title)), words(strings.Join(x.Options, ", ")), words(x.Tell))
	}
	p.grid(g)
}

// idNote is the id, where the title does not show it: findings are written by
// id.
func idNote(id, title string) string {
	if strings.EqualFold(strings.ReplaceAll(title, " ", "-"), id) {
		return ""
	}
	return "(" + id + ")"
}

// points lists what to inspect, area by area in the order of the file.
func (p *printer) points(f *checklist.Family) {
	var areas []string
	for _, x := range f.Points {
		if !slices.Contains(areas, x.Area) {
			areas = append(areas, x.Area)
		}
	}
	for _, area := range areas {
		title := "What to inspect"
		if area != "" {
			title += ": " + area
		}
		p.heading(title)
		g := &grid{columns: []column{{head: "Point", flex: true}, {head: "States, the first is sound", flex: true}, {head: "How", flex: true}}}
		for i := range f.Points {
			if x := &f.Points[i]; x.Area == area {
				g.add(words(x.Title, idNote(x.ID, x.Title), applies(f, x)), words(strings.Join(states(x), ", ")), words(x.How, measured(x)))
			}
		}
		p.grid(g)
	}
}

// measured says what can be measured of a point and what is right, "" for
// nothing.
func measured(x *checklist.Point) string {
	if x.Measure == nil {
		return ""
	}
	text := "Measured: " + x.Measure.What + ", in " + x.Measure.Unit
	if r := x.States[0].Range; r != nil {
		text += "; right: " + tied(x.Measure.Limits(*r))
	}
	return text
}

func states(x *checklist.Point) []string {
	var out []string
	for _, s := range x.States {
		out = append(out, s.ID)
	}
	return out
}

// applies names the variants that have a point, where not all have it.
func applies(f *checklist.Family, x *checklist.Point) string {
	var with []string
	for v, yes := range x.Applies {
		if yes {
			with = append(with, f.Variants[v].ID)
		}
	}
	if len(with) == len(f.Variants) {
		return ""
	}
	return "only " + strings.Join(with, ", ")
}

func (p *printer) symptoms(f *checklist.Family) {
	if len(f.Symptoms) == 0 {
		return
	}
	p.heading("What a test may show")
	g := &grid{columns: []column{{head: "Symptom", flex: true}, {head: "It may come from", flex: true}}}
	for _, s := range f.Symptoms {
		var causes []string
		for _, c := range s.Causes {
			causes = append(causes, f.Points[c.Point].ID+" "+f.Points[c.Point].States[c.State].ID)
		}
		g.add(words(s.Title, idNote(s.ID, s.Title)), words(strings.Join(causes, ", ")))
	}
	p.grid(g)
}
