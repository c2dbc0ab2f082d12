package main

import (
	"fmt"
	"slices"

	"lotgauge/valuation"
)

// checkView is one thing to look at or try, as the page shows it.
type checkView struct {
	Key     string       `json:"key"`
	Kind    string       `json:"kind"`
	ID      string       `json:"id"`
	Title   string       `json:"title"`
	How     string       `json:"how"`
	Ask     string       `json:"ask"`
	By      string       `json:"by"`
	Mind    []string     `json:"mind"` // what is to be minded of it
	Minutes float64      `json:"minutes"`
	Worth   string       `json:"worth"`
	Pays    bool         `json:"pays"` // by itself: it is worth more than the time it takes
	With    string       `json:"with"` // title of the check that it pays together with
	Answers []answerView `json:"answers"`
	Measure *measureView `json:"measure"`
}

type answerView struct {
	ID     string  `json:"id"`
	Title  string  `json:"title"`
	Chance float64 `json:"chance"`
	Stop   string  `json:"stop"` // why it rules the deal out, "" where it does not
}

// outlooks are the page's words for whether to look further.
var outlooks = map[valuation.Outlook]string{
	valuation.LookOn:       "look-on",
	valuation.NoLongerPays: "no-longer-pays",
	valuation.AllSeen:      "all-seen",
	valuation.DealBroken:   "deal-broken",
	valuation.NotPriced:    "not-priced",
}

// look puts in what there is to check, of the family's points too, and what the
// model may be.
func (v *figureView) look(n *valuation.Inspection, family string, points []string) {
	v.Outlook = outlooks[n.Outlook()]
	if next, ok := n.Next(); ok {
		c := newCheck(&next)
		v.Next = &c
	}
	v.Checks = []checkView{}
	left := map[string]bool{}
	for _, c := range n.Checks() {
		v.Checks = append(v.Checks, newCheck(&c))
		left[c.Key()] = true
	}
	v.Absent, v.Variants = []string{}, []chanceView{}
	for _, id := range points {
		key := valuation.CheckPoint + ":" + id
		if c, ok := n.Check(key); ok && !left[key] && !possible(c.Answers) {
			v.Absent = append(v.Absent, id)
		}
	}
	if c, ok := n.Check(valuation.CheckVariant + ":" + family); ok {
		for _, a := range c.Answers {
			v.Variants = append(v.Variants, chanceView{ID: a.ID, Chance: float64(a.Chance)})
		}
	}
}

// possible tells whether any answer may come.
func possible(answers []valuation.CheckAnswer) bool {
	return slices.ContainsFunc(answers, func(a valuation.CheckAnswer) bool { return a.Chance > 0 })
}

// list is a list for JSON, which has none that is nil.
func list(xs []string) []string { return append([]string{}, xs...) }

func newCheck(c *valuation.Check) checkView {
	v := checkView{
		Key: c.Key(), Kind: c.Kind, ID: c.ID, Title: c.Title, How: c.How, Ask: c.Ask[language], By: c.By, Mind: list(c.Mind),
		Minutes: c.Minutes, Worth: c.Worth.Text(), Pays: c.Net.IsPositive(), With: c.With, Answers: []answerView{},
	}
	if c.Together > 2 {
		v.With = fmt.Sprintf("the %d checks after it", c.Together-1)
	}
	if m := c.Measure; m != nil {
		v.Measure = &measureView{What: m.What, Unit: m.Unit, Right: c.Right}
	}
	for _, a := range c.Answers {
		v.Answers = append(v.Answers, answerView{ID: a.ID, Title: spoken(a.Title), Chance: float64(a.Chance), Stop: a.Stop})
	}
	return v
}
