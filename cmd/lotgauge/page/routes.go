package page

import (
	"fmt"

	"lotgauge/valuation"
)

// routes are the ways out, side by side.
type routes struct {
	Currency, Sheet string
	Axis            *chart
	Rows            []route
	Landed          string // the landed ask that a line marks, "" where none does
}

type route struct {
	Name                 string
	Missing              []words
	Mean, Low, High, Bid string
	Best                 string
	Leads                bool // the best in more cases than any other
	Bar                  *chart
}

func (m *maker) routes() *routes {
	all := m.a.Routes
	if len(all) == 0 {
		return nil
	}
	out := &routes{Currency: clean(m.a.Currency), Sheet: clean(m.a.Purchase.Currency)}
	across, marked := m.routeScale(all)
	if marked {
		out.Landed = m.money(m.a.Purchase.Landed)
	}
	lead := leading(all)
	for i := range all {
		r := &all[i]
		row := route{
			Name: capital(routeName(r.ID)), Missing: listed(r.Missing, name),
			Mean: plain(r.Mean), Low: plain(r.P10), High: plain(r.P90), Bid: m.routeBid(r), Best: optional(r.Chosen),
			Leads: i == lead,
		}
		if r.Mean != nil && r.P10 != nil && r.P90 != nil {
			row.Bar = m.routeBar(r, across, marked)
		}
		out.Rows = append(out.Rows, row)
	}
	out.Axis = m.axis("What the ways out bring, scale", across)
	return out
}

// leading is the index of the route that is best in most cases, -1 if unknown.
func leading(all []valuation.RouteWorth) int {
	lead, most := -1, valuation.Share(0)
	for i, r := range all {
		if r.Chosen != nil && *r.Chosen > most {
			lead, most = i, *r.Chosen
		}
	}
	return lead
}

// routeBid is the highest bid that pays by one way out. A worth without a bid
// means that none pays.
func (m *maker) routeBid(r *valuation.RouteWorth) string {
	if r.Mean != nil && r.BreakEven == nil {
		return "none"
	}
	return plain(r.BreakEven)
}

// routeScale spans all routes and nought, and the landed ask if it is not far
// out.
func (m *maker) routeScale(all []valuation.RouteWorth) (s scale, marked bool) {
	s = scale{0, 0, 1, 99}
	for _, r := range all {
		for _, x := range []*valuation.Money{r.Mean, r.P10, r.P90} {
			if x != nil {
				s.lo, s.hi = min(s.lo, float(*x)), max(s.hi, float(*x))
			}
		}
	}
	if s.hi == s.lo {
		s.hi = s.lo + 1
	}
	landed := m.a.Purchase.Landed
	if landed == nil || float(*landed) > s.hi+0.5*(s.hi-s.lo) {
		return s, false
	}
	s.hi = max(s.hi, float(*landed))
	return s, true
}

func (m *maker) routeBar(r *valuation.RouteWorth, across scale, marked bool) *chart {
	c := m.chart("strip", capital(routeName(r.ID))+": "+plain(r.Mean),
		fmt.Sprintf("In 80 of 100 cases between %s and %s.", plain(r.P10), plain(r.P90)), 18)
	c.line("ground", across.at(0), 0, across.at(0), 18)
	if marked {
		at := across.at(float(*m.a.Purchase.Landed))
		c.line("pin ask", at, 0, at, 18)
	}
	c.rect("span", across.at(float(*r.P10)), across.at(float(*r.P90)), 6, 6)
	c.dot("mean", across.at(float(*r.Mean)), 9, 4.5)
	return c
}

// axis is a scale to stand above or below bars that share it.
func (m *maker) axis(title string, across scale) *chart {
	c := m.chart("strip axis", title, "From "+whole(across.lo)+" to "+whole(across.hi)+".", 16)
	for _, t := range axisTicks(across.lo, across.hi) {
		c.line("tick", across.at(t), 12, across.at(t), 16)
		c.text("axis", across.at(t), 10, tickLabel(t))
	}
	return c
}
