package table

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"lotgauge/valuation"
)

// findings shows each finding, on what evidence, and what is now believed.
func (p *printer) findings(a *valuation.Appraisal) {
	p.heading("What was found")
	if len(a.Reading.Findings) == 0 {
		p.note(plain, "Nothing yet: all that follows rests on how such models usually are.")
		return
	}
	g := &grid{columns: []column{
		{head: "What", flex: true}, {head: "Found", flex: true}, {head: "Seen by", flex: true},
		{head: "Trusted", right: true}, {head: "So it is", right: true},
	}}
	for _, f := range a.Reading.Findings {
		found, trusted, now := f.Value, percent(valuation.Share(f.Trust)), percent(f.Now)
		if f.By == "hidden" {
			found, trusted, now = "", "", ""
		}
		g.add(words(f.Title), words(found), words(by(f.By)), words(trusted), words(now))
		g.note(clipped(f.Note, noteRunes))
	}
	p.grid(g)
}

// How many unseen points are shown by themselves.
const (
	fewUnseen  = 5
	mostUnseen = 10
)

// unseen shows what nothing is known of, what costs most on average first.
func (p *printer) unseen(a *valuation.Appraisal) {
	if len(a.Reading.Unseen) == 0 {
		return
	}
	points, others := unseenPoints(a)
	p.heading("What is still unknown")
	g := &grid{columns: []column{
		{head: "Not seen yet", flex: true}, {head: "Sound", right: true}, {head: "Likeliest fault", flex: true},
		{head: "To mend, " + a.Currency, right: true},
	}}
	shown := min(p.most(fewUnseen, mostUnseen), len(points))
	for _, b := range points[:shown] {
		sound, fault := soundness(&b)
		g.add(words(pointTitle(&b)), words(sound), words(fault), words(figure(b.ExpectedCost)))
	}
	p.grid(g)
	for _, b := range points[shown:] {
		others = append(others, b.Title)
	}
	switch {
	case len(others) == 0:
	case p.full:
		p.note(plain, "Not seen either: "+strings.Join(others, "; ")+".")
	default:
		p.note(plain, "And "+counted(len(others), "point")+" not seen either.")
	}
}

// pointTitle is a point, with the chance that it is there at all where that is
// in doubt.
func pointTitle(b *valuation.PointBelief) string {
	if b.Applies >= 1-negligible {
		return b.Title
	}
	return b.Title + " (" + percent(b.Applies) + " that it has one)"
}

// unseenPoints are the beliefs of the points by the titles that nothing is
// known of, dearest first, and the titles without a belief.
func unseenPoints(a *valuation.Appraisal) (points []valuation.PointBelief, others []string) {
	for _, title := range a.Reading.Unseen {
		i := slices.IndexFunc(a.Points, func(b valuation.PointBelief) bool { return b.Title == title })
		if i < 0 {
			others = append(others, title)
		} else {
			points = append(points, a.Points[i])
		}
	}
	slices.SortStableFunc(points, func(x, y valuation.PointBelief) int {
		if x.ExpectedCost == nil || y.ExpectedCost == nil {
			return cmp.Compare(known(y), known(x))
		}
		return y.ExpectedCost.Cmp(x.ExpectedCost.Decimal)
	})
	return points, others
}

func known(b valuation.PointBelief) int {
	if b.ExpectedCost == nil {
		return 1 // what has no figure comes first
	}
	return 0
}

// soundness is the chance that a point is sound, and its likeliest fault.
func soundness(b *valuation.PointBelief) (sound, fault string) {
	if len(b.States) == 0 {
		return "", ""
	}
	worst := valuation.Chance{}
	for _, s := range b.States[1:] {
		if s.Chance > worst.Chance {
			worst = s
		}
	}
	if worst.Chance > 0 {
		fault = label(worst) + " " + percent(worst.Chance)
	}
	return percent(b.States[0].Chance), fault
}

// label is the title of an answer, or its id as words.
func label(c valuation.Chance) string {
	if c.Title != "" {
		return c.Title
	}
	return strings.ReplaceAll(c.ID, "-", " ")
}

// scores shows the three scores.
func (p *printer) scores(a *valuation.Appraisal) {
	p.heading("What state it is in")
	g := &grid{columns: []column{
		{}, {head: "Of 100", right: true}, {head: "In 80 of 100 cases\nbetween", right: true},
	}}
	for _, row := range []struct {
		name string
		of   valuation.Spread
	}{
		{"Condition", a.Score.Condition}, {"Originality", a.Score.Originality}, {"Completeness", a.Score.Completeness},
	} {
		g.add(words(row.name), words(score(row.of.Mean)), words(score(row.of.P10)+" and "+score(row.of.P90)))
	}
	p.grid(g)
	p.note(plain, fmt.Sprintf("%s of what counts has been looked at.", percent(a.Score.Coverage)))
	if signs := there(a.Symptoms, negligible); signs != "" {
		p.item(plain, "On a test it would show: "+signs+".")
	}
}

// there lists the symptoms that are at least as likely, with their chances.
func there(symptoms []valuation.Chance, least valuation.Share) string {
	var out []string
	for _, s := range symptoms {
		if s.Chance >= least {
			out = append(out, lower(label(s))+" "+percent(s.Chance))
		}
	}
	return strings.Join(out, "; ")
}
