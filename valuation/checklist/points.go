package checklist

import (
	"slices"

	"lotgauge/valuation/diag"
)

// readPoints reads tables such as
//
//	[[point]]
//	id = "pantograph-front"
//	title = "Front pantograph"
//	area = "roof"
//	how = "Raise it: it must rise by itself and stay square"
//	ask = "Could you show both pantographs raised, from the side?"
//	weight = 8
//	see = ["photo", "hand"]
//	mind = ["opening", "power"]
//	minutes = 1
//	only = { reverser = ["relay"] }
//	feature = "pantograph"
//	needed_to_run = false
//	measure = { unit = "mm", what = "…", within = 0.1 }
//	state = [ { id = "sound" }, { id = "missing", … } ]
//
// where ask may also be { en = "…", de = "…" }.
func (r *reader) readPoints(t *diag.Table) {
	for _, c := range list(t, "point", r.points) {
		p := Point{
			ID:          r.id(c, r.points),
			Area:        c.Text("area"),
			How:         c.Text("how"),
			Ask:         phrases(c),
			Weight:      c.Number("weight", 1, 0, maxWeight),
			See:         see(c, "hand"),
			Mind:        mind(c),
			Minutes:     c.Number("minutes", 0, 0, maxMinutes),
			Applies:     r.only(c),
			Feature:     -1,
			NeededToRun: c.Flag("needed_to_run", false),
			Measure:     measure(c),
		}
		p.Title = titled(c, p.ID)
		if name := c.Text("feature"); name != "" {
			p.Feature = r.features.find(name, at(c, "feature"))
		}
		p.States = r.readStates(c, p)
		checkRanges(c, p)
		r.fam.Points = append(r.fam.Points, p)
	}
	if t.Unread("point") {
		return
	}
	if len(r.fam.Points) == 0 {
		t.Report("point", "a family without points", "at least one [[point]]", "")
		return
	}
	r.checkWeights(t)
}

// checkWeights reports a variant none of whose points has a weight: its
// condition score, a weighted mean, would be 0/0.
func (r *reader) checkWeights(t *diag.Table) {
	for v, x := range r.fam.Variants {
		weighs := func(p Point) bool { return p.Applies[v] && p.Weight > 0 }
		if !slices.ContainsFunc(r.fam.Points, weighs) {
			t.Children("variant")[v].Report("id", "no point with a weight applies to "+quoted(x.ID),
				"a weight above 0 at one point of it: the condition score rests on them", "")
		}
	}
}
