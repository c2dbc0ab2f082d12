package valuation

import (
	"fmt"
	"strings"

	"lotgauge/valuation/checklist"
)

// dealBreaker is the chance of a deal-breaking state from which it counts as found.
const dealBreaker = 0.5

// verdict is what to do, and why to walk away. A deal-breaker counts whether or
// not a price is missing. What is asked is judged by what it lands at, since
// neither a fixed price nor an odd charge sheet keeps to the ladder of bids.
func (a *appraiser) verdict(out *Appraisal) (Verdict, []Reason) {
	reasons := a.dealBreakers()
	for _, r := range out.Rules {
		if r.Level == checklist.Stop.String() {
			reasons = append(reasons, Reason{r.Text, r.Grounds})
		}
	}
	p := &out.Purchase
	if a.whole() && p.BreakEvenBid == nil && !p.Fixed {
		reasons = append(reasons, Reason{Text: fmt.Sprintf("No bid pays: it is worth %s %s to you, less than the lowest bid lands at.",
			out.Worth.Mean.Text(), out.Currency)})
	}
	switch {
	case len(reasons) > 0:
		return WalkAway, reasons
	case !a.whole():
		return Unpriceable, nil
	case p.Ask != nil && p.Landed.GreaterThan(out.Worth.Mean.Decimal):
		return TooDear, nil
	case p.Ask != nil && float64(*p.LossChance) > a.settings.Tolerance, p.Ask == nil && p.CarefulBid == nil:
		return Marginal, nil
	}
	return Buy, nil
}

// dealBreakers are the reasons of the found states that rule a deal out.
func (a *appraiser) dealBreakers() []Reason {
	var out []Reason
	told := map[[2]int]bool{}
	for _, f := range a.listing.Findings {
		if f.State+f.Reading == "" {
			continue
		}
		i := a.family.PointIndex(f.Point)
		for s, chance := range a.posterior.Point(i) {
			p := &a.family.Points[i]
			x := &p.States[s]
			if x.Stop != "" && !told[[2]int{i, s}] && chance >= dealBreaker && (f.State == x.ID || f.State == "") {
				told[[2]int{i, s}] = true
				out = append(out, Reason{x.Stop, []Ground{ground(p, []int{s}, a.posterior.Point(i))}})
			}
		}
	}
	return out
}

// ground is that a point is in one of the states, given the chances of all of them.
// States that are out of the question are left out.
func ground(p *checklist.Point, states []int, chances []float64) Ground {
	g := Ground{Title: p.Title}
	for _, s := range states {
		if c := Share(chances[s]); c > 0 {
			g.States = append(g.States, Chance{ID: p.States[s].ID, Title: stateTitle(&p.States[s]), Chance: c})
			g.Chance += c
		}
	}
	return g
}

// Because is the reason with what is believed that makes it one, chances written by
// likely: "it crumbles (frame casting swollen: 68% likely)".
func (r *Reason) Because(likely func(Share) string) string {
	if len(r.Grounds) == 0 {
		return r.Text
	}
	var grounds []string
	for _, g := range r.Grounds {
		grounds = append(grounds, g.String()+": "+likely(g.Chance)+" likely")
	}
	return strings.TrimSuffix(r.Text, ".") + " (" + strings.Join(grounds, "; ") + ")"
}

// String is what is believed, in words: "frame casting cracked or swollen".
func (g Ground) String() string {
	if len(g.States) == 0 {
		return lower(g.Title)
	}
	return lower(g.Title) + " " + listed(ids(g.States, func(c Chance) string { return c.Title }))
}

// grounds are the beliefs that make a condition hold, in its order. That something
// is not so, or what a figure is, is none: a rule can say it in its text.
func (x *facts) grounds(f *checklist.Family, c checklist.Condition) []Ground {
	switch {
	case x.holds(c) != yes || c.Not != nil || c.Figure != "":
		return nil
	case c.Point >= 0:
		return []Ground{ground(&f.Points[c.Point], c.States, x.posterior.Point(c.Point))}
	case c.Symptom >= 0:
		return []Ground{{Title: f.Symptoms[c.Symptom].Title, Chance: Share(x.posterior.Symptom(c.Symptom))}}
	}
	var out []Ground
	for _, d := range append(append([]checklist.Condition{}, c.All...), c.Any...) {
		out = append(out, x.grounds(f, d)...)
	}
	return out
}
