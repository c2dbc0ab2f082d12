package checklist

import (
	"slices"

	"lotgauge/valuation/diag"
)

// A prover is a family that was read without errors, and the tables it was read
// from, for the places. As there were no errors, the tables of a list and the
// entries of the family have the same indices.
type prover struct {
	fam  *Family
	root *diag.Table
}

// Prove looks for what a family cannot mean, and puts it into doc, the document
// the family was read from. It does nothing where doc has errors already.
//
// Errors are a rule that can never fire and a symptom that can never occur:
// somebody relies on them. Warnings are
//
//   - a grade that brings less than the one below it,
//   - a history that never occurs, or that no point tells from another,
//   - a feature in which all variants agree and that nothing names,
//   - a state that can never occur, a remedy that is never carried out, and one
//     that costs nothing at all,
//   - a symptom that is always there, a cause without effect, and a sound state
//     as a cause,
//   - a part that no point needs or yields; other families may use it,
//   - a rule that always fires, and a branch of one that can never hold.
//
// Whether a part has a price is not looked at here, as prices seen are not
// known to this package.
func Prove(f *Family, doc *diag.Document) {
	if doc.Diagnostics().HasErrors() {
		return
	}
	p := prover{f, doc.Root()}
	p.grades()
	p.histories()
	p.features()
	p.points()
	p.symptoms()
	p.parts()
	p.rules()
}

// grades warns of a factor that falls as the score rises.
func (p *prover) grades() {
	for i, t := range p.root.Children("grade") {
		if i > 0 && p.fam.Grades[i].Factor < p.fam.Grades[i-1].Factor {
			t.Warn("factor", "a better grade brings less", "at least the factor of the grade before", "")
		}
	}
}

// histories warns of a history that does nothing: one with no odds, or one that
// is the same as another to every point, so that no finding can tell them apart.
func (p *prover) histories() {
	for i, t := range p.root.Children("history") {
		if p.fam.Histories[i].Odds == 0 {
			t.Warn("odds", "this history never occurs", "odds above 0", "")
		}
		for j := range i {
			if p.sameOdds(i, j) {
				t.Warn("id", "no point tells this history from "+quoted(p.fam.Histories[j].ID),
					"odds that differ at one point at least", "leaving one of the two out")
				break
			}
		}
	}
}

// sameOdds tells whether two histories give all states of all points the same
// weights.
func (p *prover) sameOdds(i, j int) bool {
	for _, x := range p.fam.Points {
		for _, s := range x.States {
			if s.Odds[i] != s.Odds[j] {
				return false
			}
		}
	}
	return true
}

// features warns of a feature that neither tells variants apart nor decides
// anything. One that only tells variants apart is of use: it is how a variant is
// inferred from what can be seen.
func (p *prover) features() {
	used := p.usedFeatures()
	for i, t := range p.root.Children("feature") {
		first := p.fam.Variants[0].Fit[i]
		differs := func(v Variant) bool { return v.Fit[i] != first }
		if !used[p.fam.Features[i].ID] && !slices.ContainsFunc(p.fam.Variants, differs) {
			t.Warn("id", "a feature of no use: all variants have the same option, and no point shows or needs it",
				"a variant that differs, or a point with this feature", "")
		}
	}
}

// usedFeatures are the ids of features that a point shows, depends on or names
// in a part.
func (p *prover) usedFeatures() map[string]bool {
	used := map[string]bool{}
	for i, t := range p.root.Children("point") {
		if f := p.fam.Points[i].Feature; f >= 0 {
			used[p.fam.Features[f].ID] = true
		}
		if only := t.Child("only"); only != nil {
			for _, name := range only.Keys() {
				used[name] = true
			}
		}
	}
	for _, s := range p.supplies() {
		split, _ := pieces(s.Template)
		for _, x := range split {
			used[x.text] = used[x.text] || x.name
		}
	}
	return used
}

// supplies are all needs and yields.
func (p *prover) supplies() []Supply {
	var all []Supply
	for _, x := range p.fam.Points {
		for _, s := range x.States {
			all = append(append(all, s.Needs...), s.Yields...)
		}
	}
	return all
}

// points warns of states that do nothing, and of remedies that look forgotten.
func (p *prover) points() {
	for i, t := range p.root.Children("point") {
		warnMeasure(t, p.fam.Points[i])
		warnMind(t, p.fam.Points[i])
		for k, c := range t.Children("state") {
			s := p.fam.Points[i].States[k]
			if !p.occurs(s) {
				c.Warn("odds", "this state can never occur", "odds above 0 for a history that occurs", "")
			}
			warnRemedy(c, s, k == 0)
		}
	}
}

// warnMind warns of something to mind of a point that nobody has in the hand.
func warnMind(t *diag.Table, p Point) {
	handled := slices.Contains(p.See, "hand") || slices.Contains(p.See, "track")
	if len(p.Mind) > 0 && !handled {
		t.Warn("mind", "nothing to mind: neither hand nor track settles it", `"hand" or "track" in see`, "")
	}
}

// warnRemedy warns of a remedy that is never carried out, and of one that costs
// nothing at all: the model would be worth as much with the fault as without.
func warnRemedy(t *diag.Table, s State, sound bool) {
	free := len(s.Needs) == 0 && s.Spend == nil && s.Minutes == 0
	fault := s.Score < 1 || s.Factor < 1 || !s.Original || !s.Complete
	switch {
	case s.Incurable && !free:
		t.Warn("cure", "a remedy that is never carried out", `needs, spend and minutes, or cure = "none", not both`, "")
	case !s.Incurable && free && fault && !sound:
		t.Warn("id", "the remedy costs nothing", "needs, spend or minutes", `cure = "none" where it stays as it is`)
	}
}

// occurs tells whether a state has odds under a history that occurs.
func (p *prover) occurs(s State) bool {
	for h, x := range p.fam.Histories {
		if x.Odds > 0 && s.Odds[h] > 0 {
			return true
		}
	}
	return false
}

// symptoms reports a symptom that cannot be there: a finding of it would be
// impossible evidence. It warns of one that is always there, whose finding says
// nothing, and of causes that look like mistakes.
func (p *prover) symptoms() {
	for i, t := range p.root.Children("symptom") {
		s := p.fam.Symptoms[i]
		if s.Leak == 1 {
			t.Warn("leak", "this symptom is always there", "a chance below 1", "")
		}
		if !p.arises(s) {
			t.Report("id", "this symptom can never occur", "a leak above 0, or a cause that occurs", "")
		}
		for k, c := range t.Children("causes") {
			switch {
			case s.Causes[k].Strength == 0:
				c.Warn("strength", "a cause without effect", "a strength above 0", "")
			case s.Causes[k].State == 0:
				c.Warn("state", "the sound state causes the symptom", "a state other than the first", "")
			}
		}
	}
}

// arises tells whether a symptom can be there at all.
func (p *prover) arises(s Symptom) bool {
	effective := func(c Cause) bool { return c.Strength > 0 && p.occurs(p.fam.Points[c.Point].States[c.State]) }
	return s.Leak > 0 || slices.ContainsFunc(s.Causes, effective)
}

// parts warns of the family's own parts that no point of it needs or yields.
func (p *prover) parts() {
	used := make([]bool, len(p.fam.Parts))
	for _, s := range p.supplies() {
		for _, part := range s.Part {
			if part >= 0 {
				used[part] = true
			}
		}
	}
	for i, t := range p.root.Children("part") {
		if !used[i] {
			t.Warn("id", "no point of this family needs or yields the part", "a state that does", "")
		}
	}
}
