package page

import "lotgauge/valuation"

// worth is what it is worth by the best route, and how that is spread.
type worth struct {
	Mean, P10, P50, P90 string
	Error               string
	Draws               string
	Plot                *chart // nil where the draws are not known
	Caption             string
	Rows                []spreadRow
	Found               string // how often all parts are found
	Repairs             string
}

// spreadRow is one bar of the histogram, in its table.
type spreadRow struct{ From, To, Share string }

func (m *maker) worth() *worth {
	a := m.a
	if a.Worth == nil {
		return nil
	}
	w := &worth{
		Mean: m.money(&a.Worth.Mean), P10: plain(&a.Worth.P10), P50: m.money(&a.Worth.P50), P90: m.money(&a.Worth.P90),
		Error: m.money(&a.Worth.SE), Draws: counted(a.Draws, "draw", "draws"),
		Found: in100(a.AllPartsFound),
	}
	if a.RepairShare != nil {
		w.Repairs = percent(*a.RepairShare)
	}
	if bins := a.Reading.Worths; len(bins) > 0 {
		w.Plot = m.histogram(bins, w)
		w.Rows = m.spreadRows(bins)
		w.Caption = m.shading()
	}
	return w
}

// shading says what the hollow bars are.
func (m *maker) shading() string {
	p := &m.a.Purchase
	switch {
	case p.Landed != nil && p.LossChance != nil:
		return "Hollow: what is asked costs more than it turns out to be worth, " + in100(*p.LossChance) + " cases."
	case p.BreakEvenLanded != nil && p.BreakEvenLoss != nil:
		return "Hollow: the highest bid costs more than it turns out to be worth, " + in100(*p.BreakEvenLoss) + " cases."
	}
	return ""
}

func (m *maker) spreadRows(bins []valuation.Bin) []spreadRow {
	var ends []string
	for _, b := range bins {
		ends = append(ends, whole(b.From), whole(b.To))
	}
	ends = aligned(ends)
	out := make([]spreadRow, len(bins))
	for i, b := range bins {
		out[i] = spreadRow{ends[2*i], ends[2*i+1], percent(valuation.Share(b.Share))}
	}
	return out
}
