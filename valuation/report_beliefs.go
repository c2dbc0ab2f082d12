package valuation

import "slices"

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
		switch {
		case x.Chance > y.Chance:
			return -1
		case x.Chance < y.Chance:
			return 1
		}
		return 0
	})
	return all
}

func (a *appraiser) points() []PointBelief {
	out := []PointBelief{}
	for i := range a.family.Points {
		applies := a.posterior.Applies(i)
		if applies == 0 {
			continue
		}
		p := &a.family.Points[i]
		name := func(s int) (string, string) { return p.States[s].ID, spoken(p.States[s].ID) }
		out = append(out, PointBelief{
			ID: p.ID, Title: p.Title, Area: p.Area, Applies: Share(applies),
			States:       chances(a.posterior.Point(i), name),
			Usual:        chances(a.prior.Point(i), name),
			ExpectedCost: a.expectedCost(i),
		})
	}
	return out
}

// expectedCost is what remedying a point costs on average, exactly; nil where
// that needs a price that is missing.
func (a *appraiser) expectedCost(point int) *Money {
	sum, known := 0.0, true
	a.eachCell(func(_, i, _ int, chance float64, c *cell) {
		if i != point {
			return
		}
		sum += float64(chance * c.cost.total())
		for _, n := range c.needs {
			known = known && a.market.parts[n.part].Priced
		}
	})
	if !known {
		return nil
	}
	return a.homePtr(sum)
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
	var score, original, complete, seen float64
	found := a.found()
	for v, pv := range a.posterior.Variants() {
		w := 0.0
		if pv > 0 {
			w = a.ledger.weight[v]
		}
		if w == 0 {
			score, original, complete = score+100*pv, original+100*pv, complete+100*pv
			continue
		}
		for i := range a.family.Points {
			p := &a.family.Points[i]
			if !p.Applies[v] {
				continue
			}
			if found[i] {
				seen += float64(pv * p.Weight / w)
			}
			for s, c := range a.posterior.PointGiven(v, i) {
				x := &a.ledger.cells[v][i][s]
				share := 100 * pv * c / w
				score += float64(share * x.score)
				original += float64(share * x.original)
				complete += float64(share * x.complete)
			}
		}
	}
	return Scores{
		Condition: spread(score, a.drawn.condition), Originality: spread(original, a.drawn.originality),
		Completeness: spread(complete, a.drawn.completeness), Coverage: Share(seen),
	}
}

func spread(mean float64, drawn []float64) Spread {
	p10, _, p90 := tenths(drawn)
	return Spread{Mean: Tenth(mean), P10: Tenth(p10), P90: Tenth(p90)}
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
