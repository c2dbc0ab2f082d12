package valuation

import (
	"slices"

	"lotgauge/valuation/checklist"
)

// missing is an item that an open route needs and that has no price.
type missing struct {
	id, title string
	routes    []int
	guideKey  string
	model     bool
}

// findMissing collects the items without a price that may be needed, with the
// routes that cannot be figured without them.
func (a *appraiser) findMissing() {
	for v, chance := range a.posterior.Variants() {
		if chance > 0 && !a.market.models[v].Priced {
			a.miss(missing{
				id: modelID(a.family, v), title: a.family.Variants[v].Title, model: true,
				routes:   []int{sellRestored, sellRunning, sellAsFound},
				guideKey: "guide of variant " + quoted(a.family.Variants[v].ID),
			})
		}
	}
	for i := range a.family.Parts {
		if !a.market.parts[i].Priced {
			a.missPart(i)
		}
	}
}

func (a *appraiser) missPart(part int) {
	m := missing{
		id: a.family.Parts[part].ID, title: a.family.Parts[part].Title,
		guideKey: "guide of part " + quoted(a.family.Parts[part].ID),
	}
	uses := a.uses(part)
	for r, used := range uses {
		if used {
			m.routes = append(m.routes, r)
		}
	}
	a.miss(m)
}

// uses tells which routes may need a part, given what is believed.
func (a *appraiser) uses(part int) (used [routes]bool) {
	a.eachCell(func(v, i, s int, chance float64, c *cell) {
		if slices.ContainsFunc(c.needs, func(n supply) bool { return n.part == part }) {
			used[sellRestored], used[keepIt] = true, true
			used[sellRunning] = used[sellRunning] || c.running
		}
		if slices.ContainsFunc(c.yields, func(y supply) bool { return y.part == part && y.qty > 0 }) {
			used[partOut] = true
		}
	})
	return used
}

// eachCell visits what may be: each state of each point of each variant with
// its chance, all together.
func (a *appraiser) eachCell(visit func(v, i, s int, chance float64, c *cell)) {
	for v, pv := range a.posterior.Variants() {
		if pv == 0 {
			continue
		}
		for i := range a.family.Points {
			if !a.family.Points[i].Applies[v] {
				continue
			}
			for s, p := range a.posterior.PointGiven(v, i) {
				if p > 0 {
					visit(v, i, s, pv*p, &a.ledger.accounts[v].cells[i][s])
				}
			}
		}
	}
}

// miss books an item without a price against every route that may need it. It
// is missing where one of them is open.
func (a *appraiser) miss(m missing) {
	for _, r := range m.routes {
		a.shut[r] = append(a.shut[r], m.id)
	}
	m.routes = slices.DeleteFunc(m.routes, func(r int) bool { return !a.ledger.open[r] })
	if len(m.routes) > 0 {
		a.missing = append(a.missing, m)
	}
}

// missingLines tells a reader what is missing and how to mend it.
func (a *appraiser) missingLines() []MissingPrice {
	var out []MissingPrice
	day := a.on.Format(dayFormat)
	for _, m := range a.missing {
		line := MissingPrice{ID: m.id, Title: m.title, Key: m.guideKey}
		for _, r := range m.routes {
			line.Routes = append(line.Routes, RouteNames[r])
		}
		grade := ""
		if m.model {
			grade = "GRADE"
		}
		line.Row = day + "," + m.id + ",sold," + grade + ",,PRICE," + string(a.settings.Currency) + ",,1,,"
		out = append(out, line)
	}
	return out
}

// reference is the id of the best grade, against which prices are held.
func reference(grades []checklist.Grade) string {
	if len(grades) == 0 {
		return ""
	}
	return grades[len(grades)-1].ID
}

const dayFormat = "2006-01-02"
