package page

import (
	"fmt"

	"lotgauge/valuation"
)

// column is the way from the price of a sound one to the bid, line by line.
type column struct {
	Currency string
	Foreign  bool   // a line is in another currency
	Hammer   string // where bidding should end, and what bidding gains
	Lines    []columnLine
}

// A columnLine is a step with its bar: what it leaves of the sum before it.
type columnLine struct {
	Title    words
	Amount   string
	Currency string // where it is not the home currency
	Sum      bool
	Bar      *chart // nil where the amount is in another currency
}

func (m *maker) column() *column {
	steps := m.a.Reading.Steps
	if len(steps) == 0 {
		return nil
	}
	out := &column{Currency: clean(m.a.Currency), Hammer: m.hammer()}
	numbers := make([]string, len(steps))
	for i, s := range steps {
		numbers[i] = plain(&s.Amount)
	}
	numbers = aligned(numbers)
	spans := columnSpans(steps)
	across := columnScale(spans)
	for i, s := range steps {
		line := columnLine{Title: name(capital(s.Title)), Amount: numbers[i], Sum: s.Sum}
		if foreign(s) {
			line.Currency, out.Foreign = clean(s.Currency), true
		} else {
			line.Bar = m.columnBar(s, spans[i], across, i == 0)
		}
		out.Lines = append(out.Lines, line)
	}
	return out
}

// hammer says where the bidding should end, how likely that is at or below the
// bid at which to stop, and what bidding up to there gains; "" where unknown.
func (m *maker) hammer() string {
	x := m.a.Reading.Margin
	if x == nil || !x.AtHammer {
		return ""
	}
	near := "Bidding should end near " + m.bid(&x.Price)
	switch {
	case x.Chance == nil || x.Bidding == nil:
		return near + "; there the gain is " + m.money(&x.Amount) + " on average."
	case *x.Chance <= 0 || m.a.Purchase.BreakEvenBid == nil:
		return near + ", and hardly at or below your stop."
	}
	return near + ", but " + in100(*x.Chance) + " such auctions at or below your stop: bidding up to there gains " + m.money(x.Bidding) + " on average over all of them."
}

func foreign(s valuation.Step) bool { return s.Currency != "" }

// A columnSpan is the sum before a step and the sum after it.
type columnSpan struct{ before, after float64 }

// columnSpans runs through the steps. A sum stands on the ground.
func columnSpans(steps []valuation.Step) []columnSpan {
	spans := make([]columnSpan, len(steps))
	total := valuation.Money{}
	for i, s := range steps {
		switch {
		case foreign(s):
		case s.Sum:
			spans[i] = columnSpan{0, float(s.Amount)}
		default:
			before := float(total)
			total.Decimal = total.Add(s.Amount.Decimal)
			spans[i] = columnSpan{before, float(total)}
		}
	}
	return spans
}

func columnScale(spans []columnSpan) scale {
	s := scale{0, 0, 0.5, 99.5}
	for _, x := range spans {
		s.lo, s.hi = min(s.lo, x.before, x.after), max(s.hi, x.before, x.after)
	}
	return s
}

// hairline is the least width of a bar, in percent, for it to be seen.
const hairline = 0.4

func (m *maker) columnBar(s valuation.Step, x columnSpan, across scale, first bool) *chart {
	class, title := "down", fmt.Sprintf("From %s down to %s", whole(x.before), whole(x.after))
	switch {
	case s.Sum, first:
		class, title = "sum", "Up to "+whole(x.after)
	case x.after > x.before:
		class, title = "up", fmt.Sprintf("From %s up to %s", whole(x.before), whole(x.after))
	}
	c := m.chart("strip fall", title, s.Title, 14)
	c.line("ground", across.at(0), 0, across.at(0), 14)
	from, to := across.at(x.before), across.at(x.after)
	if to-from < hairline && from-to < hairline {
		to = from + hairline
	}
	c.rect(class, from, to, 2, 10)
	return c
}

// bill is what the ask costs in the end.
type bill struct {
	Ask, Sheet words
	Currency   string
	Lines      []billLine
	Total      string
	Landed     string
	Home       string
}

type billLine struct {
	Title  words
	Amount string
	Memo   bool
	Zero   bool
}

func (m *maker) bill() *bill {
	p := &m.a.Purchase
	if p.Ask == nil || p.Total == nil {
		return nil
	}
	b := &bill{Ask: words{Short: m.bid(p.Ask)}, Sheet: name(titleOr(p.SheetTitle, p.Sheet)), Currency: clean(p.Currency), Home: clean(m.a.Currency)}
	numbers := []string{plain(p.Total)}
	if p.Landed != nil {
		numbers = append(numbers, plain(p.Landed))
	}
	above := len(numbers)
	for _, l := range p.Lines {
		numbers = append(numbers, plain(&l.Amount))
	}
	numbers = aligned(numbers)
	b.Total = numbers[0]
	if p.Landed != nil {
		b.Landed = numbers[1]
	}
	for i, l := range p.Lines {
		b.Lines = append(b.Lines, billLine{
			Title: name(capital(titleOr(l.Title, l.ID))), Amount: numbers[above+i], Memo: l.Memo, Zero: l.Amount.IsZero(),
		})
	}
	return b
}
