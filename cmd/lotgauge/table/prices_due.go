package table

import (
	"fmt"
	"io"
	"time"

	"lotgauge/valuation"
)

// Due prints the prices that are worth looking up, as of a day.
func Due(w io.Writer, due []valuation.DuePrice, home string, listings int, on time.Time, demonstration bool, o Options) error {
	p := newPrinter(o)
	p.invented(demonstration)
	if demonstration {
		p.blank()
	}
	worthwhile, idle := due, 0
	for i, d := range due {
		if !d.Unpriced && !d.Gain.IsPositive() {
			worthwhile, idle = due[:i], len(due)-i
			break
		}
	}
	p.para(strong, "", "", "Prices to look up next, over "+counted(listings, "listing"))
	if len(worthwhile) == 0 {
		p.note(plain, "None: no better price would change a decision.")
	}
	shown := worthwhile[:p.most(shownDue, len(worthwhile))]
	p.dueRows(shown, home, on)
	if left := len(worthwhile) - len(shown); left > 0 {
		p.note(faint, counted(left, "more price")+" not shown; --full shows all.")
	}
	if len(worthwhile) > 0 {
		p.blank()
		p.para(faint, "", "", "Worth: what knowing the price exactly before bidding would bring on average, over all the listings together. "+
			"In: in how many of them it matters. Newest: age of the newest row.")
	}
	if idle > 0 {
		p.para(faint, "", "", counted(idle, "other price")+" would change nothing.")
	}
	return p.writeTo(w)
}

// shownDue is how many prices are printed where not all are asked for.
const shownDue = 20

func (p *printer) dueRows(due []valuation.DuePrice, home string, on time.Time) {
	g := &grid{numbers: true, columns: []column{
		{right: true}, {head: "Item", flex: true}, {head: "Worth " + home, right: true}, {head: "In", right: true},
		{head: "Rows", right: true}, {head: "Newest", right: true, spare: 1},
	}}
	worths := aligned(each(due, func(d valuation.DuePrice) string { return figure(&d.Gain) }))
	for i := range due {
		d := &due[i]
		t := plain
		if d.Unpriced {
			worths[i], t = "no price", bad
		}
		g.add(words(fmt.Sprintf("%d.", i+1)), words(d.Item), toned(t, worths[i]), words(fmt.Sprint(d.Listings)),
			words(fmt.Sprint(d.Rows)), words(age(d.Newest, on)))
		if d.Title != d.Item {
			g.note(clipped(d.Title, nameRunes))
		}
	}
	p.grid(g)
}

// age says how long ago a day is, "-" for none.
func age(day, on time.Time) string {
	if day.IsZero() {
		return "-"
	}
	switch days := int(on.Sub(day).Hours() / 24); {
	case days == 1:
		return "1 day"
	case days < 60:
		return fmt.Sprintf("%d days", max(days, 0))
	default:
		return fmt.Sprintf("%d months", days/30)
	}
}
