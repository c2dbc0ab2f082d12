package page

import (
	"fmt"

	"lotgauge/valuation"
)

// verdict says what to do, how sure that is, and why.
type verdict struct {
	Tone    string // good, mind, bad or none: how it is set
	Word    string // "Stop at 50.00 GBP"
	Lines   []words
	Reasons []words
	Alerts  []words // what is doubtful at a certain place
	Limits  []limit
	Alone   bool // the limits are what the figures say by themselves, and not to be kept to
}

// A limit is a bid, what it costs in the end and how often it loses money.
type limit struct {
	Name   string
	Bid    string
	Landed string // what it costs in the end; "" where there is no bid
	Risk   string // a sentence; "" where unknown
	Figure bool   // there is a bid
}

func (m *maker) verdict() verdict {
	v := m.conclusion()
	for i := range m.a.Reading.Reasons {
		v.Reasons = append(v.Reasons, sentence(capital(stopped(m.a.Reading.Reasons[i].Because(percent)))))
	}
	v.Limits = m.limits()
	return v
}

// conclusion is the verdict in words.
func (m *maker) conclusion() verdict {
	p := &m.a.Purchase
	switch m.a.Reading.Verdict {
	case valuation.WalkAway:
		return verdict{Tone: "bad", Word: "Walk away", Alone: p.BreakEvenBid != nil}
	case valuation.TooDear:
		return m.said("bad", "Too dear at "+m.bid(p.Ask), m.tooDear())
	case valuation.Marginal:
		return m.said("mind", m.stop(), m.marginal())
	case valuation.Buy:
		return m.buy()
	}
	return m.said("none", "No figure: a price is missing", m.unpriced())
}

func (m *maker) said(tone, word string, lines ...string) verdict {
	return verdict{Tone: tone, Word: word, Lines: listed(lines, sentence)}
}

// stop is the word for a bid that pays. A fixed price can pay where no bid of the
// ladder does.
func (m *maker) stop() string {
	p := &m.a.Purchase
	if p.BreakEvenBid == nil {
		return "It pays at " + m.bid(p.Ask) + ", on average"
	}
	return "Stop at " + m.bid(p.BreakEvenBid)
}

func (m *maker) tooDear() string {
	p := &m.a.Purchase
	if p.BreakEvenBid == nil {
		return "It costs more than it is worth to you."
	}
	return "Stop at " + m.bid(p.BreakEvenBid) + ": above that it costs more than it is worth to you."
}

// buy is the verdict where the ask, if any, is a careful price.
func (m *maker) buy() verdict {
	p := &m.a.Purchase
	switch {
	case p.Ask == nil:
		return m.said("good", m.stop(), "Up to there it is worth what it costs, on average.")
	case p.Fixed && p.BreakEvenBid == nil:
		return m.said("good", "Buy at "+m.bid(p.Ask))
	case p.Fixed:
		return m.said("good", "Buy at "+m.bid(p.Ask), "It would still pay at "+m.bid(p.BreakEvenBid)+".")
	}
	return m.said("good", m.stop(), "The "+m.bid(p.Ask)+" asked is a careful price.")
}

// marginal says what is the matter with a price that pays but is not careful.
func (m *maker) marginal() string {
	p := &m.a.Purchase
	often := in100(p.Tolerance)
	switch {
	case p.Ask == nil:
		return "On average that pays. No bid is a careful one: each loses money more often than " + often + "."
	case p.CarefulBid == nil && p.BreakEvenBid != nil:
		return "The " + m.bid(p.Ask) + " asked pays on average. No bid is a careful one: each loses money more often than " + often + "."
	}
	return "The " + m.bid(p.Ask) + " asked pays on average, but loses money more often than " + often + "."
}

func (m *maker) unpriced() string {
	all := m.a.Reading.Missing
	if len(all) == 0 {
		return "Without it no bid can be named."
	}
	text := "There is no price for " + shorten(clean(titleOr(all[0].Title, all[0].ID)), nameRunes)
	if more := len(all) - 1; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text + ". Without it no bid can be named; below is how to mend that."
}

func titleOr(title, id string) string {
	if title == "" {
		return id
	}
	return title
}

// limits are the bid at which to stop, the careful one and the ask.
func (m *maker) limits() []limit {
	p := &m.a.Purchase
	none := "no bid"
	if m.a.Worth == nil {
		none = noFigure
	}
	asked := "Asked"
	if p.Fixed {
		asked = "Price"
	}
	return []limit{
		m.limit("Stop at", none, p.BreakEvenBid, p.BreakEvenLanded, p.BreakEvenLoss),
		m.limit("Careful", none, p.CarefulBid, p.CarefulLanded, p.CarefulLoss),
		m.limit(asked, "not named", p.Ask, p.Landed, p.LossChance),
	}
}

func (m *maker) limit(called, none string, bid, landed *valuation.Money, loss *valuation.Share) limit {
	l := limit{Name: called, Bid: none}
	if bid == nil {
		return l
	}
	l.Figure, l.Bid = true, m.bid(bid)
	if landed != nil {
		l.Landed = m.money(landed)
	}
	if loss != nil {
		l.Risk = capital(in100(*loss)) + " such purchases you would lose money."
	}
	return l
}

// missing is a price that is missing and how to mend it.
type missing struct {
	Title  words
	ID     words
	Routes string
	Row    words
	Key    words
}

func (m *maker) missing() []missing {
	var out []missing
	for _, x := range m.a.Reading.Missing {
		var ways []string
		for _, r := range x.Routes {
			ways = append(ways, routeName(r))
		}
		out = append(out, missing{
			Title: name(titleOr(x.Title, x.ID)), ID: name(x.ID), Routes: either(ways),
			Row: sentence(x.Row), Key: sentence(x.Key),
		})
	}
	return out
}
