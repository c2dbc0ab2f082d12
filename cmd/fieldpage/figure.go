package main

import (
	"lotgauge/valuation"
)

// figureView is an appraisal as the page shows it. Amounts are decimal text; a
// bid is in BidCurrency, everything else in Currency. Lists are never null.
type figureView struct {
	Verdict     string         `json:"verdict"`
	Reasons     []string       `json:"reasons"`
	Currency    string         `json:"currency"`
	BidCurrency string         `json:"bid_currency"`
	Stop        *bidView       `json:"stop"`    // null: no bid will do, or no figure
	Careful     *bidView       `json:"careful"` // likewise
	Ask         *askView       `json:"ask"`
	Worth       *worthView     `json:"worth"` // null where a price is missing
	Tolerance   float64        `json:"tolerance"`
	Draws       int            `json:"draws"`
	Variants    []chanceView   `json:"variants"`
	Points      []beliefView   `json:"points"`
	Symptoms    []chanceView   `json:"symptoms"`
	Questions   []questionView `json:"questions"`
	Rules       []ruleView     `json:"rules"`
	Warnings    []string       `json:"warnings"`
	Missing     []missingView  `json:"missing"`
	Condition   float64        `json:"condition"`
	Coverage    float64        `json:"coverage"`
}

type bidView struct {
	Bid    string  `json:"bid"`
	Landed string  `json:"landed"` // what it comes to in the end
	Loss   float64 `json:"loss"`   // chance of losing money at it
}

type askView struct {
	Landed string     `json:"landed"`
	Total  string     `json:"total"`
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
	Title  string  `json:"title"`
	Chance float64 `json:"chance"`
}

type beliefView struct {
	ID      string    `json:"id"`
	Applies float64   `json:"applies"`
	States  []float64 `json:"states"` // in the family's order
}

// questionView is something to find out. Gain is what knowing it is worth less
// the time that it takes at the stall.
type questionView struct {
	Kind    string   `json:"kind"`
	ID      string   `json:"id"`
	Title   string   `json:"title"`
	How     string   `json:"how"`
	Ask     string   `json:"ask"`
	See     []string `json:"see"`
	Minutes float64  `json:"minutes"`
	Worth   string   `json:"worth"`
	Gain    float64  `json:"gain"`
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

func newFigure(a *valuation.Appraisal, s *valuation.Settings) *figureView {
	p := &a.Purchase
	v := &figureView{
		Verdict: verdicts[a.Reading.Verdict], Reasons: a.Reading.Reasons,
		Currency: a.Currency, BidCurrency: p.Currency,
		Stop:    newBid(p.BreakEvenBid, p.BreakEvenLanded, p.BreakEvenLoss),
		Careful: newBid(p.CarefulBid, p.CarefulLanded, p.CarefulLoss),
		Ask:     newAsk(p), Tolerance: float64(p.Tolerance), Draws: a.Draws,
		Variants: chances(a.Variants), Symptoms: chances(a.Symptoms),
		Condition: float64(a.Score.Condition.Mean), Coverage: float64(a.Score.Coverage),
		Points: []beliefView{}, Questions: []questionView{}, Rules: []ruleView{}, Warnings: []string{}, Missing: []missingView{},
	}
	if v.Reasons == nil {
		v.Reasons = []string{}
	}
	if w := a.Worth; w != nil {
		v.Worth = &worthView{Mean: w.Mean.Text(), P10: w.P10.Text(), P90: w.P90.Text()}
	}
	for i := range a.Points {
		v.Points = append(v.Points, newBelief(&a.Points[i]))
	}
	for i := range a.Questions {
		v.Questions = append(v.Questions, newQuestion(&a.Questions[i], s.StallRate))
	}
	for _, r := range a.Rules {
		v.Rules = append(v.Rules, ruleView{Level: r.Level, Text: r.Text})
	}
	for _, w := range a.Reading.Warnings {
		v.Warnings = append(v.Warnings, w.Summary)
	}
	for _, m := range a.Reading.Missing {
		v.Missing = append(v.Missing, missingView{Title: m.Title, Row: m.Row})
	}
	return v
}

func newBid(bid, landed *valuation.Money, loss *valuation.Share) *bidView {
	if bid == nil || landed == nil || loss == nil {
		return nil
	}
	return &bidView{Bid: bid.Text(), Landed: landed.Text(), Loss: float64(*loss)}
}

func newAsk(p *valuation.Purchase) *askView {
	if p.Ask == nil || p.Landed == nil || p.Total == nil {
		return nil
	}
	v := &askView{Landed: p.Landed.Text(), Total: p.Total.Text(), Lines: []lineView{}}
	if p.LossChance != nil {
		loss := float64(*p.LossChance)
		v.Loss = &loss
	}
	for _, l := range p.Lines {
		v.Lines = append(v.Lines, lineView{Title: l.Title, Amount: l.Amount.Text(), Memo: l.Memo})
	}
	return v
}

func newBelief(p *valuation.PointBelief) beliefView {
	b := beliefView{ID: p.ID, Applies: float64(p.Applies)}
	for _, s := range p.States {
		b.States = append(b.States, float64(s.Chance))
	}
	return b
}

func newQuestion(q *valuation.Question, stallRate float64) questionView {
	worth, _ := q.Worth.Float64()
	return questionView{
		Kind: q.Kind, ID: q.ID, Title: q.Title, How: q.How, Ask: q.Ask[language], See: q.See,
		Minutes: q.Minutes, Worth: q.Worth.Text(), Gain: worth - q.Minutes/60*stallRate,
	}
}

func chances(from []valuation.Chance) []chanceView {
	out := []chanceView{}
	for _, c := range from {
		out = append(out, chanceView{ID: c.ID, Title: c.Title, Chance: float64(c.Chance)})
	}
	return out
}
