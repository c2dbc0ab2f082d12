package valuation

func (a *appraiser) partNeeds() []PartNeed {
	pieces, chance := a.pieces()
	out := []PartNeed{}
	for i := range a.family.Parts {
		if pieces[i] > 0 {
			n := a.partNeed(i)
			n.Needed, n.Chance = Share(pieces[i]), chance[i]
			out = append(out, n)
		}
	}
	return out
}

// pieces are the expected pieces of each part, exactly, and the chance that any
// is needed.
func (a *appraiser) pieces() (count, chance []float64) {
	count = make([]float64, len(a.family.Parts))
	a.eachCell(func(_, _, _ int, p float64, c *cell) {
		for _, n := range c.needs {
			count[n.part] += float64(p * n.qty)
		}
	})
	return count, a.expected.needed
}

func (a *appraiser) partNeed(i int) PartNeed {
	e, find := &a.market.parts[i], a.market.finds[i]
	n := PartNeed{
		ID: a.family.Parts[i].ID, Title: a.family.Parts[i].Title,
		Observations: e.Observations, SetAside: e.SetAside,
		FindChance: Share(find.FindChance), Scarce: find.Scarce, Sightings: find.Sightings, Seen: a.sightings(e, buying),
	}
	if e.Priced {
		price := a.priceRange(&e.Buy)
		n.Price = &price
		n.Ratio, n.Cheapest = a.ratio(i)
	}
	return n
}

// ratio is a part's mean price against that of the cheapest of its group.
func (a *appraiser) ratio(part int) (*Share, string) {
	parts := a.family.Parts
	group, cheapest, members := parts[part].Group, part, 0
	if group == "" {
		return nil, ""
	}
	for i := range parts {
		if parts[i].Group != group || !a.market.parts[i].Priced {
			continue
		}
		members++
		if a.market.parts[i].Buy.Mean < a.market.parts[cheapest].Buy.Mean {
			cheapest = i
		}
	}
	if members < 2 {
		return nil, ""
	}
	r := Share(a.market.parts[part].Buy.Mean / a.market.parts[cheapest].Buy.Mean)
	return &r, parts[cheapest].Title
}
