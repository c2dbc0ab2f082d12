package table

import (
	"fmt"
	"io"
	"strings"

	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
)

// Identification prints which catalogue numbers of a family it may be, and which
// feature to look at next.
func Identification(w io.Writer, id *valuation.Identification, f *checklist.Family, demonstration bool, o Options) error {
	p := newPrinter(o)
	p.para(strong, "", "", identity(id))
	p.invented(demonstration)
	p.blank()
	p.para(plain, "", "", id.Title+bracketed(id.Family))
	p.candidates(id, f)
	p.lookNext(id)
	return p.writeTo(w)
}

// identity is the answer in a sentence.
func identity(id *valuation.Identification) string {
	switch best := first(id.Variants); {
	case best.ID == "":
		return "No catalogue number is possible."
	case best.Chance >= certain:
		return "It is " + best.ID + bracketed(best.Title) + "."
	case best.Chance >= probable:
		return "Probably " + best.ID + bracketed(best.Title) + ": " + percent(best.Chance) + "."
	}
	return "Not clear yet: " + counted(len(id.Variants), "catalogue number") + " possible."
}

func first(chances []valuation.Chance) valuation.Chance {
	if len(chances) == 0 {
		return valuation.Chance{}
	}
	return chances[0]
}

// candidates lists the catalogue numbers that are possible, with what they left
// the factory with.
func (p *printer) candidates(id *valuation.Identification, f *checklist.Family) {
	p.heading("Which it may be")
	g := &grid{columns: []column{
		{head: "Number"}, {head: "Chance", right: true}, {head: "What it is", flex: true}, {head: "Left the factory with", flex: true},
	}}
	few := 0
	for i, c := range id.Variants {
		if c.Chance < negligible && i > 0 {
			few++
			continue
		}
		g.add(words(c.ID), words(percent(c.Chance)), words(c.Title), words(fits(f, c.ID)))
	}
	p.grid(g)
	if few > 0 {
		p.note(plain, "And "+counted(few, "other")+" less likely than 1 in 200.")
	}
}

// fits says what a catalogue number left the factory with.
func fits(f *checklist.Family, variant string) string {
	v := f.VariantIndex(variant)
	if v < 0 {
		return ""
	}
	var out []string
	for i, option := range f.Variants[v].Fit {
		out = append(out, f.Features[i].ID+" "+f.Features[i].Options[option])
	}
	return strings.Join(out, ", ")
}

// lookNext lists the features not yet settled. The entropy of the catalogue
// number, in bits, is about how many questions that are answered yes or no it
// takes to find it out, if they are well chosen.
func (p *printer) lookNext(id *valuation.Identification) {
	if id.Bits <= 0 {
		return
	}
	p.heading("What to look at next")
	p.note(plain, "It takes about "+tied(fmt.Sprintf("%.2f", id.Bits)+" yes-or-no questions")+" (bits) to tell which it is.")
	if len(id.Next) == 0 {
		p.note(plain, "No feature tells them apart: look for a number on the box, the frame or the papers.")
		return
	}
	g := &grid{numbers: true, columns: []column{{right: true}, {flex: true}, {head: "Saves, of\nquestions", right: true}}}
	valued := id.Next[0].Worth != nil
	if valued {
		g.columns = append(g.columns, column{head: "Worth\n" + id.Currency, right: true})
	}
	for i, t := range id.Next {
		cells := []cell{words(fmt.Sprintf("%d.", i+1)), words(t.Title, idNote(t.ID, t.Title)), words(bits(t.Bits))}
		if valued {
			cells = append(cells, words(figure(t.Worth)))
		}
		g.add(cells...)
		if t.Tell != "" {
			g.note("How to tell: " + sentence(t.Tell))
		}
		g.note("May be: " + options(t.Options) + ".")
	}
	p.grid(g)
	if valued {
		p.note(faint, "Worth: what knowing it is worth in money when you decide on this listing.")
	}
}

// bits is a number of questions.
func bits(b float64) string {
	if b < 0.005 {
		return "<0.01"
	}
	return fmt.Sprintf("%.2f", b)
}

// options lists what a feature may turn out to be, with the chances.
func options(chances []valuation.Chance) string {
	var out []string
	for _, c := range chances {
		if c.Chance > 0 {
			out = append(out, label(c)+" "+tied(percent(c.Chance)))
		}
	}
	return strings.Join(out, ", ")
}
