package main

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"strconv"
	"strings"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// A rankedJSON is a row of a ranking as JSON. Margin and worth are in currency,
// what is within purchase in its own.
type rankedJSON struct {
	Rank          int              `json:"rank"`
	Listing       string           `json:"listing"`
	Title         string           `json:"title"`
	Family        string           `json:"family"`
	Date          string           `json:"date"`
	Demonstration bool             `json:"demonstration"`
	Verdict       string           `json:"verdict"` // buy, marginal, too-dear, walk-away, unpriced
	Currency      string           `json:"currency"`
	Margin        *valuation.Money `json:"margin"`     // null where no price is known or no figure is given
	MarginAt      string           `json:"margin_at"`  // ask, hammer or empty
	Gain          *valuation.Money `json:"gain"`       // what the rows are ranked by: the margin, or at an auction that of bidding up to the stop
	WinChance     *valuation.Share `json:"win_chance"` // at an auction, to get it at or below the stop
	Worth         *valuation.Money `json:"worth"`
	Coverage      valuation.Share  `json:"coverage"`
	Purchase      rankedPurchase   `json:"purchase"`
	Question      *rankedQuestion  `json:"question"` // null where none is worth asking
	Unpriced      []string         `json:"unpriced"`
}

// rankedPurchase is the buying side of a row.
type rankedPurchase struct {
	Currency     string           `json:"currency"`
	Price        *valuation.Money `json:"price"` // at which the margin is
	Ask          *valuation.Money `json:"ask"`
	LossChance   *valuation.Share `json:"loss_chance"` // at the ask
	CarefulBid   *valuation.Money `json:"careful_bid"`
	BreakEvenBid *valuation.Money `json:"break_even_bid"`
}

// rankedQuestion is the one most worth asking.
type rankedQuestion struct {
	Kind  string          `json:"kind"`
	ID    string          `json:"id"`
	Worth valuation.Money `json:"worth"`
}

func verdictName(v valuation.Verdict) string {
	switch v {
	case valuation.Buy:
		return "buy"
	case valuation.Marginal:
		return "marginal"
	case valuation.TooDear:
		return "too-dear"
	case valuation.WalkAway:
		return "walk-away"
	}
	return "unpriced"
}

// marginAt says what price a margin is held against, and that price.
func marginAt(m *valuation.Margin) (at string, price *valuation.Money) {
	switch {
	case m == nil:
		return "", nil
	case m.AtHammer:
		return "hammer", &m.Price
	}
	return "ask", &m.Price
}

// writeRankingJSON writes the rows as a JSON list, in their order.
func writeRankingJSON(w io.Writer, lots []table.Lot, demonstration bool) error {
	out := make([]rankedJSON, len(lots))
	for i := range lots {
		out[i] = rankedOf(i+1, &lots[i])
		out[i].Demonstration = demonstration
	}
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(out)
}

func rankedOf(rank int, l *table.Lot) rankedJSON {
	at, price := marginAt(l.Margin)
	r := rankedJSON{
		Rank: rank, Listing: l.Listing, Title: l.Title, Family: l.Family, Date: l.Date,
		Verdict: verdictName(l.Verdict), Currency: l.Home, MarginAt: at, Worth: l.Worth, Coverage: l.Coverage,
		Purchase: rankedPurchase{
			Currency: l.Currency, Price: price, Ask: l.Ask,
			LossChance: l.Loss, CarefulBid: l.Careful, BreakEvenBid: l.Stop,
		},
		Unpriced: l.Unpriced,
	}
	if l.Margin != nil {
		r.Margin, r.Gain, r.WinChance = &l.Margin.Amount, l.Gain(), l.Margin.Chance
	}
	if q := l.Question; q != nil {
		r.Question = &rankedQuestion{q.Kind, q.ID, q.Worth}
	}
	return r
}

// rankingHead names the columns of the CSV. Margin and worth are in currency,
// all bids in bid_currency; loss_chance is at the ask, gain what the rows are
// ranked by.
var rankingHead = []string{
	"rank", "listing", "title", "family", "date", "verdict", "margin", "worth", "currency", "margin_at",
	"price", "ask", "careful_bid", "break_even_bid", "bid_currency", "coverage", "loss_chance", "question", "question_worth",
	"unpriced", "demonstration", "gain", "win_chance",
}

// writeRankingCSV writes the rows as CSV, in their order. Numbers are plain;
// text is guarded.
func writeRankingCSV(w io.Writer, lots []table.Lot, demonstration bool) error {
	out := csv.NewWriter(w)
	_ = out.Write(rankingHead) // its error comes again below
	for i := range lots {
		l := &lots[i]
		at, price := marginAt(l.Margin)
		var margin, asking *valuation.Money
		question := ""
		var chance *valuation.Share
		if l.Margin != nil {
			margin, chance = &l.Margin.Amount, l.Margin.Chance
		}
		if l.Question != nil {
			question, asking = l.Question.Title, &l.Question.Worth
		}
		_ = out.Write([]string{
			strconv.Itoa(i + 1), guarded(l.Listing), guarded(l.Title), guarded(l.Family), l.Date, verdictName(l.Verdict),
			moneyCell(margin), moneyCell(l.Worth), l.Home, at, moneyCell(price), moneyCell(l.Ask), moneyCell(l.Careful),
			moneyCell(l.Stop), l.Currency, shareCell(&l.Coverage), shareCell(l.Loss), guarded(question), moneyCell(asking),
			guarded(strings.Join(l.Unpriced, " ")), strconv.FormatBool(demonstration),
			moneyCell(l.Gain()), shareCell(chance),
		})
	}
	out.Flush()
	return out.Error()
}

// guarded is a text for a cell of a spreadsheet: one that a spreadsheet would
// take for a formula begins with an apostrophe, and control characters are
// written out.
func guarded(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r\n", rune(s[0])) {
		s = "'" + s
	}
	return diag.Clean(s)
}

func moneyCell(m *valuation.Money) string {
	if m == nil {
		return ""
	}
	return m.Text()
}

// shareCell is a chance as a number from 0 to 1, as in JSON.
func shareCell(s *valuation.Share) string {
	if s == nil {
		return ""
	}
	text, err := s.MarshalJSON()
	if err != nil {
		return ""
	}
	return string(text)
}
