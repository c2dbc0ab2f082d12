package checklist

import "lotgauge/valuation/diag"

// readSymptoms reads tables such as
//
//	[[symptom]]
//	id = "no-movement"
//	title = "Does not move under power"
//	leak = 0.01
//	see = ["track", "seller"]
//	minutes = 2
//	causes = [ { point = "pickup", state = "oxidised", strength = 0.35 } ]
func (r *reader) readSymptoms(t *diag.Table) {
	for _, c := range list(t, "symptom", r.symptoms) {
		s := Symptom{
			ID:      r.id(c, r.symptoms),
			Ask:     phrases(c),
			Leak:    c.Number("leak", 0, 0, 1),
			See:     see(c, "track"),
			Minutes: c.Number("minutes", 0, 0, maxMinutes),
			Causes:  r.causes(c),
		}
		s.Title = titled(c, s.ID)
		r.fam.Symptoms = append(r.fam.Symptoms, s)
	}
}

// causes reads the causes of a symptom. One that does not resolve has the index
// -1. A strength has no default, since none would be a fair guess; and a state
// named twice would count twice, as two chances to cause the symptom.
func (r *reader) causes(t *diag.Table) []Cause {
	var out []Cause
	seen := map[[2]int]bool{}
	for _, c := range t.Children("causes") {
		point := r.findPoint(c)
		x := Cause{Point: point, State: -1}
		if state := c.Required("state"); state != "" && point >= 0 {
			x.State = r.states[point].find(state, at(c, "state"))
		}
		if c.Need("strength", "the chance, 0 to 1, that it alone brings the symptom about") {
			x.Strength = c.Number("strength", 0, 0, 1)
		}
		if key := [2]int{x.Point, x.State}; x.State >= 0 && seen[key] {
			c.Report("state", "a cause named twice", "each state once", "")
		} else {
			seen[key] = true
		}
		out = append(out, x)
	}
	return out
}

// findPoint resolves the key point; -1 where that fails.
func (r *reader) findPoint(t *diag.Table) int {
	name := t.Required("point")
	if name == "" {
		return -1
	}
	return r.points.find(name, at(t, "point"))
}
