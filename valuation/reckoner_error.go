package valuation

import (
	"math"

	"lotgauge/valuation/belief"
	"lotgauge/valuation/money"
)

// measure compares the reckoner with the appraisal over simulated finds, with
// the first so many of the checks made. The appraisal infers from what those
// found what the others would find; on paper each check stands by itself.
func (r *reckoning) measure(checks, finds int) (ReckonError, error) {
	a := r.n.a
	truth := a.posterior.Draw(finds, a.seed^findStream)
	off := make([]float64, finds)
	paper, full := 0.0, 0.0
	for k := range off {
		known, sum := r.found(truth, k, checks)
		p, err := belief.InferFindings(a.model, known, a.settings.Hidden)
		if err != nil {
			return ReckonError{}, err
		}
		inFull := r.stop(a.expectation(p, a.seed+uint64(k)))
		onPaper := r.onPaper(r.start + sum)
		off[k] = math.Abs(onPaper - inFull)
		paper += onPaper / float64(finds)
		full += inFull / float64(finds)
	}
	mean := mean(off)
	p90 := quantiles7(off, 0.9)[0]
	in := func(x float64) Money { return estimate(x, a.buy.Currency) }
	return ReckonError{Checks: checks, Mean: in(mean), P90: in(p90), StopOnPaper: in(paper), StopInFull: in(full)}, nil
}

// found is what the first checks find of a case, and what that adds up to on
// paper.
func (r *reckoning) found(truth *belief.Cases, k, checks int) (known []belief.Finding, sum float64) {
	for _, c := range r.checks[:checks] {
		f := belief.Finding{Kind: belief.VariantIs, Value: int(truth.Variant[k]), Trust: 1}
		if c.kind == CheckPoint {
			state := truth.State[c.index][k]
			if state == belief.NotApplicable {
				continue
			}
			f = belief.Finding{Kind: belief.PointState, Subject: c.index, Value: int(state), Trust: 1}
		}
		known = append(known, f)
		sum += c.effects[f.Value]
	}
	return known, sum
}

// expectation is the expected worth under a posterior: summed where the states
// are few, over draws where not.
func (a *appraiser) expectation(p *belief.Posterior, seed uint64) float64 {
	cases, ok := p.Enumerate(reckonDraws)
	if !ok {
		cases = p.Draw(reckonDraws, seed)
	}
	sum := 0.0
	for k, v := range a.ledger.values(cases) {
		sum += float64(cases.Weight[k] * v)
	}
	return sum
}

// reckonDraws is how many outcomes stand for what has not been checked.
const reckonDraws = 2000

// stop is the bid at which the appraisal says to stop, 0 for none.
func (r *reckoning) stop(worth float64) float64 {
	if b := r.n.a.purchase.highest(worth); b != nil {
		return money.Float(*b)
	}
	return 0
}

// onPaper is the bid read off the reckoner, rounded down to one of the ladder.
func (r *reckoning) onPaper(worth float64) float64 {
	p := &r.n.a.purchase
	bid := r.line.at(max(worth, r.floor))
	if bid <= 0 {
		return 0
	}
	landed := p.landed(money.FloorFloat(bid, p.sheet.Currency))
	return r.stop(money.Float(landed))
}
