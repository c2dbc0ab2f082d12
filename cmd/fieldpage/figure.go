package main

import (
	"lotgauge/valuation"
)

// figureView is where a find stands, as the page shows it. Amounts are decimal
// text; a bid is in BidCurrency, everything else in Currency. Lists are never
// null.
type figureView struct {
	Verdict     string        `json:"verdict"`
	Reasons     []string      `json:"reasons"`
	Currency    string        `json:"currency"`
	BidCurrency string        `json:"bid_currency"`
	Stop        *bidView      `json:"stop"`    // null: no bid will do, or no figure
	Careful     *bidView      `json:"careful"` // likewise
	Ask         *askView      `json:"ask"`
	Worth       *worthView    `json:"worth"` // null where a price is missing
	Tolerance   float64       `json:"tolerance"`
	Draws       int           `json:"draws"`
	Outlook     string        `json:"outlook"`
	Next        *checkView    `json:"next"`   // null where nothing pays
	Checks      []checkView   `json:"checks"` // all that are left here, best first
	Absent      []string      `json:"absent"` // ids of points that the model does not have
	Variants    []chanceView  `json:"variants"`
	Readings    []readingView `json:"readings"`
	Rules       []ruleView    `json:"rules"`
	Warnings    []string      `json:"warnings"`
	Missing     []missingView `json:"missing"`
}

type bidView struct {
	Bid    string  `json:"bid"`
	Landed string  `json:"landed"` // what it comes to in the end
	Loss   float64 `json:"loss"`   // chance of losing money at it
}

type askView struct {
	Landed string     `json:"landed"`
	Loss   *float64   `json:"loss"`
	Lines  []lineView `json:"lines"`
}

type lineView struct {
	Title  string `json:"title"`
	Amount string `json:"amount"`
	Memo   bool   `json:"memo"`
}

type worthView struct {
	Mean string `json:"mean"`
	P10  string `json:"p10"`
	P90  string `json:"p90"`
}

type chanceView struct {
	ID     string  `json:"id"`
	Chance float64 `json:"chance"`
}

// readingView is a reading and what it is taken for.
type readingView struct {
	Point   string `json:"point"`
	Title   string `json:"title"` // of the point
	Reading string `json:"reading"`
	Taken   string `json:"taken"` // "" where a sound one may read anything
	Far     bool   `json:"far"`   // from what any state reads: it is rather a slip
}

type ruleView struct {
	Level string `json:"level"`
	Text  string `json:"text"`
}

type missingView struct {
	Title string `json:"title"`
	Row   string `json:"row"`
}

// verdicts are the page's words for what the headline says.
var verdicts = map[valuation.Verdict]string{
	valuation.Unpriceable: "unpriceable",
	valuation.WalkAway:    "walk-away",
	valuation.TooDear:     "too-dear",
	valuation.Marginal:    "marginal",
	valuation.Buy:         "buy",
}

func newFigure(c *course) *figureView {
	s := c.inspection.Standing()
	p := &s.Purchase
	v := &figureView{
		Verdict: verdicts[s.Verdict], Reasons: reasons(s),
		Currency: s.Currency, BidCurrency: p.Currency,
		Stop:    newBid(p.BreakEvenBid, p.BreakEvenLanded, p.BreakEvenLoss),
		Careful: newBid(p.CarefulBid, p.CarefulLanded, p.CarefulLoss),
		Ask:     newAsk(p), Tolerance: float64(p.Tolerance), Draws: c.draws,
		Rules: []ruleView{}, Warnings: c.warnings, Missing: []missingView{},
	}
	if w := s.Worth; w != nil {
		v.Worth = &worthView{Mean: w.Mean.Text(), P10: w.P10.Text(), P90: w.P90.Text()}
	}
	for _, r := range s.Rules {
		v.Rules = append(v.Rules, ruleView{Level: r.Level, Text: r.Text})
	}
	for _, m := range s.Missing {
		v.Missing = append(v.Missing, missingView{Title: m.Title, Row: m.Row})
	}
	v.Readings = readings(c.inspection)
	v.look(c.inspection, c.Find.Family, c.points)
	return v
}

// reasons are why to walk away, in words.
func reasons(s *valuation.Standing) []string {
	out := []string{}
	for _, r := range s.Reasons {
		out = append(out, r.Text)
	}
	return out
}

// readings are what was measured so far.
func readings(n *valuation.Inspection) []readingView {
	out := []readingView{}
	for _, f := range n.Listing().Findings {
		key := valuation.CheckPoint + ":" + f.Point
		if taken, ok := n.Taken(key, f.Reading); ok {
			out = append(out, readingView{Point: f.Point, Title: taken.Title, Reading: f.Reading, Taken: taken.String(), Far: taken.Implausible})
		}
	}
	return out
}

func newBid(bid, landed *valuation.Money, loss *valuation.Share) *bidView {
	if bid == nil || landed == nil || loss == nil {
		return nil
	}
	return &bidView{Bid: bid.Text(), Landed: landed.Text(), Loss: float64(*loss)}
}

func newAsk(p *valuation.Purchase) *askView {
	if p.Ask == nil || p.Landed == nil {
		return nil
	}
	v := &askView{Landed: p.Landed.Text(), Lines: []lineView{}}
	if p.LossChance != nil {
		loss := float64(*p.LossChance)
		v.Loss = &loss
	}
	for _, l := range p.Lines {
		v.Lines = append(v.Lines, lineView{Title: l.Title, Amount: l.Amount.Text(), Memo: l.Memo})
	}
	return v
}
