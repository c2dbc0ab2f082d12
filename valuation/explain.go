package valuation

import (
	"lotgauge/valuation/belief"
	"lotgauge/valuation/diag"
)

// VariantSubject is what Explain takes for the catalogue number.
const VariantSubject = "variant"

// An Explanation is how the findings of a listing moved what is believed of one
// point, from what is usual to what is believed now. For every answer the odds
// of Usual times the factors of all moves are the odds of Now.
type Explanation struct {
	ID, Title string
	IDs       []string  // of the states, or the catalogue numbers
	Answers   []string  // the same in words
	Usual     []float64 // chances before any finding
	Moves     []Move    // in the listing's order
	Now       []float64
	Parts     []PartNeed // parts that the point may need, with what their prices rest on
	Models    []Model    // for the catalogue number: prices of a sound one
	Currency  string
}

// Move is what one finding did, given those before it.
type Move struct {
	Finding FindingLine
	Factor  []float64 // of the odds of each answer against all others; 0 ruled it out, +Inf settled it
	Chance  []float64 // of each answer from then on
}

// Explain shows how each finding of a listing moved a point, or with
// VariantSubject the catalogue number. The explanation is nil if the
// diagnostics have errors.
func (l *Library) Explain(x *Listing, subject string, o Options) (*Explanation, diag.List) {
	a, diags := l.run(x, o)
	if a == nil {
		return nil, diags
	}
	point := a.family.PointIndex(subject)
	if point < 0 && subject != VariantSubject {
		r := &resolver{listing: x, family: a.family}
		r.unknown(diag.Pos{}, "point", subject, append(pointIDs(a.family), VariantSubject))
		return nil, r.diags
	}
	return a.explain(point), diags
}

// explain explains a point, or with -1 the catalogue number.
func (a *appraiser) explain(point int) *Explanation {
	e := &Explanation{ID: VariantSubject, Title: "Catalogue number", IDs: variantIDs(a.family), Currency: string(a.settings.Currency)}
	if point >= 0 {
		p := &a.family.Points[point]
		e.ID, e.Title, e.IDs = p.ID, p.Title, stateIDs(p)
		for s := range p.States {
			e.Answers = append(e.Answers, stateTitle(&p.States[s]))
		}
		e.Parts = a.partsOf(point)
	} else {
		e.Answers = e.IDs
		e.Models = a.models(a.variants())
	}
	findings, lines := a.findings, a.findingLines()
	e.Usual = about(a.prior, point)
	before := e.Usual
	for n := range findings {
		p, err := belief.InferFindings(a.model, findings[:n+1], a.settings.Hidden)
		if err != nil {
			continue // all of them together are possible, so this is too
		}
		now := about(p, point)
		e.Moves = append(e.Moves, Move{Finding: lines[n], Factor: oddsFactors(before, now), Chance: now})
		before = now
	}
	e.Now = about(a.posterior, point)
	return e
}

func about(p *belief.Posterior, point int) []float64 {
	if point < 0 {
		return p.Variants()
	}
	return p.Point(point)
}

// oddsFactors are what the odds p/(1−p) were multiplied by.
func oddsFactors(before, now []float64) []float64 {
	out := make([]float64, len(now))
	for i := range now {
		if before[i] == now[i] {
			out[i] = 1
			continue
		}
		out[i] = now[i] / (1 - now[i]) * (1 - before[i]) / before[i]
	}
	return out
}

// partsOf are the parts that any state of the point needs, as in the appraisal.
func (a *appraiser) partsOf(point int) []PartNeed {
	wanted := map[string]bool{}
	for v := range a.ledger.accounts {
		if a.ledger.accounts[v].cells == nil {
			continue
		}
		for _, c := range a.ledger.accounts[v].cells[point] {
			for _, n := range c.needs {
				wanted[a.family.Parts[n.part].ID] = true
			}
		}
	}
	var out []PartNeed
	for _, n := range a.partNeeds() {
		if wanted[n.ID] {
			out = append(out, n)
		}
	}
	return out
}
