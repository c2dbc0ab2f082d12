package valuation

import (
	"slices"

	"lotgauge/valuation/checklist"
)

// The kinds of checks.
const (
	CheckPoint   = "point"   // look at a point: which state is it in?
	CheckSymptom = "symptom" // try it: is the symptom there?
	CheckFeature = "feature" // look at a feature: which option is it?
	CheckVariant = "variant" // read the catalogue number
)

// A Check is one thing to look at or try.
type Check struct {
	// Kind is one of the kinds above, ID the id of the point, symptom or feature,
	// for the catalogue number that of the family.
	Kind, ID string
	// How says what to do; Area is where on the model, for points.
	Title, Area, How string
	// Ask is what to ask a seller, by language.
	Ask map[string]string
	// By is the evidence that the check gives here.
	By      string
	Minutes float64

	// Worth is what knowing the answer is worth, Net is that less the time it
	// takes, both in the home currency. They are of as many checks as Together
	// says: of 1, or of a set that pays together though none of it does by itself,
	// or not as well.
	Worth, Net Money
	Together   int
	// With is the title of the second check where two pay together.
	With string

	// Mind is what is to be minded of it, see [checklist.Point.Minded]. It is empty
	// where somebody else has the model in the hand.
	Mind []string

	Answers []CheckAnswer
	// Measure is what can be measured instead of named, nil for nothing; Right is
	// then what a sound one reads, "14.0 to 14.1 mm", empty where that is anything.
	Measure *checklist.Measure
	Right   string
}

// A CheckAnswer is one of the answers a check may have. What Answer takes is its
// ID.
type CheckAnswer struct {
	ID, Title string
	// Chance is that of the answer among those who can tell.
	Chance Share
	// Stop is why the answer rules the deal out, empty where it does not.
	Stop string
}

// Key names the check among those of its family, "point:wheels".
func (c Check) Key() string { return c.Kind + ":" + c.ID }

// subject is what a check is about, and how it is made here.
type subject struct {
	kind  string
	index int // of the point, symptom or feature
	// by is the evidence, empty where it is not to be had.
	by string
	// shows is for a feature the point that shows it, or -1.
	shows int
}

// subjects are all checks of the family that can be made here, in its order: the
// catalogue number, features, points, symptoms.
func (n *Inspection) subjects() []subject {
	f := n.a.family
	glance := n.evidence([]string{ByPhoto, ByHand, BySeller})
	out := []subject{{kind: CheckVariant, by: glance, shows: -1}}
	for i := range f.Features {
		if shows, ok := n.showing(i); ok {
			out = append(out, subject{CheckFeature, i, glance, shows})
		}
	}
	for i := range f.Points {
		out = append(out, subject{CheckPoint, i, n.evidence(f.Points[i].See), -1})
	}
	for i := range f.Symptoms {
		out = append(out, subject{CheckSymptom, i, n.evidence(f.Symptoms[i].See), -1})
	}
	return slices.DeleteFunc(out, func(s subject) bool { return s.by == "" })
}

// evidence is by what something can be settled here: the best of what can settle
// it and is to be had. What a picture shows the eye can see as well.
func (n *Inspection) evidence(see []string) string {
	for _, by := range []string{ByTrack, ByHand, ByPhoto, BySeller} {
		settles := slices.Contains(see, by) || by == ByHand && slices.Contains(see, ByPhoto)
		if settles && slices.Contains(n.here, by) {
			return by
		}
	}
	return ""
}

// showing is the first point that shows a feature and may be there, -1 where no
// point shows it. It is false where all that show it are gone.
func (n *Inspection) showing(feature int) (point int, ok bool) {
	ok = true
	for i := range n.a.family.Points {
		p := &n.a.family.Points[i]
		if p.Feature != feature {
			continue
		}
		ok = false
		for s, chance := range n.a.posterior.Point(i) {
			if p.States[s].Complete && chance > 1-settled {
				return i, true
			}
		}
	}
	return -1, ok
}

// key names a subject as Check.Key does.
func (n *Inspection) key(s subject) string { return s.kind + ":" + n.id(s) }

// id is the id of what a subject is about.
func (n *Inspection) id(s subject) string {
	f := n.a.family
	switch s.kind {
	case CheckPoint:
		return f.Points[s.index].ID
	case CheckSymptom:
		return f.Symptoms[s.index].ID
	case CheckFeature:
		return f.Features[s.index].ID
	}
	return f.ID
}

// Check is the check of a key, whether it pays or not. It is false for a check
// that the family does not have, or that cannot be made here.
func (n *Inspection) Check(key string) (Check, bool) {
	for _, s := range n.subjects() {
		if n.key(s) == key {
			return n.check(s), true
		}
	}
	return Check{}, false
}

// check describes a check, without what it is worth. Its chances are exact, not
// those of the draws.
func (n *Inspection) check(s subject) Check {
	q := n.question(s)
	c := Check{
		Kind: s.kind, ID: n.id(s), By: s.by,
		Title: q.Title, How: q.How, Ask: q.Ask, Minutes: q.Minutes,
		Answers: n.answers(s),
	}
	if s.kind == CheckSymptom {
		if s.by == ByTrack {
			c.Mind = []string{checklist.MindPower}
		}
	}
	if s.kind == CheckPoint {
		p := &n.a.family.Points[s.index]
		c.Area = p.Area
		if s.by == ByHand || s.by == ByTrack {
			c.Mind = p.Minded()
		}
		if !n.measured(p.ID, s.by) {
			c.Measure, c.Right = p.Measure, p.Right()
		}
	}
	return c
}

// measured tells whether the listing had a reading of a point by the same evidence
// before the inspection: the same gauge again says nothing new. A reading that is
// an answer may be taken anew, and the newer one counts.
func (n *Inspection) measured(point, by string) bool {
	return slices.ContainsFunc(n.start.Findings, func(f Finding) bool {
		return f.Point == point && f.Reading != "" && f.By == by
	})
}

// answers are the answers of a check with their chances. Catalogue numbers that
// it cannot be are left out.
func (n *Inspection) answers(s subject) []CheckAnswer {
	var out []CheckAnswer
	add := func(id, title string, chance Share) *CheckAnswer {
		out = append(out, CheckAnswer{ID: id, Title: title, Chance: chance})
		return &out[len(out)-1]
	}
	f, p := n.a.family, n.a.posterior
	switch s.kind {
	case CheckPoint:
		chances := p.Point(s.index)
		for i := range f.Points[s.index].States {
			x := &f.Points[s.index].States[i]
			add(x.ID, stateTitle(x), Share(chances[i])).Stop = x.Stop
		}
	case CheckSymptom:
		there := Share(p.Symptom(s.index))
		add(AnswerYes, "yes", there)
		add(AnswerNo, "no", 1-there)
	case CheckFeature:
		for i, o := range f.Features[s.index].Options {
			add(o, spoken(o), n.optionChance(s, i))
		}
	default:
		for i, chance := range p.Variants() {
			if chance > 0 {
				add(f.Variants[i].ID, f.Variants[i].Title, Share(chance))
			}
		}
	}
	scale(out)
	return out
}

// scale makes the chances sum to 1: they are of those who can tell.
func scale(answers []CheckAnswer) {
	sum := Share(0)
	for _, a := range answers {
		sum += a.Chance
	}
	for i := range answers {
		if sum > 0 {
			answers[i].Chance /= sum
		}
	}
}
