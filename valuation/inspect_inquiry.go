package valuation

import "lotgauge/valuation/belief"

// question is what a check asks, without its answers.
func (n *Inspection) question(s subject) Question {
	f := n.a.family
	switch s.kind {
	case CheckPoint:
		return pointInquiry(&f.Points[s.index], nil).Question
	case CheckSymptom:
		return symptomInquiry(&f.Symptoms[s.index], nil).Question
	case CheckFeature:
		x := &f.Features[s.index]
		return Question{Kind: CheckFeature, ID: x.ID, Title: x.Title, How: x.Tell, Minutes: variantMinutes}
	}
	return variantInquiry(f, n.a.expected.cases).Question
}

// inquiry is the question that a check puts to the cases.
func (n *Inspection) inquiry(s subject) inquiry {
	f, c := n.a.family, n.a.expected.cases
	switch s.kind {
	case CheckPoint:
		return n.a.pointInquiry(s.index)
	case CheckSymptom:
		return symptomInquiry(&f.Symptoms[s.index], n.a.symptomChances(s.index))
	case CheckFeature:
		q := *featureInquiry(f, s.index, c)
		if s.shows >= 0 {
			q = n.shownInquiry(s, c)
		}
		q.Question = n.question(s)
		return q
	}
	return variantInquiry(f, c)
}

// shownInquiry asks which option the point of a feature shows. One that is not
// original shows another than the model left the factory with, each as likely;
// one that is not there shows nothing, the last answer. That is the model by
// which the belief room weighs such a finding, so that what a check is expected
// to tell is what it then does tell.
func (n *Inspection) shownInquiry(s subject, c *belief.Cases) inquiry {
	f := n.a.family
	options := len(f.Features[s.index].Options)
	states := f.Points[s.shows].States
	answers := make([]uint8, len(c.Variant))
	for k, v := range c.Variant {
		own := f.Variants[v].Fit[s.index]
		switch at := c.State[s.shows][k]; {
		case at == belief.NotApplicable || !states[at].Complete:
			answers[k] = uint8(options)
		case states[at].Original:
			answers[k] = uint8(own)
		default:
			other := dice{n.a.seed}.aside(s.index).index(k, options-1)
			answers[k] = uint8(other + bit(other >= own))
		}
	}
	return inquiry{answers: answers, count: options + 1}
}

// optionChance is the chance that a check of a feature shows an option, as in
// shownInquiry.
func (n *Inspection) optionChance(s subject, option int) Share {
	if s.shows < 0 {
		return n.a.fitChance(s.index, option)
	}
	f, sum := n.a.family, 0.0
	others := float64(len(f.Features[s.index].Options) - 1)
	for v, pv := range n.a.posterior.Variants() {
		own := f.Variants[v].Fit[s.index] == option
		for at, c := range n.a.posterior.PointGiven(v, s.shows) {
			switch st := &f.Points[s.shows].States[at]; {
			case st.Complete && st.Original && own:
				sum += float64(pv * c)
			case st.Complete && !st.Original && !own:
				sum += float64(pv * c / others)
			}
		}
	}
	return Share(sum)
}

// open tells whether a check may still bring something to light. A feature is
// only looked at for the catalogue number's sake: once that is known, what a
// point shows is a matter of its state.
func (n *Inspection) open(s subject) bool {
	p := n.a.posterior
	switch s.kind {
	case CheckPoint:
		return open(p.Point(s.index), p.Applies(s.index))
	case CheckSymptom:
		there := p.Symptom(s.index)
		return there > 1-settled && there < settled
	}
	return open(p.Variants(), 1)
}
