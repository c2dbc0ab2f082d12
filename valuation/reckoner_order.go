package valuation

import (
	"cmp"
	"slices"
)

// order puts the checks into the order on paper: next comes the one that adds
// most, the time it takes taken off, for somebody who has made those above it and
// decides by the sum. What is asked lies around what a model is worth that
// nothing is known of, as for the first check of an inspection. An inspection
// goes by what it has found; on paper the order must not depend on that, so the
// gain is the mean over the draws.
//
// Where none adds more than its time, looking stops. The checks that are left
// follow by what each would add to those that pay.
func (r *reckoning) order() {
	o := r.newOrderer()
	for i := range r.checks {
		o.weigh(r.checks[i:])
		if r.checks[i].net <= o.stall.trifle {
			r.paying = i
			return
		}
		o.make(r.checks[i])
	}
	r.paying = len(r.checks)
}

// orderer weighs checks against those already made.
type orderer struct {
	q     *asker
	stall stall
	floor float64
	// at is the sum on paper so far, by draw.
	at []float64
}

func (r *reckoning) newOrderer() *orderer {
	a := r.n.a
	o := &orderer{
		q:     &asker{cases: r.cases, values: [][]float64{r.value}},
		stall: r.n.stall(), floor: r.floor, at: make([]float64, len(r.value)),
	}
	o.q.g = a.prospect(&Appraisal{Purchase: a.purchaseReport()})
	for k := range o.at {
		o.at[k] = r.start
	}
	return o
}

// weigh values what each check adds to those made, and puts the best first.
func (o *orderer) weigh(checks []*reckoned) {
	made := o.worth(nil)
	for _, c := range checks {
		c.worth = round9(o.worth(c) - made)
		c.net = o.stall.net(c.worth, c.minutes)
	}
	slices.SortStableFunc(checks, func(a, b *reckoned) int { return cmp.Compare(b.net, a.net) })
}

// worth is what deciding by the sum is worth with one more check made, or none.
func (o *orderer) worth(c *reckoned) float64 {
	rule := newSumRule(o.q)
	for k, sum := range o.at {
		if c != nil {
			sum += c.effects[c.answers[k]]
		}
		rule.score[k] = max(sum, o.floor)
	}
	return rule.worth()
}

// make counts a check as made.
func (o *orderer) make(c *reckoned) {
	for k := range o.at {
		o.at[k] += c.effects[c.answers[k]]
	}
}
