package checklist

import (
	"slices"

	"lotgauge/valuation/diag"
)

// readRules reads tables such as
//
//	[[rule]]
//	id = "uneconomic"
//	level = "caution"
//	when = { figure = "repair-share", above = "30%" }
//	say = "Expected repairs are {repair-share} of what it is worth restored."
func (r *reader) readRules(t *diag.Table) {
	known := newRoster("rule")
	for _, c := range t.Children("rule") {
		x := Rule{ID: r.id(c, known), Say: c.Required("say"), When: Condition{Point: -1, Symptom: -1}}
		if c.Need("level", anyOf(levelNames[:])) {
			x.Level = Level(slices.Index(levelNames[:], c.Choice("level", "", levelNames[:]...)) + 1)
		}
		if c.Need("when", `a condition, such as { figure = "repair-share", above = "30%" }`) {
			if w := c.Child("when"); w != nil {
				x.When = r.condition(w)
			}
		}
		checkSay(c, x.Say)
		r.fam.Rules = append(r.fam.Rules, x)
	}
}

// checkSay reports a place in the text of a rule that no figure fills.
func checkSay(t *diag.Table, say string) {
	split, ok := pieces(say)
	if !ok {
		t.Report("say", "braces that enclose no name", "places such as {repair-share}", "")
	}
	for _, p := range split {
		if p.name {
			checkFigure(t, "say", p.text)
		}
	}
}

// checkFigure reports an unknown figure.
func checkFigure(t *diag.Table, key, name string) {
	if slices.Contains(Figures, name) {
		return
	}
	t.Report(key, "unknown figure "+quoted(name), anyOf(Figures), try(near(name, Figures)))
}

// conditionKinds are the keys that tell what a condition is about.
var conditionKinds = [...]string{"all", "any", "not", "figure", "point", "symptom"}

// besides are the keys that go with some kinds.
var besides = [...]string{"above", "below", "state", "chance"}

// condition reads a condition, which is one of
//
//	{ all = [ …, … ] }
//	{ any = [ …, … ] }
//	{ not = … }
//	{ figure = "repair-share", above = "30%", below = "90%" }
//	{ point = "box", state = ["missing", "torn"], chance = "50%" }
//	{ symptom = "no-movement", chance = "50%" }
func (r *reader) condition(t *diag.Table) Condition {
	out := Condition{Point: -1, Symptom: -1}
	switch kind := oneKind(t); kind {
	case "all":
		out.All = r.conditions(t, kind)
	case "any":
		out.Any = r.conditions(t, kind)
	case "not":
		if c := t.Child(kind); c != nil {
			inner := r.condition(c)
			out.Not = &inner
		}
	case "figure":
		readFigure(t, &out)
	case "point":
		r.readPointCondition(t, &out)
	case "symptom":
		if name := t.Required(kind); name != "" {
			out.Symptom = r.symptoms.find(name, at(t, kind))
		}
		out.Chance = chance(t)
	}
	return out
}

// oneKind is the kind of a condition, "" where there is not exactly one.
func oneKind(t *diag.Table) string {
	var kinds []string
	for _, kind := range conditionKinds {
		if t.Has(kind) {
			kinds = append(kinds, kind)
		}
	}
	if len(kinds) == 1 {
		return kinds[0]
	}
	for _, key := range besides {
		t.Has(key) // so that it is not reported as unknown on top
	}
	strange := func(key string) bool { return !slices.Contains(besides[:], key) }
	if len(kinds) > 1 || !slices.ContainsFunc(t.Keys(), strange) { // otherwise Finish reports the keys there are
		t.Report("", "a condition is of exactly one kind", "one of "+listed(conditionKinds[:]), "")
	}
	return ""
}

// conditions reads the list of an all or an any. Nothing to hold, or nothing to
// choose from, is more likely forgotten than meant.
func (r *reader) conditions(t *diag.Table, key string) []Condition {
	var out []Condition
	for _, c := range t.Children(key) {
		out = append(out, r.condition(c))
	}
	if len(out) == 0 && !t.Unread(key) {
		t.Report(key, "no condition under "+key, "at least one", "")
	}
	return out
}

// readFigure reads a condition on a figure. Whether the bounds can be met is
// for [Prove] to say.
func readFigure(t *diag.Table, out *Condition) {
	out.Figure = t.Required("figure")
	out.Above, out.Below = rate(t, "above"), rate(t, "below")
	if out.Figure != "" {
		checkFigure(t, "figure", out.Figure)
	}
	if !t.Has("above") && !t.Has("below") && !t.Unread("above") && !t.Unread("below") {
		t.Report("", "a figure with no bound", `above = "30%", below = "50%" or both`, "")
	}
}

// readPointCondition reads a condition on the state of a point.
func (r *reader) readPointCondition(t *diag.Table, out *Condition) {
	out.Point = r.findPoint(t)
	if t.Need("state", "the states it may be in, such as [\"missing\"]") {
		names := t.Texts("state")
		for i, name := range names {
			if slices.Contains(names[:i], name) {
				t.ReportItem("state", i, "state "+quoted(name)+" named twice", "each state once", "")
			} else if out.Point >= 0 {
				out.States = append(out.States, r.states[out.Point].find(name, place{t, "state", i}))
			}
		}
		if len(names) == 0 {
			t.Report("state", "no state named", "at least one", "")
		}
	}
	out.Chance = chance(t)
}

// chance reads the least chance at which a condition holds. Nought would always
// hold and more than the whole never.
func chance(t *diag.Table) float64 {
	const key = "chance"
	if !t.Need(key, `the least chance at which it holds, such as "50%"`) {
		return 0
	}
	f := rate(t, key)
	if f == nil {
		return 0
	}
	if *f <= 0 || *f > 1 {
		t.Report(key, "a chance at which it holds always or never", `above "0%", at most "100%"`, "")
	}
	return *f
}
