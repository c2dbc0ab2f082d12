package valuation

import (
	"cmp"
	"slices"
)

func chances(p []float64, name func(i int) (id, title string)) []Chance {
	out := make([]Chance, len(p))
	for i, c := range p {
		id, title := name(i)
		out[i] = Chance{ID: id, Title: title, Chance: Share(c)}
	}
	return out
}

// variants are those that may be, the likeliest first.
func (a *appraiser) variants() []Chance {
	all := chances(a.posterior.Variants(), func(i int) (string, string) {
		return a.family.Variants[i].ID, a.family.Variants[i].Title
	})
	all = slices.DeleteFunc(all, func(c Chance) bool { return c.Chance == 0 })
	slices.SortStableFunc(all, func(x, y Chance) int {
		return cmp.Compare(round9(float64(y.Chance)), round9(float64(x.Chance)))
	})
	return all
}

func (a *appraiser) points() []PointBelief {
	out, costs := []PointBelief{}, a.expectedCosts()
	for i := range a.family.Points {
		applies := a.posterior.Applies(i)
		if applies == 0 {
			continue
		}
		p := &a.family.Points[i]
		name := func(s int) (string, string) { return p.States[s].ID, stateTitle(&p.States[s]) }
		out = append(out, PointBelief{
			ID: p.ID, Title: p.Title, Area: p.Area, Applies: Share(applies),
			States:       chances(a.posterior.Point(i), name),
			Usual:        chances(a.prior.Point(i), name),
			ExpectedCost: costs[i],
		})
	}
	return out
}

// expectedCosts are what remedying each point costs on average, exactly; nil
// where that needs a price that is missing.
func (a *appraiser) expectedCosts() []*Money {
	sums := make([]float64, len(a.family.Points))
	unknown := make([]bool, len(a.family.Points))
	a.eachCell(func(_, i, _ int, chance float64, c *cell) {
		sums[i] += float64(chance * c.cost.total())
		for _, n := range c.needs {
			unknown[i] = unknown[i] || !a.market.parts[n.part].Priced
		}
	})
	out := make([]*Money, len(sums))
	for i, sum := range sums {
		if !unknown[i] {
			out[i] = a.homePtr(sum)
		}
	}
	return out
}

func (a *appraiser) symptoms() []Chance {
	p := make([]float64, len(a.family.Symptoms))
	for j := range p {
		p[j] = a.posterior.Symptom(j)
	}
	return chances(p, func(j int) (string, string) { return a.family.Symptoms[j].ID, a.family.Symptoms[j].Title })
}

// scores are the three scores: exact means, quantiles over the draws.
func (a *appraiser) scores() Scores {
	var sum cell
	seen, found := 0.0, a.found()
	for v, chance := range a.posterior.Variants() {
		if chance == 0 {
			continue
		}
		m := &a.ledger.accounts[v]
		share := 0.0
		if m.weight > 0 {
			share = 100 * chance / m.weight
		} else {
			all := float64(100 * chance)
			sum.found.score, sum.original, sum.complete = sum.found.score+all, sum.original+all, sum.complete+all
		}
		sum.found.score += float64(share * m.sound.found.score)
		sum.original += float64(share * m.sound.original)
		sum.complete += float64(share * m.sound.complete)
		for i := range m.cells {
			if m.cells[i] != nil {
				seen += a.scorePoint(&sum, v, i, share, found[i])
			}
		}
	}
	return Scores{
		Condition: spread(sum.found.score, a.drawn.condition), Originality: spread(sum.original, a.drawn.originality),
		Completeness: spread(sum.complete, a.drawn.completeness), Coverage: Share(seen),
	}
}

// scorePoint adds what a point's faults take from the scores of variant v, and
// returns the share of the inspection that it is where something was found.
func (a *appraiser) scorePoint(sum *cell, v, i int, share float64, found bool) float64 {
	for s, chance := range a.posterior.PointGiven(v, i) {
		if s == 0 {
			continue
		}
		x, p := &a.ledger.accounts[v].cells[i][s], share*chance
		sum.found.score += float64(p * x.found.score)
		sum.original += float64(p * x.original)
		sum.complete += float64(p * x.complete)
	}
	if !found {
		return 0
	}
	return share / 100 * a.family.Points[i].Weight
}

func spread(mean float64, drawn []float64) Spread {
	q := quantiles7(drawn, 0.1, 0.9)
	return Spread{Mean: Tenth(mean), P10: Tenth(q[0]), P90: Tenth(q[1])}
}

// found tells which points have a finding other than hidden.
func (a *appraiser) found() []bool {
	out := make([]bool, len(a.family.Points))
	for _, f := range a.listing.Findings {
		if f.Point != "" && f.By != ByHidden {
			out[a.family.PointIndex(f.Point)] = true
		}
	}
	return out
}
