package valuation

import (
	"slices"

	"lotgauge/valuation/diag"
)

// run walks every find in every order.
func (s *simulator) run() (*Simulation, diag.List) {
	a := s.start.a
	out := &Simulation{
		Family: a.family.ID, Currency: string(a.settings.Currency),
		Finds: len(s.finds), Draws: a.draws, Seed: a.seed, PerMinute: s.start.stall().perMinute,
	}
	var paying spot
	for _, order := range []string{OrderPaying, OrderPatient, OrderChecklist, OrderWeight} {
		walks, err := s.walks(order)
		if err != nil {
			return nil, diag.List{a.impossible(err)}
		}
		if order == OrderPaying {
			paying, out.Blind = s.limited(walks, -1), s.limited(walks, 0).regret
		}
		out.Orders = append(out.Orders, s.result(order, walks, paying))
	}
	minutes, regret, err := s.fulls()
	if err != nil {
		return nil, diag.List{a.impossible(err)}
	}
	for i := range out.Orders {
		r := &out.Orders[i]
		r.Total = r.Regret + float64(r.Minutes*out.PerMinute)
		r.FullMinutes, r.FullRegret = minutes, regret
	}
	return out, nil
}

// walks are the walks of all finds in one order.
func (s *simulator) walks(order string) ([]walk, error) {
	out := make([]walk, len(s.finds))
	for k := range out {
		w, err := s.walk(k, order)
		if err != nil {
			return nil, err
		}
		out[k] = w
	}
	return out, nil
}

// result sums up the walks of an order, and holds them against where the paying
// order ends.
func (s *simulator) result(order string, walks []walk, paying spot) OrderResult {
	r := OrderResult{Order: order}
	regrets := make([]float64, len(walks))
	n := float64(len(walks))
	for k := range walks {
		w, last := &walks[k], len(walks[k].minutes)-1
		mean, drawn := s.finds[k].regret(w.buys[last])
		regrets[k] = mean
		r.Minutes += w.minutes[last] / n
		r.Regret += mean / n
		r.AtDrawn += drawn / n
	}
	r.RegretSE = standardError(regrets)
	at, _ := s.shortest(walks, func(at spot) bool { return at.minutes >= paying.minutes })
	r.SameMinutes = at.regret
	at, r.Reaches = s.shortest(walks, func(at spot) bool { return at.regret <= paying.regret })
	r.SameRegret = at.minutes
	return r
}

// spot is where the finds stand on average.
type spot struct{ minutes, regret float64 }

// limited is where an order stands with so many minutes for each find; a
// negative limit is none.
func (s *simulator) limited(walks []walk, limit float64) spot {
	var out spot
	n := float64(len(walks))
	for k := range walks {
		i := len(walks[k].minutes) - 1
		if limit >= 0 {
			i = walks[k].begun(limit)
		}
		mean, _ := s.finds[k].regret(walks[k].buys[i])
		out.minutes += walks[k].minutes[i] / n
		out.regret += mean / n
	}
	return out
}

// shortest is where an order stands under the shortest limit that will do, the
// same for all finds. The limits tried are those at which something changes: when
// a check ends in any of the walks. It is false where none will do; it then is
// where the order ends.
func (s *simulator) shortest(walks []walk, enough func(spot) bool) (spot, bool) {
	var limits []float64
	for k := range walks {
		limits = append(limits, walks[k].minutes...)
	}
	slices.Sort(limits)
	for _, limit := range slices.Compact(limits) {
		if at := s.limited(walks, limit); enough(at) {
			return at, true
		}
	}
	return s.limited(walks, -1), false
}

// fulls is the mean over the finds of making every check.
func (s *simulator) fulls() (minutes, regret float64, err error) {
	n := float64(len(s.finds))
	for k := range s.finds {
		m, buys, err := s.full(k)
		if err != nil {
			return 0, 0, err
		}
		mean, _ := s.finds[k].regret(buys)
		minutes += m / n
		regret += mean / n
	}
	return minutes, regret, nil
}
