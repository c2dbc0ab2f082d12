package table

import (
	"fmt"
	"strings"

	"lotgauge/valuation"
)

// found shows the findings in short, by what they rest on, and the state that
// the model should be in.
func (p *printer) found(a *valuation.Appraisal) {
	title := "What was found"
	if doubted(a.Reading.Findings) {
		title += ", and where that is in doubt, how likely it is so"
	}
	p.heading(title)
	if len(a.Reading.Findings) == 0 {
		p.note(plain, "Nothing yet: all that follows rests on how such models usually are.")
	}
	for _, evidence := range []struct{ by, what string }{
		{"hand", "In the hand"}, {"track", "On the track"}, {"photo", "On photos"}, {"seller", "The seller says"}, {"hidden", "Not shown"},
	} {
		if all := said(a.Reading.Findings, evidence.by); all != "" {
			p.item(plain, evidence.what+": "+all+".")
		}
	}
	s := &a.Score
	p.note(plain, fmt.Sprintf("Condition %s of 100 (in 80 of 100 cases %s to %s), originality %s, completeness %s; %s of what counts has been looked at.",
		score(s.Condition.Mean), score(s.Condition.P10), score(s.Condition.P90),
		score(s.Originality.Mean), score(s.Completeness.Mean), percent(s.Coverage)))
	if signs := there(a.Symptoms, probable); signs != "" {
		p.item(plain, "On a test it would probably show: "+signs+".")
	}
}

// probable is a chance from which one would say that it is so.
const probable = 0.5

// sure is a chance from which a finding is taken as it is.
const sure = 0.95

// inDoubt tells whether something else than what was found may well be true.
func inDoubt(f *valuation.FindingLine) bool {
	return f.By != "hidden" && f.Now < sure
}

func doubted(findings []valuation.FindingLine) bool {
	for i := range findings {
		if inDoubt(&findings[i]) {
			return true
		}
	}
	return false
}

// said lists the findings that rest on one kind of evidence.
func said(findings []valuation.FindingLine, by string) string {
	var out []string
	for i := range findings {
		f := &findings[i]
		if f.By != by {
			continue
		}
		text := f.Title
		if by != "hidden" {
			text += ": " + f.Value
		}
		if inDoubt(f) {
			text += tied(" (" + percent(f.Now) + ")")
		}
		out = append(out, text)
	}
	return strings.Join(out, "; ")
}
