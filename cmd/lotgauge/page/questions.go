package page

import (
	"maps"
	"slices"
	"strconv"

	"lotgauge/valuation"
)

// questions are what to find out next, the most valuable first.
type questions struct {
	Currency string
	First    []question
	Rest     []question
}

type question struct {
	Title   words
	Effects []words // what each of the likeliest answers would do
	Ask     []asking
	Look    words
	Where   string // where it can be seen
	Worth   string
	Time    string
	Bar     *chart
	Number  int
}

// asking is the question to the seller in one language.
type asking struct {
	Language string // a language tag
	Text     words
}

// firstQuestions is how many questions are shown at once.
const firstQuestions = 6

func (m *maker) questions() *questions {
	if m.a.Worth == nil {
		return nil
	}
	worth := slices.DeleteFunc(slices.Clone(m.a.Questions), func(q valuation.Question) bool { return !q.Worth.IsPositive() })
	out := &questions{Currency: clean(m.a.Currency)}
	numbers, most := make([]string, len(worth)), 0.0
	for i, q := range worth {
		numbers[i], most = plain(&q.Worth), max(most, float(q.Worth))
	}
	numbers = aligned(numbers)
	for i := range worth {
		q := m.question(&worth[i], numbers[i], most)
		q.Number = i + 1
		if i < firstQuestions {
			out.First = append(out.First, q)
		} else {
			out.Rest = append(out.Rest, q)
		}
	}
	return out
}

func (m *maker) question(q *valuation.Question, worth string, most float64) question {
	out := question{
		Title: name(titleOr(q.Title, q.ID)), Look: sentence(q.How), Where: where(q.See), Worth: worth, Time: minutes(q.Minutes),
	}
	out.Effects = m.effects(q)
	for _, tag := range languages(q.Ask) {
		out.Ask = append(out.Ask, asking{clean(tag), sentence(q.Ask[tag])})
	}
	out.Bar = m.chart("strip", "Worth "+plain(&q.Worth), out.Title.Short, 8)
	out.Bar.rect("sure", 0, scale{0, most, hairline, 100}.at(float(q.Worth)), 1, 6)
	return out
}

// Of the answers of a question at most so many are shown, and none less likely.
const (
	mostEffects = 3
	leastEffect = 0.05
)

// effects say what each of the likeliest answers would do to the bid at which to
// stop: "If missing: stop at 40.00 GBP (86%)".
func (m *maker) effects(q *valuation.Question) []words {
	var out []words
	for _, e := range q.Effects[:min(mostEffects, len(q.Effects))] {
		if e.Chance < leastEffect && len(out) > 1 {
			break
		}
		bid := "no bid pays"
		if e.Stop != nil {
			bid = "stop at " + m.bid(e.Stop)
		}
		out = append(out, sentence("If "+clean(e.Title)+": "+bid+" ("+percent(e.Chance)+")"))
	}
	return out
}

// languages are the language tags of a question, English first.
func languages(ask map[string]string) []string {
	return slices.SortedFunc(maps.Keys(ask), func(x, y string) int {
		switch {
		case x == y:
			return 0
		case x == "en" || y != "en" && x < y:
			return -1
		}
		return 1
	})
}

// where says where a thing can be seen.
func where(see []string) string {
	var all []string
	for _, s := range see {
		switch s {
		case "hand", "track":
			all = append(all, byWhat(s))
		case "photo":
			all = append(all, "on a photo")
		case "seller":
			all = append(all, "by asking the seller")
		}
	}
	return either(all)
}

// minutes are those that a check takes, "" where it takes none.
func minutes(m float64) string {
	if m <= 0 {
		return ""
	}
	return strconv.FormatFloat(m, 'g', 3, 64) + hardSpace + "min"
}
