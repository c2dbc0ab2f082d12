package checklist

import (
	"fmt"

	"lotgauge/valuation/diag"
)

// A reader is a family half read, with what is needed to resolve names.
type reader struct {
	fam     *Family
	foreign func(id string) (Part, bool)

	histories, features, variants, points, symptoms, parts *roster

	options []*roster // per feature
	states  []*roster // per point
}

// Read reads a family. A part id that is not among the family's own is looked
// up with foreign, which may be nil; what it finds is appended to Parts, marked
// Foreign.
//
// Diagnostics go into doc, all of them in one go. The family is never nil, but
// fit for use only if the document then has no errors: what could not be
// resolved has the index -1 or is left out.
func Read(doc *diag.Document, foreign func(id string) (Part, bool)) *Family {
	r := &reader{
		fam: &Family{File: doc.File()}, foreign: foreign,
		histories: newRoster("history"), features: newRoster("feature"), variants: newRoster("variant"),
		points: newRoster("point"), symptoms: newRoster("symptom"), parts: newRoster("part"),
	}
	if doc.Broken() {
		return r.fam
	}
	t := doc.Root()
	r.header(t)
	r.readGrades(t)
	r.readHistories(t)
	r.readFeatures(t)
	r.readVariants(t)
	r.readParts(t)
	r.readPoints(t)
	r.readSymptoms(t)
	r.readRules(t)
	t.Finish()
	return r.fam
}

func (r *reader) header(t *diag.Table) {
	if t.Need("format", "format = 1 in the first line") {
		t.Integer("format", 1, 1, 1)
	}
	r.fam.ID = t.ID("id")
	r.fam.Title = t.Required("title")
	r.fam.Scale = t.Text("scale")
	r.fam.BreakMinutes = t.Number("break_minutes", 0, 0, maxMinutes)
}

func (r *reader) readGrades(t *diag.Table) {
	known := newRoster("grade")
	for i, c := range list(t, "grade") {
		g := Grade{ID: r.id(c, known)}
		if c.Need("score", "a condition score from 0 to 100") {
			g.Score = c.Number("score", 0, 0, 100)
		}
		if c.Need("factor", "its price against the reference grade, such as 0.8") {
			g.Factor = c.Number("factor", 1, 0, maxFactor)
		}
		if c.Has("factor") && g.Factor == 0 {
			c.Report("factor", "a grade worth nothing", "a factor above 0: prices seen are divided by it", "")
		}
		if i > 0 && c.Has("score") && g.Score <= r.fam.Grades[i-1].Score {
			c.Report("score", "the scores of the grades do not rise",
				fmt.Sprintf("more than %g, the score of the grade before", r.fam.Grades[i-1].Score), "")
		}
		r.fam.Grades = append(r.fam.Grades, g)
	}
	if len(r.fam.Grades) == 0 {
		t.Report("grade", "a family without grades", `grade = [{ id = "good", score = 80, factor = 1.0 }] or more of them`, "")
	}
}

func (r *reader) readHistories(t *diag.Table) {
	sum := 0.0
	for _, c := range list(t, "history") {
		h := History{ID: r.id(c, r.histories), Odds: c.Number("odds", 1, 0, maxWeight)}
		h.Title = titled(c, h.ID)
		sum += h.Odds
		r.fam.Histories = append(r.fam.Histories, h)
	}
	switch {
	case len(r.fam.Histories) == 0:
		r.fam.Histories = []History{{ID: AnyHistory, Title: AnyHistory, Odds: 1}}
		r.histories.enter(AnyHistory, place{})
	case sum == 0:
		t.Report("history", "no history has any odds", "odds above 0 for at least one", "")
	}
}

// list is the tables of an array of at most MaxEach.
func list(t *diag.Table, key string) []*diag.Table {
	all := t.Children(key)
	if len(all) > MaxEach {
		t.Report(key, fmt.Sprintf("%d entries", len(all)), fmt.Sprintf("at most %d", MaxEach), "")
	}
	return all
}

// id reads the id of a table and enters it.
func (r *reader) id(t *diag.Table, into *roster) string {
	id := t.ID("id")
	into.enter(id, at(t, "id"))
	return id
}
