package page

import (
	"fmt"
	"strings"

	"lotgauge/valuation"
)

// subject says what is appraised.
type subject struct {
	Title         words
	Family        words
	Date, Day     string // 2026-03-14, 14 March 2026
	Demonstration bool
}

func (m *maker) subject() subject {
	r := &m.a.Reading
	s := subject{
		Title: newWords(m.a.Title, titleRunes), Family: newWords(r.FamilyTitle, titleRunes),
		Date: clean(m.a.Date), Day: clean(m.a.Date), Demonstration: m.a.Demonstration,
	}
	if s.Title.Short == "" {
		s.Title.Short = "Untitled listing"
	}
	if s.Family.Short == "" {
		s.Family = name(m.a.Family)
	}
	if !r.On.IsZero() {
		s.Date, s.Day = r.On.Format("2006-01-02"), r.On.Format("2 January 2006")
	}
	return s
}

// state says what it is, how it was kept and in what state it should be.
type state struct {
	Answers  []answers
	Scores   []score
	Coverage string
}

// answers are those to one question that are possible.
type answers struct {
	Name string
	All  []likely
}

// likely is one of several answers and its chance.
type likely struct {
	Name   words
	Chance string
	Bar    *chart
}

// A score is out of 100, with what 8 in 10 cases lie between.
type score struct {
	Name, Mean, Low, High string
	Bar                   *chart
}

func (m *maker) state() state {
	a := m.a
	s := state{Coverage: percent(a.Score.Coverage)}
	for _, x := range []answers{
		{"Catalogue number", m.likely(a.Variants, numbered, chanceID)},
		{"How it was kept", m.likely(a.Histories, chanceTitle, chanceTitle)},
		{"What a test would show", m.likely(a.Symptoms, chanceTitle, chanceTitle)},
	} {
		if len(x.All) > 0 {
			s.Answers = append(s.Answers, x)
		}
	}
	s.Scores = []score{
		m.score("Condition", a.Score.Condition),
		m.score("Originality", a.Score.Originality),
		m.score("Completeness", a.Score.Completeness),
	}
	return s
}

func titled(title string) string {
	if title == "" {
		return ""
	}
	return ", " + title
}

func numbered(c valuation.Chance) string { return c.ID + titled(c.Title) }

func chanceID(c valuation.Chance) string { return c.ID }

// chanceTitle is how an answer is called, by its id where it has no title.
func chanceTitle(c valuation.Chance) string {
	if c.Title == "" {
		return c.ID
	}
	return c.Title
}

// faint is a chance below which answers share a line.
const faint = 0.01

// likely are the answers that are possible, in the words of call. Several faint
// ones share a line, in those of brief.
func (m *maker) likely(all []valuation.Chance, call, brief func(valuation.Chance) string) []likely {
	var out []likely
	var others []string
	sum := valuation.Share(0)
	for _, c := range all {
		if c.Chance > 0 && c.Chance < faint {
			others, sum = append(others, brief(c)), sum+c.Chance
		}
	}
	for _, c := range all {
		if c.Chance >= faint || c.Chance > 0 && len(others) == 1 {
			out = append(out, m.oneOf(name(call(c)), c.Chance))
		}
	}
	if len(others) > 1 {
		out = append(out, m.oneOf(sentence(fmt.Sprintf("%d others: %s", len(others), strings.Join(others, ", "))), sum))
	}
	return out
}

func (m *maker) oneOf(called words, c valuation.Share) likely {
	l := likely{Name: called, Chance: percent(c)}
	l.Bar = m.chart("strip", "Chance "+l.Chance, called.Short+": "+l.Chance, 10)
	l.Bar.rect("rest", 0, 100, 1, 8)
	l.Bar.rect("sure", 0, 100*min(float64(c), 1), 1, 8)
	return l
}

func (m *maker) score(called string, s valuation.Spread) score {
	x := score{Name: called, Mean: tenth(s.Mean), Low: tenth(s.P10), High: tenth(s.P90)}
	x.Bar = m.chart("strip", called+" "+x.Mean+" of 100", "In 8 of 10 cases between "+x.Low+" and "+x.High+".", 14)
	across := scale{0, 100, 1, 99}
	x.Bar.line("ground", 0, 7, 100, 7)
	x.Bar.rect("span", across.at(float64(s.P10)), across.at(float64(s.P90)), 4, 6)
	x.Bar.dot("mean", across.at(float64(s.Mean)), 7, 4)
	return x
}
