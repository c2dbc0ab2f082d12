package page

import (
	"strconv"

	"lotgauge/valuation"
)

// A view is all that the page says, in the words and places in which it says
// it. The template only lays it out.
type view struct {
	Window   string // the title of the window
	Subject  subject
	Verdict  verdict
	Missing  []missing
	Worth    *worth
	Column   *column
	Bill     *bill
	Routes   *routes
	Ask      *questions
	State    state
	Points   *points
	Findings []finding
	Parts    *parts
	Prices   *sightings
	Rules    []rule
	Doubts   []words
	Mind     []words
	Rests    []input
}

// An input is a name and what it is.
type input struct{ Name, Text words }

// maker builds the view of one appraisal.
type maker struct {
	a      *valuation.Appraisal
	charts int
}

func newView(a *valuation.Appraisal) *view {
	m := &maker{a: a}
	v := &view{
		Subject: m.subject(),
		Verdict: m.verdict(),
		Missing: m.missing(),
		Worth:   m.worth(),
		Column:  m.column(),
		Bill:    m.bill(),
		Routes:  m.routes(),
		Ask:     m.questions(),
		State:   m.state(),
		Points:  m.points(),
		Parts:   m.parts(),
		Prices:  m.sightings(),
	}
	v.Findings, v.Rules = m.findings(), m.rules()
	v.Verdict.Alerts, v.Doubts = m.doubts()
	v.Mind, v.Rests = m.mind(), m.rests()
	v.Window = v.Verdict.Word + " – " + v.Subject.Title.Short
	return v
}

// chart begins a plot of the given height in pixels. Title and desc may have
// text from outside in them.
func (m *maker) chart(class, title, desc string, height int) *chart {
	m.charts++
	return &chart{
		ID:     "plot" + strconv.Itoa(m.charts),
		Class:  class,
		Title:  shorten(clean(title), titleRunes),
		Desc:   shorten(clean(desc), sentenceRunes),
		Height: strconv.Itoa(height),
	}
}

// money is an amount in the home currency.
func (m *maker) money(x *valuation.Money) string { return amount(x, m.a.Currency) }

// bid is an amount in the buying sheet's currency.
func (m *maker) bid(x *valuation.Money) string { return amount(x, m.a.Purchase.Currency) }
