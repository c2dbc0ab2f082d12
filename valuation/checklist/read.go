package checklist

import (
	"fmt"

	"lotgauge/valuation/diag"
)

// A reader is a family half read, with what is needed to resolve names. Lists
// are read in an order in which names come before their uses: features before
// variants, parts before points, points before symptoms and rules. In the file
// they may stand in any order.
type reader struct {
	fam     *Family
	foreign func(id string) (Part, bool) // nil: there are no other families

	// The names met so far, at the indices of the family's lists.
	histories, features, variants, points, symptoms, parts *roster

	// Options per feature, and states per point.
	options, states []*roster
}

// Read reads a family. A part id that is not among the family's own is looked
// up with foreign, which may be nil; what it finds is appended to Parts, marked
// Foreign.
//
// Diagnostics go into doc, all of them in one go. The family is never nil, but
// fit for use only if the document then has no errors: what could not be
// resolved has the index -1 or is left out. Of a document that could not be
// read at all only File is set.
//
// Names are resolved for the family as it is written, so one misspelt id is one
// error for each place that uses it, and none where it is defined.
func Read(doc *diag.Document, foreign func(id string) (Part, bool)) *Family {
	r := newReader(doc, foreign)
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
	r.bound(t)
	t.Finish()
	return r.fam
}

// ReadParts reads no more of a family than the parts it has itself, for families
// that use them. Where those are not all, as some could not be read, the
// diagnostics say why.
func ReadParts(doc *diag.Document) ([]Part, diag.List) {
	r := newReader(doc, nil)
	if doc.Broken() {
		return nil, doc.Diagnostics()
	}
	t := doc.Root()
	r.header(t)
	r.readParts(t)
	t.Finish()
	if !r.parts.partial {
		return r.fam.Parts, nil
	}
	return r.fam.Parts, doc.Diagnostics()
}

func newReader(doc *diag.Document, foreign func(id string) (Part, bool)) *reader {
	return &reader{
		fam: &Family{File: doc.File()}, foreign: foreign,
		histories: newRoster("history"), features: newRoster("feature"), variants: newRoster("variant"),
		points: newRoster("point"), symptoms: newRoster("symptom"), parts: newRoster("part"),
	}
}

// lists are the keys of the root that hold a list, in the order in which they are
// read.
var lists = [...]string{"grade", "history", "feature", "variant", "part", "point", "symptom", "rule"}

// bound refuses a family that would take an appraisal seconds: what a state
// means in money is worked out for every variant.
func (r *reader) bound(t *diag.Table) {
	states := 0
	for _, p := range r.fam.Points {
		states += len(p.States)
	}
	if n := states * len(r.fam.Variants); n > MaxStates {
		t.Report("point", fmt.Sprintf("%d states of points for %d variants", states, len(r.fam.Variants)),
			fmt.Sprintf("at most %d of both together, multiplied", MaxStates), "a family of its own for the later or the rarer variants")
	}
}

// header reads what stands before the lists:
//
//	format = 1
//	id = "pellworth-ce4"
//	title = "Pellworth CE4 alpine electric, H0 three-rail"
//	scale = "H0"
//	break_minutes = 40
func (r *reader) header(t *diag.Table) {
	if t.Need("format", "format = 1 in the first line") {
		t.Integer("format", 1, 1, 1)
	}
	r.fam.ID = t.ID("id")
	r.fam.Title = t.Required("title")
	r.fam.Scale = t.Text("scale")
	r.fam.BreakMinutes = t.Number("break_minutes", 0, 0, maxMinutes)
	for _, key := range lists { // so that it is known what else there may be
		t.Has(key)
	}
}

// readGrades reads
//
//	grade = [
//	  { id = "poor", score = 20, factor = 0.30 },
//	  { id = "excellent", score = 90, factor = 1.00 },
//	]
//
// Scores rise strictly, as the price factor is interpolated between them.
func (r *reader) readGrades(t *diag.Table) {
	known := newRoster("grade")
	for i, c := range list(t, "grade", known) {
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
	if len(r.fam.Grades) == 0 && !t.Unread("grade") {
		t.Report("grade", "a family without grades", `grade = [{ id = "good", score = 80, factor = 1.0 }] or more of them`, "")
	}
}

// readHistories reads the optional list
//
//	history = [ { id = "cabinet", title = "stood in a cabinet", odds = 35 } ]
//
// and puts in the one history of a family without it.
func (r *reader) readHistories(t *diag.Table) {
	sum := 0.0
	for _, c := range list(t, "history", r.histories) {
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

// list is the tables of an array, whose ids are to be entered. More than MaxEach
// are reported and read all the same, so that whatever else is wrong is reported
// too.
func list(t *diag.Table, key string, into *roster) []*diag.Table {
	all := t.Children(key)
	into.partial = t.Unread(key)
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
