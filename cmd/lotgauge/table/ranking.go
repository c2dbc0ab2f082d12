package table

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"lotgauge/valuation"
)

// Ranking prints lots side by side, in the order that they have.
func Ranking(w io.Writer, lots []Lot, demonstration bool, o Options) error {
	p := newPrinter(o)
	p.invented(demonstration)
	if demonstration && len(lots) > 0 {
		p.blank()
	}
	dir := commonFolder(lots)
	if dir != "" {
		p.para(plain, "", margin, "In "+dir)
		p.blank()
	}
	rank := 0
	for _, part := range []struct {
		of    group
		title string
	}{
		{ranked, "By what there is to gain on average"},
		{unranked, "No price is asked: what you could bid"},
		{avoided, "To walk away from"},
		{unknown, "No figure: a price is missing"},
	} {
		var in []*Lot
		for i := range lots {
			if lots[i].group() == part.of {
				in = append(in, &lots[i])
			}
		}
		if len(in) > 0 {
			p.lots(part.title, in, rank, dir)
			rank += len(in)
		}
	}
	p.rankingNotes(lots)
	return p.writeTo(w)
}

// lots prints one group of a ranking.
func (p *printer) lots(title string, lots []*Lot, rank int, dir string) {
	if rank > 0 {
		p.blank()
	}
	p.para(strong, "", "", title)
	gain, stop := alignedOf(lots, (*Lot).gain), alignedOf(lots, func(l *Lot) string { return amount(l.Stop, l.Currency) })
	ask, hammer := alignedOf(lots, func(l *Lot) string { return figure(l.Ask) }), alignedOf(lots, (*Lot).hammer)
	g := &grid{numbers: true, columns: []column{
		{right: true}, {head: "Listing", flex: true}, {head: "What to do"}, {head: "Gain " + lots[0].Home, right: true}, {head: "Asked", right: true},
		{head: "Likely\nhammer", right: true}, {head: "Stop at", right: true}, {head: "Loses", right: true},
	}}
	for i, l := range lots {
		g.add(words(fmt.Sprintf("%d.", rank+i+1)), words(filepath.Base(l.Listing)), toned(l.tone(), l.word()), words(gain[i]), words(ask[i]),
			words(hammer[i]), words(stop[i]), words(l.loses()))
		if p.width < roomy {
			g.note(fmt.Sprintf("Asked %s, likely hammer %s; loses %s as asked.", figure(l.Ask), l.hammer(), l.loses()))
		}
		if filepath.Base(l.Listing) != strings.TrimPrefix(l.Listing, dir) {
			g.note(l.Listing)
		}
		g.note(l.note())
	}
	if p.width < roomy {
		g = g.without(7).without(5).without(4)
	} else if !slices.ContainsFunc(lots, func(l *Lot) bool { return l.hammer() != "-" }) {
		g = g.without(5)
	}
	p.grid(g)
}

// roomy is the width from which all of a ranking's columns stand side by side.
const roomy = 76

// commonFolder is the folder that all files of a ranking are in, with what parts
// it from their names, or "".
func commonFolder(lots []Lot) string {
	dir := ""
	for i := range lots {
		here, _ := filepath.Split(lots[i].Listing)
		if i > 0 && here != dir {
			return ""
		}
		dir = here
	}
	return dir
}

// alignedOf is a column of amounts, one a lot.
func alignedOf(lots []*Lot, f func(*Lot) string) []string {
	return aligned(each(lots, f))
}

// gain is what there is to gain on average.
func (l *Lot) gain() string { return figure(l.Gain()) }

// hammer is where the bidding should end, as far as it is known.
func (l *Lot) hammer() string {
	if l.Margin == nil || !l.Margin.AtHammer {
		return "-"
	}
	return l.Margin.Price.Text()
}

// word is the verdict in a word or two.
func (l *Lot) word() string {
	if l.group() == unranked {
		return "make a bid"
	}
	switch l.Verdict {
	case valuation.Buy:
		if l.Fixed {
			return "buy"
		}
		return "bid"
	case valuation.Marginal:
		return "risky"
	case valuation.TooDear:
		return "too dear"
	case valuation.WalkAway:
		return "walk away"
	}
	return "no figure"
}

func (l *Lot) tone() tone {
	switch {
	case l.group() == ranked && l.Verdict == valuation.Buy:
		return good
	case l.group() == ranked && l.Verdict == valuation.Marginal:
		return warn
	case l.Verdict == valuation.TooDear, l.group() == avoided:
		return bad
	}
	return plain
}

func (l *Lot) loses() string {
	if l.Loss == nil {
		return "-"
	}
	return percent(*l.Loss)
}

// nameRunes is how much of a title a ranking shows.
const nameRunes = 60

// note says what a lot is, how likely it is to be had, and what to ask first or
// what is against it.
func (l *Lot) note() string {
	text := clipped(l.Title, nameRunes) + "."
	if l.Reason != "" {
		return text + " " + capital(sentence(l.Reason))
	}
	if m := l.Margin; m != nil && m.Chance != nil {
		text += " " + tied(percent(*m.Chance)) + " to get it within your stop."
	}
	if l.Question != nil {
		return text + " Find out first: " + lower(l.Question.Title) + " (worth " + tied(amount(&l.Question.Worth, l.Home)) + ")."
	}
	return text + " Nothing left to ask would change the decision."
}

// rankingNotes says what the columns mean and how the lots divide.
func (p *printer) rankingNotes(lots []Lot) {
	if len(lots) == 0 {
		return
	}
	p.blank()
	p.para(faint, "", "", "Gain: the worth less all that it costs, on average, at the price asked; at an auction, by bidding up to the stop and no further, "+
		"those counted in which others bid more. Risky: it pays on average, but loses more often than you tolerate. "+
		"Stop at: as lotgauge appraise LISTING says. Loses: how many of 100 such purchases at what is asked now.")
	p.blank()
	p.para(plain, "", "", verdicts(lots))
}

// verdicts counts the lots by what is to be said of them.
func verdicts(lots []Lot) string {
	count := map[valuation.Verdict]int{}
	open := 0 // no price is asked that a verdict could be about
	for i := range lots {
		if v := lots[i].Verdict; lots[i].Ask == nil && v != valuation.WalkAway && v != valuation.Unpriceable {
			open++
		} else {
			count[v]++
		}
	}
	var out []string
	for _, v := range []struct {
		of   valuation.Verdict
		what string
	}{
		{valuation.Buy, "careful as asked"}, {valuation.Marginal, "paying on average as asked"}, {valuation.TooDear, "too dear as asked"},
		{valuation.WalkAway, "to walk away from"}, {valuation.Unpriceable, "without a figure"},
	} {
		if n := count[v.of]; n > 0 {
			out = append(out, fmt.Sprintf("%d %s", n, v.what))
		}
	}
	if open > 0 {
		out = append(out, fmt.Sprintf("%d without a price asked", open))
	}
	return counted(len(lots), "listing") + ": " + strings.Join(out, ", ") + "."
}
