package table

import (
	"fmt"
	"io"
	"strings"

	"lotgauge/valuation"
)

// Fit prints the factors of a family by the user's own rows, beside those of its
// file.
func Fit(w io.Writer, f *valuation.FamilyFit, demonstration bool, o Options) error {
	p := newPrinter(o)
	p.invented(demonstration)
	if demonstration {
		p.blank()
	}
	p.para(strong, "", "", "Factors of "+f.Family+" by "+counted(f.Rows, "row")+" up to "+f.On.Format("2006-01-02"))
	if f.SetAside > 0 {
		p.note(plain, counted(f.SetAside, "row")+" set aside, too far from the others.")
	}
	if f.Freedom == 0 {
		p.note(warn, "Nothing can be told: there are no more rows than factors.")
	} else {
		p.note(plain, fmt.Sprintf("Grade %s is held at its factor in the file, the others are told from it. Prices scatter by %.0f%% about the fit.",
			f.Base, 100*f.Spread))
	}
	p.factors(f)
	p.blank()
	p.para(faint, "", "", "In the file: the factor that estimates use now. By rows: what your rows say, with the range that holds it in 90 of 100 cases. "+
		"Where that leaves out the factor of the file, the rows speak against it.")
	return p.writeTo(w)
}

func (p *printer) factors(f *valuation.FamilyFit) {
	for _, part := range []struct{ kind, title string }{
		{valuation.GradeFactor, "Grades"}, {valuation.LackingFactor, "What was lacking or not sound"}, {valuation.AskedFactor, "Asked, to what is paid"},
	} {
		g := &grid{columns: []column{
			{flex: true}, {head: "In the file", right: true}, {head: "By rows", right: true}, {head: "90 of 100", right: true}, {head: "Rows", right: true}, {},
		}}
		for i := range f.Factors {
			if x := &f.Factors[i]; x.Kind == part.kind {
				p.factorRow(g, x, f)
			}
		}
		if len(g.rows) > 0 {
			p.heading(part.title)
			p.grid(g)
		}
	}
}

func (p *printer) factorRow(g *grid, x *valuation.FittedFactor, f *valuation.FamilyFit) {
	fitted, between, verdict, t := "-", "-", "", plain
	switch {
	case x.Kind == valuation.GradeFactor && x.ID == f.Base:
		verdict = "held"
	case x.Known:
		fitted, between = fmt.Sprintf("%.3f", x.Fitted), fmt.Sprintf("%.3f to %.3f", x.Low, x.High)
		if x.Against() {
			verdict, t = "against", warn
		}
	}
	g.add(words(x.Title), words(fmt.Sprintf("%.3f", x.File)), words(fitted), words(between), words(fmt.Sprint(x.Rows)), toned(t, verdict))
	if len(x.Alias) > 0 {
		g.note("Not to be told from: " + strings.Join(x.Alias, ", ") + ".")
	}
}
