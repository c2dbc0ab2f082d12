package table

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"lotgauge/valuation"
)

// How many questions are shown.
const (
	fewQuestions  = 3
	mostQuestions = 40
)

// questions shows what to find out next and what knowing it is worth.
func (p *printer) questions(a *valuation.Appraisal) {
	if a.Worth == nil {
		return
	}
	worth := worthAsking(a)
	p.heading("What to ask or check next, and what knowing it is worth")
	if len(worth) == 0 {
		p.note(plain, "Nothing that is left to find out would change what to do: decide.")
		return
	}
	g := &grid{numbers: true, columns: []column{{right: true}, {flex: true}, {head: "Worth " + a.Currency, right: true}, {head: "Minutes", right: true, spare: 1}}}
	shown := p.most(fewQuestions, min(mostQuestions, len(worth)))
	for i, q := range worth[:min(shown, len(worth))] {
		minutes := ""
		if q.Minutes > 0 {
			minutes = fmt.Sprintf("%.4g", q.Minutes)
		}
		g.add(words(fmt.Sprintf("%d.", i+1)), words(q.Title), words(figure(&q.Worth)), words(minutes))
		g.note(effects(&q, a.Purchase.Currency))
		ask := asking(q.Ask)
		g.note(ask)
		if p.full || ask == "" {
			g.note(looking(&q))
		}
	}
	p.grid(g)
	if more := len(worth) - shown; more > 0 {
		p.note(plain, "And "+counted(more, "more question")+", none of them worth more.")
	}
}

// Of the answers of a question at most so many are shown, and none less likely.
const (
	mostEffects = 3
	leastEffect = 0.05
)

// effects say what each of the likeliest answers would do: "If sound: stop at
// 65.00 GBP (10%); if missing: 40.00 GBP (86%)."
func effects(q *valuation.Question, currency string) string {
	var all []string
	stop := "stop at "
	for _, e := range q.Effects[:min(mostEffects, len(q.Effects))] {
		if e.Chance < leastEffect && len(all) > 1 {
			break
		}
		bid := "no bid pays"
		if e.Stop != nil {
			bid, stop = stop+tied(amount(e.Stop, currency)), ""
		}
		all = append(all, "if "+e.Title+": "+bid+tied(" ("+percent(e.Chance)+")"))
	}
	return sentence(capital(strings.Join(all, "; ")))
}

// worthAsking are the questions that are worth anything, best first.
func worthAsking(a *valuation.Appraisal) []valuation.Question {
	return slices.DeleteFunc(slices.Clone(a.Questions), func(q valuation.Question) bool { return !q.Worth.IsPositive() })
}

// asking is the question to a seller, in English where there is a choice.
func asking(ask map[string]string) string {
	if q, ok := ask["en"]; ok {
		return "Ask: " + q
	}
	languages := make([]string, 0, len(ask))
	for l := range ask {
		languages = append(languages, l)
	}
	if len(languages) == 0 {
		return ""
	}
	slices.Sort(languages)
	return "Ask: " + ask[languages[0]]
}

// looking is how to see it for oneself.
func looking(q *valuation.Question) string {
	text := q.How
	var how []string
	for _, see := range q.See {
		switch see {
		case "hand", "track":
			how = append(how, by(see))
		case "photo":
			how = append(how, "on a photo")
		}
	}
	switch {
	case len(how) > 0 && text != "":
		return "Look (" + strings.Join(how, ", ") + "): " + text
	case len(how) > 0:
		return "Shows " + either(how)
	case text != "":
		return "Look: " + text
	}
	return ""
}

// rules shows the rules of the family that hold; in short those to be careful of.
func (p *printer) rules(a *valuation.Appraisal) {
	g := &grid{columns: []column{{}, {flex: true}}}
	for _, r := range a.Rules {
		t := plain
		switch r.Level {
		case "stop":
			t = bad
		case "caution":
			t = warn
		default:
			if !p.full {
				continue
			}
		}
		g.add(toned(t, r.Level), words(r.Text))
	}
	if len(g.rows) > 0 {
		p.heading("What this family's checklist says to that")
		p.grid(g)
	}
}

// mind closes with cautions and with what was doubtful in the data.
func (p *printer) mind(a *valuation.Appraisal) {
	doubts := slices.DeleteFunc(slices.Clone(a.Reading.Warnings), placed) // the others stand below the headline
	if len(a.Reading.Cautions)+len(doubts) > 0 {
		p.heading("Mind")
	}
	for _, d := range doubts {
		p.item(warn, d.Error())
	}
	var all []string
	for _, c := range a.Reading.Cautions {
		all = append(all, capital(sentence(c)))
	}
	if len(all) > 0 {
		p.note(plain, strings.Join(all, " "))
	}
}

// rests says what all of it rests on.
func (p *printer) rests(a *valuation.Appraisal) {
	if len(a.Reading.Rests) == 0 {
		return
	}
	p.heading("What this rests on")
	g := &grid{columns: []column{{}, {flex: true}}}
	for _, input := range a.Reading.Rests {
		g.add(words(input.Name), words(input.Text))
	}
	p.grid(g)
}

// capital begins a text with a capital letter.
func capital(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// lower begins a text with a small letter, unless it begins with an
// abbreviation or a number.
func lower(s string) string {
	r := []rune(s)
	if len(r) < 2 || r[1] != ' ' && !unicode.IsLower(r[1]) {
		return s
	}
	return strings.ToLower(string(r[0])) + string(r[1:])
}
