package valuation

import (
	"lotgauge/valuation/belief"
	"lotgauge/valuation/checklist"
)

// inquiries are the points, symptoms and the variant that are not yet settled.
func (a *appraiser) inquiries() []inquiry {
	f, p := a.family, a.posterior
	var out []inquiry
	for i := range f.Points {
		if open(p.Point(i), p.Applies(i)) {
			out = append(out, a.pointInquiry(i))
		}
	}
	for j := range f.Symptoms {
		if there := p.Symptom(j); there > 1-settled && there < settled {
			out = append(out, symptomInquiry(&f.Symptoms[j], a.symptomChances(j)))
		}
	}
	if open(p.Variants(), 1) {
		out = append(out, variantInquiry(f, a.expected.cases))
	}
	return out
}

// open tells whether no answer is as good as certain. An answer may be that
// the model has no such point.
func open(chances []float64, applies float64) bool {
	if 1-applies >= settled {
		return false
	}
	for _, c := range chances {
		if c >= settled {
			return false
		}
	}
	return true
}

func pointInquiry(p *checklist.Point, states []uint8) inquiry {
	return inquiry{
		Question: Question{Kind: "point", ID: p.ID, Minutes: p.Minutes, Title: p.Title, How: p.How, Ask: p.Ask, See: p.See},
		answers:  states, count: len(p.States) + 1, titles: append(stateTitles(p), "not there at all"),
	}
}

// pointInquiry asks for the state of a point of the cases.
func (a *appraiser) pointInquiry(point int) inquiry {
	p, e := &a.family.Points[point], a.expected
	x := pointInquiry(p, e.cases.State[point])
	if e.books.kept() {
		x.booked = &[2]*tallied{e.books[0].of(a.ledger, point, p), e.books[1].of(a.ledger, point, p)}
	}
	return x
}

func symptomInquiry(s *checklist.Symptom, chance []float64) inquiry {
	return inquiry{
		Question: Question{Kind: "symptom", ID: s.ID, Minutes: s.Minutes, Title: s.Title, Ask: s.Ask, See: s.See},
		chance:   chance, count: 2, titles: []string{"no", "yes"},
	}
}

func variantInquiry(f *checklist.Family, c *belief.Cases) inquiry {
	return inquiry{
		Question: Question{
			Kind: "variant", ID: f.ID, Minutes: variantMinutes,
			Title: "Which catalogue number it is", How: "Read the number and compare the features.",
			Ask: map[string]string{
				"en": "Which catalogue number does the model carry? Could you show the number, please?",
				"de": "Welche Artikelnummer trägt das Modell? Könnten Sie die Nummer bitte zeigen?",
				"fr": "Quelle est la référence du modèle ? Pourriez-vous montrer le numéro, s'il vous plaît ?",
			},
			See: []string{ByPhoto, ByHand, BySeller},
		},
		answers: c.Variant, count: len(f.Variants), titles: variantIDs(f),
	}
}

// paired is the question that asks for two things at once.
func paired(a, b *inquiry) Question {
	return Question{
		Kind: "pair", ID: a.ID + "+" + b.ID, Minutes: a.Minutes + b.Minutes,
		Title: a.Title + ", together with " + lower(b.Title),
	}
}

// symptomChances are the chances of a symptom, one a case.
func (a *appraiser) symptomChances(symptom int) []float64 {
	out := a.loan.column(len(a.expected.cases.Weight))
	a.posterior.SymptomChance(symptom, a.expected.cases, out)
	return out
}
