package table

import (
	"fmt"
	"io"
	"math"
	"strings"

	"lotgauge/valuation"
)

// A Guide is a guide price by the id of the part or the catalogue number that
// has one, in words: "34 EUR".
type Guide map[string]string

// Explanation prints how each finding moved what is believed of one point, as
// factors of the odds that multiply out, and what each price rests on.
func Explanation(w io.Writer, title string, e *valuation.Explanation, guides Guide, demonstration bool, o Options) error {
	p := newPrinter(o)
	p.para(strong, "", "", e.Title+bracketed(e.ID)+": "+likeliestAnswer(e))
	p.invented(demonstration)
	p.blank()
	p.para(plain, "", "", clipped(title, titleRunes))
	p.moves(e)
	for i := range e.Parts {
		n := &e.Parts[i]
		p.heading(n.Title + bracketed(n.ID) + ", what its price rests on")
		p.note(plain, capital(in100(valuation.Share(n.Chance)))+" cases it is needed. "+found(n))
		p.price(n.Price, ", postage in", e.Currency)
		p.rows(n.Seen, guides[n.ID], e.Currency, "Counts\nas")
	}
	p.modelPrices(e, guides)
	return p.writeTo(w)
}

// likeliestAnswer is the answer that is most likely now.
func likeliestAnswer(e *valuation.Explanation) string {
	best := 0
	for i, c := range e.Now {
		if c > e.Now[best] {
			best = i
		}
	}
	if len(e.Now) == 0 {
		return "nothing is known"
	}
	return e.Answers[best] + " " + percent(valuation.Share(e.Now[best]))
}

func found(n *valuation.PartNeed) string {
	text := "Seen " + counted(n.Sightings, "time") + "; " + in100(n.FindChance) + " cases one is found in time"
	if n.Scarce {
		text += ": scarce"
	}
	return text + "."
}

// moves shows the odds from what is usual to what is believed now, an answer a
// column; where the width is too short for all, in several tables.
func (p *printer) moves(e *valuation.Explanation) {
	p.heading("How the findings moved the odds")
	most := answerColumns(len(e.Answers))
	for most > 1 {
		if _, ok := p.moveGrid(e, 0, most).fit(p.width - len(margin)); ok {
			break
		}
		most--
	}
	for from := 0; from < len(e.Answers); from += most {
		if from > 0 {
			p.blank()
		}
		p.grid(p.moveGrid(e, from, min(from+most, len(e.Answers))))
	}
	p.note(faint, "Odds are a chance against its contrary: 1.50 is 3 to 2. Each factor is that of a finding given those above it; the usual odds times all factors are the odds now.")
	if small := unmoved(e); len(small) > 0 {
		p.note(faint, "Moved no odds by more than 2%: "+strings.Join(small, "; ")+".")
	}
	if total(e.Now) < 1-negligible {
		p.note(faint, "The chances come to less than 100%: not every catalogue number that it may be has this point.")
	}
}

// answerColumns is how many answers are shown side by side at most.
func answerColumns(n int) int { return min(n, 12) }

// answerWidth is how wide the head of an answer's column may be.
const answerWidth = 11

// moveGrid is the table of the answers from, up to but not including to.
func (p *printer) moveGrid(e *valuation.Explanation, from, to int) *grid {
	g := &grid{columns: []column{{flex: true}}}
	for _, answer := range e.Answers[from:to] {
		g.columns = append(g.columns, column{head: headLines(answer, answerWidth), right: true})
	}
	line := func(t tone, what string, f func(answer int) string) {
		cells := []cell{toned(t, what)}
		for i := from; i < to; i++ {
			cells = append(cells, toned(t, f(i)))
		}
		g.add(cells...)
	}
	line(plain, "usual chance", func(i int) string { return percent(valuation.Share(e.Usual[i])) })
	line(strong, "usual odds", func(i int) string { return odds(e.Usual[i]) })
	rest := 0
	for n := range e.Moves {
		m := &e.Moves[n]
		if !moved(m) {
			rest++
			continue
		}
		line(plain, finding(&m.Finding), func(i int) string { return factor(m.Factor[i]) })
	}
	if rest > 0 {
		line(faint, counted(rest, "other finding"), func(i int) string { return factor(others(e, i)) })
	}
	line(strong, "odds now", func(i int) string { return odds(e.Now[i]) })
	line(plain, "chance now", func(i int) string { return percent(valuation.Share(e.Now[i])) })
	return g
}

// still is how far a factor may be from 1 and have moved nothing.
const still = 0.02

// moved tells whether a finding moved any answer.
func moved(m *valuation.Move) bool {
	for _, f := range m.Factor {
		if !(math.Abs(f-1) <= still) {
			return true
		}
	}
	return false
}

// others is the product of an answer's factors of the findings that moved
// nothing.
func others(e *valuation.Explanation, answer int) float64 {
	var all []float64
	for i := range e.Moves {
		if !moved(&e.Moves[i]) {
			all = append(all, e.Moves[i].Factor[answer])
		}
	}
	return product(all)
}

// unmoved names the findings that moved nothing.
func unmoved(e *valuation.Explanation) []string {
	var out []string
	for i := range e.Moves {
		if !moved(&e.Moves[i]) {
			out = append(out, e.Moves[i].Finding.Title)
		}
	}
	return out
}

// finding is a finding in a few words: "Front pantograph: missing (a photo)".
func finding(f *valuation.FindingLine) string {
	if f.By == "hidden" {
		return f.Title + ": not shown"
	}
	return fmt.Sprintf("%s: %s (%s)", f.Title, f.Value, by(f.By))
}
