package valuation

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"lotgauge/valuation/belief"
)

// simulator simulates finds of one family.
type simulator struct {
	// start is the inspection of a model that nothing is known of, and subjects
	// are the checks that can be made.
	start    Inspection
	subjects []subject
	// rank is by order, save the paying one, when each check comes.
	rank  map[string]map[subject]int
	finds []find
}

// find is a simulated find.
type find struct {
	// answers are what the find answers to each of the subjects; what lies beyond
	// a subject's last answer means that there is nothing to tell.
	answers []uint8
	// value is the worth at mean prices, drawn that at the prices drawn, landed
	// what the find costs, all in the home currency.
	value, drawn, landed float64
}

// Streams of random numbers, apart from those behind the decisions.
const (
	findStream  = 0x66696e64 // "find"
	priceStream = 0x61736b   // "ask"
)

// newSimulator draws the finds, and ranks the checks for the orders that do not
// depend on what is found. Both start with the catalogue number, which is in
// their favour: it tells more than any point.
func newSimulator(n *Inspection, finds int) *simulator {
	s := &simulator{start: *n, subjects: n.subjects()}
	s.draw(finds)
	s.rank = map[string]map[subject]int{
		OrderChecklist: s.ranked(func(x subject) float64 { return 0 }),
		OrderWeight: s.ranked(func(x subject) float64 {
			switch x.kind {
			case CheckPoint:
				return -n.a.family.Points[x.index].Weight
			case CheckSymptom:
				return 0
			}
			return math.Inf(-1)
		}),
	}
	return s
}

// ranked puts the subjects in an order: by what goes first, the smaller the
// earlier, and of equals as in the checklist.
func (s *simulator) ranked(first func(subject) float64) map[subject]int {
	order := slices.Clone(s.subjects)
	slices.SortStableFunc(order, func(a, b subject) int { return cmp.Compare(first(a), first(b)) })
	rank := map[subject]int{}
	for i, x := range order {
		rank[x] = i
	}
	return rank
}

// draw draws the finds. What is asked lies around the expected worth, log-normal
// with the usual ratio of an auction's hammer prices; its quantiles are dealt out
// among the finds, so that finds and prices are independent.
func (s *simulator) draw(count int) {
	a := s.start.a
	seed := a.seed ^ findStream
	truth := a.posterior.Draw(count, seed)
	realised, mean := a.ledger.throw(truth, seed)
	s.finds = make([]find, count)
	worth, spread := a.expected.worth, math.Sqrt(hammerRatio)
	asked := lognormal(worth/spread, worth*spread, count)
	rng := rand.New(rand.NewPCG(a.seed, priceStream))
	rng.Shuffle(count, func(i, j int) { asked[i], asked[j] = asked[j], asked[i] })
	for k := range s.finds {
		s.finds[k] = find{value: mean.value[k], drawn: realised.worth[k], landed: asked[k]}
	}
	at := s.start
	at.a = a.given(a.posterior, truth, mean.value)
	for n, x := range s.subjects {
		s.answer(n, at.inquiry(x), seed)
	}
}

// answer notes what each find answers to subject n.
func (s *simulator) answer(n int, q inquiry, seed uint64) {
	const steps = 1 << 30 // so fine a chance is met
	for k := range s.finds {
		var answer uint8
		if q.chance == nil {
			answer = q.answers[k]
		} else if roll := (dice{seed}).aside(n).index(k, steps); float64(roll) < q.chance[k]*steps {
			answer = 1
		}
		s.finds[k].answers = append(s.finds[k].answers, answer)
	}
}

// given is the appraiser with another posterior and the cases drawn from it: as
// much of an appraisal as weighing checks needs.
func (a *appraiser) given(p *belief.Posterior, cases *belief.Cases, value []float64) *appraiser {
	next := *a
	next.posterior = p
	next.expected = &expected{cases: cases, value: value}
	for k, w := range cases.Weight {
		next.expected.worth += float64(w * value[k])
	}
	return &next
}

// told is what the answer of a find to subject n comes to; false where there is
// nothing to tell.
func (s *simulator) told(n int, answer uint8) (belief.Finding, bool) {
	x, a := s.subjects[n], s.start.a
	f := belief.Finding{Subject: x.index, Value: int(answer), Trust: a.settings.Trust[x.by], Label: s.start.key(x)}
	count := 2
	switch x.kind {
	case CheckPoint:
		f.Kind, count = belief.PointState, len(a.family.Points[x.index].States)
	case CheckSymptom:
		f.Kind = belief.SymptomIs
	case CheckFeature:
		f.Kind, count = belief.FeatureOption, len(a.family.Features[x.index].Options)
		if x.shows >= 0 {
			f.Kind, f.Subject = belief.PointOption, x.shows
		}
	default:
		f.Kind, count = belief.VariantIs, len(a.family.Variants)
	}
	return f, int(answer) < count
}
