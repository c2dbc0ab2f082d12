package valuation

import (
	"slices"
	"strings"

	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

// Answers that every check takes. No id is written like them.
const (
	CannotTell = "?" // it cannot be told here: the check is not offered again
	Skip       = "." // not now: it is offered once more when nothing else pays
)

// Answers to a symptom.
const (
	AnswerYes = "yes"
	AnswerNo  = "no"
)

// Answer records the answer to a check: the id of one of its answers, a reading
// such as "13.9 mm" where the check has a Measure, CannotTell or Skip. The check
// need not be the next one. A newer answer to a check takes the place of the older
// one; a reading that of a reading only, since the gauge tells less than the eye.
// Who cannot tell after all takes back what was seen.
// What the listing or another witness says stays beside it. Where the diagnostics
// have errors, nothing was recorded.
func (n *Inspection) Answer(c Check, answer string) diag.List {
	was := *n
	was.steps = slices.Clone(n.steps)
	at, instead := n.withdraw(c.Key(), answer)
	diags := n.take(c, answer)
	switch {
	case diags.HasErrors():
		*n = was
	case instead != nil:
		last := &n.steps[len(n.steps)-1]
		last.instead, last.stood = instead, at
	}
	return diags
}

// withdraw takes the earlier answer out that a newer one takes the place of.
// First, because what can be answered at all may follow from it.
func (n *Inspection) withdraw(key, answer string) (int, *step) {
	if answer == Skip {
		return 0, nil
	}
	s, _ := n.subject(key)
	_, measured := n.Taken(key, answer)
	at := slices.IndexFunc(n.steps, func(x step) bool {
		return x.Check == key && x.finding != nil && x.finding.By == s.by && (x.finding.Reading != "") == measured
	})
	if at < 0 {
		return 0, nil
	}
	old := n.steps[at]
	n.steps = slices.Delete(slices.Clone(n.steps), at, at+1)
	n.believe() // less was found: what was possible is so still
	return at, &old
}

// Instead is the other answer that the last one took the place of, empty for none.
func (n *Inspection) Instead() string {
	if len(n.steps) == 0 {
		return ""
	}
	last := &n.steps[len(n.steps)-1]
	if last.instead == nil || last.instead.Answer == last.Answer {
		return ""
	}
	return last.instead.Answer
}

// take records an answer beside all others.
func (n *Inspection) take(c Check, answer string) diag.List {
	s, ok := n.subject(c.Key())
	if !ok {
		return refuse("no check "+quoted(c.Key())+" can be made here", "one of "+listed(n.keys()), "")
	}
	done := step{Reply: Reply{Check: c.Key(), Answer: answer}, minutes: c.Minutes}
	if answer == CannotTell || answer == Skip {
		n.steps = append(n.steps, done)
		n.plan, n.standing = nil, nil
		return nil
	}
	f, diags := n.finding(s, answer)
	if diags.HasErrors() {
		return diags
	}
	done.finding = &f
	return n.record(done)
}

// Record records a finding of the caller's own, about whatever the family has.
// Where the diagnostics have errors, nothing was recorded.
func (n *Inspection) Record(f Finding) diag.List {
	return n.record(step{finding: &f})
}

// record takes a step, and takes it back where it cannot be: an answer that
// contradicts what was found before is refused and leaves no trace.
func (n *Inspection) record(s step) diag.List {
	n.steps = append(n.steps, s)
	if diags := n.believe(); diags.HasErrors() {
		n.steps = n.steps[:len(n.steps)-1]
		return diags
	}
	return nil
}

// subject is the check of a key, if it can be made here.
func (n *Inspection) subject(key string) (subject, bool) {
	all := n.subjects()
	i := slices.IndexFunc(all, func(s subject) bool { return n.key(s) == key })
	if i < 0 {
		return subject{}, false
	}
	return all[i], true
}

// keys are the keys of all checks that can be made here, for messages.
func (n *Inspection) keys() []string { return ids(n.subjects(), n.key) }

// finding is what an answer to a check comes to.
func (n *Inspection) finding(s subject, answer string) (Finding, diag.List) {
	f := Finding{By: s.by, Present: true}
	known := ids(n.answers(s), func(a CheckAnswer) string { return a.ID })
	if !slices.Contains(known, answer) {
		return n.readingOf(s, f, answer, known)
	}
	switch s.kind {
	case CheckPoint:
		f.Point, f.State = n.id(s), answer
	case CheckSymptom:
		f.Symptom, f.Present = n.id(s), answer == AnswerYes
	case CheckFeature:
		f.Option = answer
		if s.shows >= 0 {
			f.Point = n.a.family.Points[s.shows].ID
		} else {
			f.Feature = n.id(s)
		}
	default:
		f.Variant = answer
	}
	return f, nil
}

// readingOf takes an answer that is none of the known ones as a reading. One
// without a digit is rather a misspelt answer.
func (n *Inspection) readingOf(s subject, f Finding, answer string, known []string) (Finding, diag.List) {
	var m *checklist.Measure
	if s.kind == CheckPoint {
		m = n.a.family.Points[s.index].Measure
	}
	expected := "one of " + listed(known)
	if m == nil || !strings.ContainsAny(answer, "0123456789") {
		near, _ := diag.Nearest(answer, known)
		return f, refuse("no answer "+quoted(answer)+" to "+n.key(s), expected, near)
	}
	if _, err := parseReading(answer, m); err != nil {
		return f, refuse(err.Error(), expected+", or "+readingShape, "")
	}
	f.Point, f.Reading = n.id(s), answer
	return f, nil
}

// refuse is an error that has no place in a file.
func refuse(summary, expected, try string) diag.List {
	return diag.List{{Severity: diag.Error, Summary: summary, Expected: expected, Try: try}}
}
