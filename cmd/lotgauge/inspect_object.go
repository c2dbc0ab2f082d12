package main

import (
	"io"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

// object says that an answer is none. Where it was written down beforehand,
// nobody is there to give another: that is an error.
func (d *dialogue) object(diags diag.List) error {
	if at, strict := d.from.place(); strict {
		for i := range diags {
			diags[i].Pos = at
		}
		return diags.Err()
	}
	err := d.print(func(w io.Writer) error { return table.InspectObjection(w, diags, d.Layout) })
	if err == nil {
		d.from.forget()
	}
	return err
}

func (d *dialogue) objectText(what string) error {
	return d.object(diag.List{{Severity: diag.Error, Summary: what}})
}

// unknownCheck is the objection to a check that cannot be made.
func unknownCheck(name string, left []valuation.Check) diag.List {
	var known []string
	for _, c := range left {
		known = append(known, c.ID)
	}
	near, _ := diag.Nearest(name, known)
	return diag.List{{Severity: diag.Error, Summary: "no check called \"" + name + "\" can be made here", Try: near}}
}

// cautions are what to mind at any stall.
var cautions = []string{
	"Nothing is opened, unscrewed or unclipped without the seller's leave.",
	"Try a model on your own supply only: tested, isolated, within the model's rating. Leave old mains transformers alone; mains work is for qualified people.",
	"A battery at a stall: only one whose voltage suits the model, for a moment, never across a decoder you do not know.",
	"No solvent, oil or eraser on somebody else's model: they take off lettering and craze plastic.",
}

// inShort are the cautions for a terminal, where they must still be on the screen
// at the first question.
var inShort = []string{
	"Open nothing without the seller's leave. Power from your own tested, isolated supply only; leave old mains transformers alone. No solvent or oil.",
}

// What to mind before one check.
const (
	carePower = "Power only from your own supply: tested, isolated, within the model's rating. Not from the old transformer on the table, and no battery unless its voltage suits: a decoder or a coil may not stand it."
	careClean = "No solvent, oil or eraser without the owner's leave, and none near lettering: it takes off print and crazes plastic."
	careLeave = "Where something is in the way of seeing it: only with the seller's leave is anything opened, unscrewed or unclipped."
)

// care is what to mind before a check.
func care(c valuation.Check) []string {
	var out []string
	for _, what := range c.Mind {
		switch what {
		case checklist.MindOpening:
			out = append(out, careLeave)
		case checklist.MindPower:
			out = append(out, carePower)
		case checklist.MindSolvent:
			out = append(out, careClean)
		}
	}
	return out
}
