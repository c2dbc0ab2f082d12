package valuation

import (
	"math"
	"os"
	"testing"
	"time"

	"lotgauge/valuation/belief"
)

// referenceSimulator simulates finds of the reference folder's family, with a
// test track.
func referenceSimulator(t *testing.T, finds int) *simulator {
	t.Helper()
	l := Open(os.DirFS("../testdata/reference/appraise"), "", false)
	x, diags := l.NewFind("quillmore-t3", "", "table", time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC))
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	n, diags := l.Inspect(x, InspectOptions{Options: Options{Draws: 500}, Here: []string{ByHand, ByTrack}})
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	return newSimulator(n, finds)
}

// TestFindsFollowTheOdds: over many finds each answer to each check is as
// frequent as the checklist says.
func TestFindsFollowTheOdds(t *testing.T) {
	const finds = 20_000
	s := referenceSimulator(t, finds)
	for n, x := range s.subjects {
		counts := map[uint8]float64{}
		for k := range s.finds {
			counts[s.finds[k].answers[n]]++
		}
		telling := 0.0
		for answer, count := range counts {
			if _, ok := s.told(n, answer); ok {
				telling += count
			}
		}
		for _, a := range s.start.answers(x) {
			i, ok := s.value(x, a.ID)
			if !ok {
				t.Fatalf("no answer %s to %s", a.ID, s.start.key(x))
			}
			p := float64(a.Chance)
			within(t, s.start.key(x)+" "+a.ID, counts[i]/telling, p, 4*math.Sqrt(p*(1-p)/telling)+1e-9)
		}
	}
}

// value is the number of an answer's id.
func (s *simulator) value(x subject, id string) (uint8, bool) {
	f, i := s.start.a.family, -1
	switch x.kind {
	case CheckPoint:
		i = f.Points[x.index].StateIndex(id)
	case CheckFeature:
		i = f.Features[x.index].OptionIndex(id)
	case CheckVariant:
		i = f.VariantIndex(id)
	default:
		i = bit(id == AnswerYes)
	}
	return uint8(i), i >= 0
}

// TestFindsArePriced: what is asked is log-normal around the expected worth, and
// has nothing to do with what the find is.
func TestFindsArePriced(t *testing.T) {
	s := referenceSimulator(t, 5000)
	worth := s.start.a.expected.worth
	var asked, values []float64
	together, askedMean, valueMean := 0.0, 0.0, 0.0
	for _, f := range s.finds {
		asked = append(asked, f.landed)
		values = append(values, f.value)
		askedMean += f.landed / 5000
		valueMean += f.value / 5000
	}
	for _, f := range s.finds {
		together += (f.landed - askedMean) * (f.value - valueMean) / 5000
	}
	within(t, "worth of the finds", valueMean, worth, 4*standardError(values))
	within(t, "correlation", together/deviation(asked)/deviation(values), 0, 4/math.Sqrt(5000))
	q := quantiles7(asked, 0.1, 0.5, 0.9)
	within(t, "a tenth is asked less than", q[0], worth/math.Sqrt(hammerRatio), 0.1)
	within(t, "half is asked less than", q[1], worth, 0.1)
	within(t, "a tenth is asked more than", q[2], worth*math.Sqrt(hammerRatio), 0.1)
}

// TestToldInFull: with every answer told, a find is believed to be what it is,
// and to be worth what it is worth.
func TestToldInFull(t *testing.T) {
	s := referenceSimulator(t, 40)
	for k := range s.finds {
		var known []belief.Finding
		for _, x := range s.subjects {
			known = s.learn(known, k, x)
		}
		at, err := s.given(known, k)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "worth", at.a.expected.worth, s.finds[k].value, 1e-9)
		for n, x := range s.subjects {
			if f, ok := s.told(n, s.finds[k].answers[n]); ok && x.kind == CheckPoint {
				within(t, s.start.key(x), at.a.posterior.Point(f.Subject)[f.Value], 1, 1e-9)
			}
		}
	}
}

// TestRanks: the catalogue number comes first, then points in the order of the
// checklist or by weight, then symptoms.
func TestRanks(t *testing.T) {
	s := referenceSimulator(t, 1)
	f := s.start.a.family
	for order, rank := range s.rank {
		last := make([]subject, len(s.subjects))
		for x, i := range rank {
			last[i] = x
		}
		if last[0].kind != CheckVariant || last[len(last)-1].kind != CheckSymptom {
			t.Errorf("%s: from %+v to %+v", order, last[0], last[len(last)-1])
		}
		for i := 1; i < len(last); i++ {
			a, b := last[i-1], last[i]
			if a.kind != CheckPoint || b.kind != CheckPoint {
				continue
			}
			heavier := f.Points[a.index].Weight - f.Points[b.index].Weight
			if order == OrderWeight && heavier < 0 || (order == OrderChecklist || heavier == 0) && a.index > b.index {
				t.Errorf("%s: %s before %s", order, f.Points[a.index].ID, f.Points[b.index].ID)
			}
		}
	}
}
