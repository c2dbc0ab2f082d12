package belief

import "math"

// A world is one joint outcome: the oracle lists them all.
type world struct {
	v, h   int
	state  []int // -1 where the point does not apply
	weight float64
	there  []float64 // per symptom: its chance, reports considered
}

// oracle is plain enumeration, written from the design ("Beliefs") and sharing
// no code with the package: it looks at the findings, not at Evidence.
type oracle struct {
	worlds []world
	total  float64
}

func enumerateFindings(m *Model, findings []Finding, hidden Hidden) *oracle {
	o := &oracle{}
	made, odds := 0.0, 0.0
	for _, v := range m.Variants {
		made += v.Made
	}
	for _, h := range m.Histories {
		odds += h.Odds
	}
	for v := range m.Variants {
		for h := range m.Histories {
			w := world{v: v, h: h, state: make([]int, len(m.Points))}
			prior := m.Variants[v].Made / made * (m.Histories[h].Odds / odds)
			o.branch(m, findings, hidden, w, 0, prior)
		}
	}
	return o
}

// branch extends a world by the states of point i and of those after it.
func (o *oracle) branch(m *Model, findings []Finding, hidden Hidden, w world, i int, prior float64) {
	if prior == 0 {
		return
	}
	if i == len(m.Points) {
		o.judge(m, findings, hidden, w, prior)
		return
	}
	w.state[i] = -1
	if !m.Points[i].Applies[w.v] {
		o.branch(m, findings, hidden, w, i+1, prior)
		return
	}
	sum := 0.0
	for _, s := range m.Points[i].States {
		sum += s.Odds[w.h]
	}
	for s := range m.Points[i].States {
		if x := m.Points[i].States[s].Odds[w.h]; x > 0 {
			w.state[i] = s
			o.branch(m, findings, hidden, w, i+1, prior*x/sum)
		}
	}
}

// judge weighs a whole world by all findings and keeps it if it is possible.
func (o *oracle) judge(m *Model, findings []Finding, hidden Hidden, w world, weight float64) {
	for _, f := range findings {
		weight *= opinion(m, f, hidden, w)
	}
	for j := range m.Symptoms {
		there := ignited(m, j, w)
		yes, no := there, 1-there
		for _, f := range findings {
			if f.Kind == SymptomIs && f.Subject == j {
				yes *= mistake(f.Value == 1, f.Trust, 2)
				no *= mistake(f.Value == 0, f.Trust, 2)
			}
			if f.Kind == SymptomHidden && f.Subject == j {
				yes *= hidden.Faulty
				no *= hidden.Sound
			}
		}
		weight *= yes + no
		w.there = append(w.there, yes/(yes+no))
	}
	if weight > 0 {
		w.state = append([]int(nil), w.state...)
		w.weight = weight
		o.worlds = append(o.worlds, w)
		o.total += weight
	}
}

// ignited is the chance of symptom j in a world, by the noisy-OR.
func ignited(m *Model, j int, w world) float64 {
	absent := 1 - m.Symptoms[j].Leak
	for _, c := range m.Symptoms[j].Causes {
		if w.state[c.Point] == c.State {
			absent *= 1 - c.Strength
		}
	}
	return 1 - absent
}

// mistake is the chance of an answer among n.
func mistake(right bool, trust float64, n int) float64 {
	if right {
		return trust
	}
	if n == 1 {
		return 1 - trust
	}
	return (1 - trust) / float64(n-1)
}

// opinion is the chance of a finding, other than about a symptom, in a world.
func opinion(m *Model, f Finding, hidden Hidden, w world) float64 {
	fit := func(feature int) int { return m.Variants[w.v].Fit[feature] }
	switch f.Kind {
	case VariantIs:
		return mistake(f.Value == w.v, f.Trust, len(m.Variants))
	case FeatureOption:
		return mistake(f.Value == fit(f.Subject), f.Trust, len(m.Features[f.Subject].Options))
	case PointState:
		return mistake(f.Value == w.state[f.Subject], f.Trust, len(m.Points[f.Subject].States))
	case PointReading:
		k := len(m.Points[f.Subject].States)
		if w.state[f.Subject] < 0 {
			return mistake(false, f.Trust, k)
		}
		fits := m.Readings[f.Value][w.state[f.Subject]]
		return fits*mistake(true, f.Trust, k) + (1-fits)*mistake(false, f.Trust, k)
	case PointHidden:
		switch w.state[f.Subject] {
		case -1:
			return 1
		case 0:
			return hidden.Sound
		}
		return hidden.Faulty
	case PointOption:
		p := m.Points[f.Subject]
		if p.Feature < 0 {
			return 1
		}
		k := len(m.Features[p.Feature].Options)
		if w.state[f.Subject] < 0 {
			return mistake(false, f.Trust, k)
		}
		s, same := p.States[w.state[f.Subject]], f.Value == fit(p.Feature)
		switch {
		case !s.Complete:
			return 1 / float64(k)
		case !s.Original && same:
			return 1 - f.Trust
		case !s.Original && k > 1:
			return f.Trust / float64(k-1)
		case !s.Original:
			return f.Trust
		}
		return mistake(same, f.Trust, k)
	}
	return 1
}

// mean is the posterior expectation of a figure of a world.
func (o *oracle) mean(figure func(*world) float64) float64 {
	sum := 0.0
	for i := range o.worlds {
		sum += o.worlds[i].weight * figure(&o.worlds[i])
	}
	return sum / o.total
}

// chance is the posterior probability of an event.
func (o *oracle) chance(event func(*world) bool) float64 {
	return o.mean(func(w *world) float64 {
		if event(w) {
			return 1
		}
		return 0
	})
}

// far says whether two probabilities differ by more than tolerance, or either
// is no number.
func far(a, b, tolerance float64) bool { return !(math.Abs(a-b) <= tolerance) }
