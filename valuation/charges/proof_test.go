package charges

import (
	"testing"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// The inverse is exact on a ladder of one minor unit for budgets up to a
// million: its answer fits, and nothing above it does. The latter is proved by
// interval arithmetic: a stretch of bids is done with once no bill on it can be
// within the budget, and otherwise is halved, down to single bids. The proof
// shares nothing with the runs that the inverse searches.
func TestHighestUpToAMillion(t *testing.T) {
	const sheets = 6000
	m := newMaker(7, 100_000_000)
	halved, given := 0, 0
	for n := range sheets {
		s := m.sheet(8)
		s.Currency = "GBP"
		c := Conversion{Home: "GBP"}
		budget := m.hole(s, c)
		bid, ok := s.Highest(budget, c)
		if !ok {
			bid = decimal.Decimal{}
		} else if landed := s.Landed(bid, c); landed.GreaterThan(budget) {
			t.Fatalf("sheet %d: %s\nbudget %s: %s lands at %s", n, describe(s), budget, bid, landed)
		}
		p := prover{Sheet: s, c: c, budget: budget}
		unit := s.Currency.Unit()
		if found, ok := p.fitting(count(bid, unit)+1, count(budget, unit)); ok {
			t.Fatalf("sheet %d: %s\nbudget %s: got %s, but %s fits too", n, describe(s), budget, bid, unit.Mul(decimal.NewFromInt(found)))
		}
		if p.steps > 1 {
			halved++
		}
		if p.steps > proofSteps {
			given++
		}
	}
	t.Logf("%d proofs had to halve a stretch, %d were given up", halved, given)
	if halved < sheets/20 || given > sheets/200 {
		t.Error("the sheets are too tame, or the proof is too weak")
	}
}

// hole is a budget a little below what a bid at one of the drops costs, so that
// bids on both sides of it may fit; or any budget.
func (m *maker) hole(s *Sheet, c Conversion) decimal.Decimal {
	drops := s.drops()
	if len(drops) == 0 {
		return m.units(s, m.scale)
	}
	bid := pick(m, drops...).bound.Div(decimal.NewFromInt(1 + m.Int64N(2)))
	share := decimal.New(9500+m.Int64N(500), -4)
	return decimal.Min(s.Landed(bid, c).Mul(share).Truncate(2), decimal.New(m.scale, -2))
}

// proofSteps bounds a proof. A cost that stays just above the budget over
// many bids would take millions.
const proofSteps = 3000

func count(d, unit decimal.Decimal) int64 {
	n, _ := d.QuoRem(unit, 0)
	return n.IntPart()
}

type prover struct {
	*Sheet
	c      Conversion
	budget decimal.Decimal
	steps  int
}

// fitting is a bid from lo to hi, in minor units, that lands within the budget.
func (p *prover) fitting(lo, hi int64) (int64, bool) {
	if lo > hi || p.steps > proofSteps {
		return 0, false
	}
	p.steps++
	unit := p.Currency.Unit()
	least := p.least(interval{unit.Mul(decimal.NewFromInt(lo)), unit.Mul(decimal.NewFromInt(hi))})
	switch {
	case p.land(least, p.c).GreaterThan(p.budget):
		return 0, false
	case lo == hi:
		landed := p.Landed(unit.Mul(decimal.NewFromInt(lo)), p.c)
		return lo, landed.LessThanOrEqual(p.budget)
	}
	middle := lo + (hi-lo)/2
	if bid, ok := p.fitting(lo, middle); ok {
		return bid, true
	}
	return p.fitting(middle+1, hi)
}

// An interval holds an amount between two bounds, both included.
type interval struct{ lo, hi decimal.Decimal }

func (a interval) plus(b interval) interval { return interval{a.lo.Add(b.lo), a.hi.Add(b.hi)} }

// least is a total that no bill on the bids falls below.
func (p *prover) least(bids interval) decimal.Decimal {
	lines := []interval{bids}
	total := bids.lo
	for i := range p.Charges {
		line := enclose(&p.Charges[i], lines)
		lines = append(lines, line)
		if !p.Charges[i].Memo {
			total = total.Add(line.lo)
		}
	}
	return total
}

// enclose is an interval that the charge cannot leave while the lines before
// stay in theirs.
func enclose(c *Charge, lines []interval) interval {
	never, always := whenEnclosed(c.When, lines)
	if never {
		return interval{}
	}
	line := rounded(c, sumIntervals(lines, c.On))
	if c.Min != nil {
		line = interval{decimal.Max(line.lo, *c.Min), decimal.Max(line.hi, *c.Min)}
	}
	if c.Max != nil {
		line = interval{decimal.Min(line.lo, *c.Max), decimal.Min(line.hi, *c.Max)}
	}
	if !always || c.WaivedUpTo != nil && line.lo.LessThanOrEqual(*c.WaivedUpTo) {
		line.lo = decimal.Decimal{}
	}
	return line
}

// whenEnclosed says whether a condition cannot hold, and whether it must.
func whenEnclosed(w *When, lines []interval) (never, always bool) {
	if w == nil {
		return false, true
	}
	base := sumIntervals(lines, w.On)
	if w.Above != nil && base.hi.LessThanOrEqual(*w.Above) || w.UpTo != nil && base.lo.GreaterThan(*w.UpTo) {
		return true, false
	}
	always = (w.Above == nil || base.lo.GreaterThan(*w.Above)) && (w.UpTo == nil || base.hi.LessThanOrEqual(*w.UpTo))
	return false, always
}

// rounded encloses the charge after rounding, which keeps order.
func rounded(c *Charge, base interval) interval {
	if c.Amount != nil {
		amount := c.Rounding.RoundDecimal(*c.Amount, c.RoundTo)
		return interval{amount, amount}
	}
	zero := decimal.Decimal{}
	if c.Allowance != nil {
		base = interval{base.lo.Sub(*c.Allowance), base.hi.Sub(*c.Allowance)}
	}
	base = interval{decimal.Max(base.lo, zero), decimal.Max(base.hi, zero)}
	if !c.Whole {
		return roundedRatios(c, sliced(c.Tiers, base.lo), sliced(c.Tiers, base.hi))
	}
	var parts []interval
	from := zero
	for _, t := range c.Tiers {
		lo, hi := decimal.Max(base.lo, from), base.hi
		if t.Bounded {
			hi = decimal.Min(hi, t.UpTo)
		}
		if from = t.UpTo; lo.LessThanOrEqual(hi) {
			parts = append(parts, roundedRatios(c, t.Rate.MulDecimal(lo), t.Rate.MulDecimal(hi)))
		}
	}
	out := parts[0]
	for _, part := range parts {
		out = interval{decimal.Min(out.lo, part.lo), decimal.Max(out.hi, part.hi)}
	}
	return out
}

func roundedRatios(c *Charge, lo, hi money.Ratio) interval {
	return interval{c.Rounding.Round(lo, c.RoundTo), c.Rounding.Round(hi, c.RoundTo)}
}

func sumIntervals(lines []interval, on []int) interval {
	var total interval
	for _, i := range on {
		total = total.plus(lines[i])
	}
	return total
}
