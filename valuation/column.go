package valuation

import (
	"lotgauge/valuation/charges"
	"lotgauge/valuation/money"

	"github.com/shopspring/decimal"
)

// column is how the expected worth comes about, from the price of a sound one:
// what is taken off for each reason, under the route chosen in each case.
type column struct {
	sound   float64 // price of a sound one at the reference grade
	wear    float64 // grade below the reference
	apart   float64 // what buyers price apart from grade
	selling float64 // selling charges
	remedy  cost
	instead float64 // kept or sold in parts instead: against the sound price
}

// add takes a handful of cases, each with the worth of its chosen route.
func (c *column) add(d *deal, b *bill, best *choice) {
	for k, weight := range d.weights() {
		c.sound += float64(weight * b.base[k])
		switch best.route[k] {
		case sellRestored:
			c.sold(d, laneRestored, k, b)
			c.remedied(weight, d.tally[allParts][k], d.tally[allSpend][k], d.tally[allTime][k])
		case sellRunning:
			c.sold(d, laneRunning, k, b)
			c.remedied(weight, d.tally[runParts][k], d.tally[runSpend][k], d.tally[runTime][k])
		case sellAsFound:
			c.sold(d, laneFound, k, b)
		default:
			c.instead += float64(weight * (best.worth[k] - b.base[k]))
		}
	}
}

// sold takes what a sale in a lane's shape loses in case k.
func (c *column) sold(d *deal, lane, k int, b *bill) {
	weight, graded := d.weights()[k], float64(b.base[k]*d.graded[lane][k])
	gross := d.gross(lane, k, b)
	c.wear += float64(weight * (b.base[k] - graded))
	c.apart += float64(weight * (graded - gross))
	c.selling += float64(weight * (gross - d.l.sell.net(gross)))
}

func (c *column) remedied(weight, parts, spend, time float64) {
	c.remedy.parts += float64(weight * parts)
	c.remedy.spend += float64(weight * spend)
	c.remedy.time += float64(weight * time)
}

// stepWriter lays out steps so that the printed amounts add up: it rounds the
// running total and prints differences.
type stepWriter struct {
	home  money.Currency
	total float64
	shown decimal.Decimal
	steps []Step
}

func (w *stepWriter) take(id, title string, change float64) {
	w.reach(id, title, w.total+change)
}

// reach adds the step that leads to a total.
func (w *stepWriter) reach(id, title string, total float64) {
	w.total = total
	w.exact(id, title, money.FromFloat(total, w.home).Sub(w.shown))
}

// exact adds a step of an exact amount; a step of nothing is left out.
func (w *stepWriter) exact(id, title string, change decimal.Decimal) {
	if change.IsZero() {
		return
	}
	w.shown = w.shown.Add(change)
	w.steps = append(w.steps, Step{ID: id, Title: title, Amount: Money{atUnit(change, w.home)}})
}

func (w *stepWriter) sum(id, title string) {
	w.steps = append(w.steps, Step{ID: id, Title: title, Amount: Money{atUnit(w.shown, w.home)}, Sum: true})
}

// steps is the column from the price of a sound one to the expected worth.
// What the draws add or take against mean prices stands with the selling
// charges, whose bends are its only cause.
func (c *column) steps(home money.Currency, grade string, worth float64) *stepWriter {
	w := &stepWriter{home: home}
	w.take("sound", "a sound one, "+spoken(grade), c.sound)
	w.take("wear", "wear that stays after the work", -c.wear)
	w.take("apart", "what buyers price apart (box, repaint …)", -c.apart)
	w.take("parts", "parts to buy", -c.remedy.parts)
	w.take("consumables", "consumables", -c.remedy.spend)
	w.take("bench", "time at the bench", -c.remedy.time)
	w.take("instead", "less by keeping it or selling it in parts", c.instead)
	w.reach("selling", "charges on selling it", worth)
	w.sum("worth", "what it is worth to you")
	return w
}

// unsold is the column where no price of a sound one is known, and none is
// needed: it is kept or sold in parts.
func unsold(home money.Currency, worth float64) *stepWriter {
	w := &stepWriter{home: home}
	w.reach("instead", "kept or sold in parts", worth)
	w.sum("worth", "what it is worth to you")
	return w
}

// bid goes on from the worth to the highest bid whose landed cost it covers.
func (w *stepWriter) bid(p *purchase, bid decimal.Decimal) {
	landed := p.landed(bid)
	w.exact("unused", "left over below the next bid", landed.Sub(w.shown))
	bill := p.sheet.Apply(bid)
	left := landed
	for _, line := range bill.Lines[1:] {
		if line.Memo || line.Amount.IsZero() {
			continue
		}
		amount := p.plain(line.Amount)
		left = left.Sub(amount)
		w.exact(line.ID, lower(line.Title), amount.Neg())
	}
	w.exact("conversion", "currency margin and rounding", p.plain(bid).Sub(left))
	w.sum("bid", "the bid at which to stop")
	if p.sheet.Currency != w.home {
		w.steps = append(w.steps, Step{
			ID: "bid-in-sheet", Title: "which is a bid of", Sum: true,
			Amount: Money{atUnit(bid, p.sheet.Currency)}, Currency: string(p.sheet.Currency),
		})
	}
}

// purchase is the buying side: a sheet and what its currency is worth.
type purchase struct {
	sheet *charges.Sheet
	conv  charges.Conversion
}

// landed is what a bid costs in the end, in the home currency.
func (p *purchase) landed(bid decimal.Decimal) decimal.Decimal {
	return p.sheet.Landed(bid, p.conv)
}

// plain is an amount of the sheet in the home currency without the margin.
func (p *purchase) plain(d decimal.Decimal) decimal.Decimal {
	return money.HalfUp.Round(p.conv.Rate.MulDecimal(d), p.conv.Home.Unit())
}

// highest is the highest bid whose landed cost is within the budget, nil where
// there is none.
func (p *purchase) highest(budget float64) *decimal.Decimal {
	if budget <= 0 {
		return nil
	}
	bid, ok := p.sheet.Highest(money.FloorFloat(budget, p.conv.Home), p.conv)
	if !ok {
		return nil
	}
	return &bid
}
