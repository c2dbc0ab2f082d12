package main

import (
	"encoding/json"
	"io"
	"math"
	"strconv"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
)

// An explanationJSON is an explanation as JSON. Money is in currency.
type explanationJSON struct {
	Format        int           `json:"format"`
	Title         string        `json:"title"`
	Family        string        `json:"family"`
	Subject       string        `json:"subject"`
	Currency      string        `json:"currency"`
	Demonstration bool          `json:"demonstration"`
	Answers       []answerJSON  `json:"answers"`
	Moves         []moveJSON    `json:"moves"`
	Prices        []pricingJSON `json:"prices"`
}

// answerJSON is one answer, before any finding and with all of them.
type answerJSON struct {
	ID     string          `json:"id"`
	Answer string          `json:"answer"`
	Usual  valuation.Share `json:"usual"`
	Now    valuation.Share `json:"now"`
}

// moveJSON is what one finding did to the odds of each answer, in the order of
// the answers.
type moveJSON struct {
	Finding string            `json:"finding"`
	Value   string            `json:"value"`
	By      string            `json:"by"`
	Factors []ratio           `json:"factors"` // null where it settled the answer: no finite factor does
	Chances []valuation.Share `json:"chances"` // from then on
}

// pricingJSON is what a price rests on.
type pricingJSON struct {
	Item  string                `json:"item"`
	Price *valuation.PriceRange `json:"price"`
	Guide string                `json:"guide,omitempty"` // with its currency
	Rows  []sightingJSON        `json:"rows"`
}

// sightingJSON is one row of the price table.
type sightingJSON struct {
	Line     int             `json:"line"`
	Date     string          `json:"date"`
	Price    valuation.Money `json:"price"`
	Counts   valuation.Money `json:"counts"` // as it counts: as a sound one, what was asked after its factor
	Grade    string          `json:"grade,omitempty"`
	Lacking  string          `json:"lacking,omitempty"`
	Asked    bool            `json:"asked"`
	Weight   valuation.Share `json:"weight"`
	SetAside bool            `json:"set_aside"`
}

func writeExplanation(w io.Writer, listing *valuation.Listing, x *valuation.Explanation, guides table.Guide, demonstration bool) error {
	out := explanationJSON{
		Format: 1, Title: listing.Title, Family: listing.Family, Subject: x.ID, Currency: x.Currency,
		Demonstration: demonstration, Moves: []moveJSON{}, Prices: []pricingJSON{},
	}
	for i, answer := range x.Answers {
		out.Answers = append(out.Answers, answerJSON{x.IDs[i], answer, valuation.Share(x.Usual[i]), valuation.Share(x.Now[i])})
	}
	for i := range x.Moves {
		out.Moves = append(out.Moves, moveOf(&x.Moves[i]))
	}
	for i := range x.Parts {
		n := &x.Parts[i]
		out.Prices = append(out.Prices, pricingJSON{n.ID, n.Price, guides[n.ID], sightingsOf(n.Seen)})
	}
	for i := range x.Models {
		m := &x.Models[i]
		out.Prices = append(out.Prices, pricingJSON{m.ID, &m.Price, guides[m.ID], sightingsOf(m.Seen)})
	}
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(out)
}

func moveOf(m *valuation.Move) moveJSON {
	out := moveJSON{Finding: m.Finding.Title, Value: m.Finding.Value, By: m.Finding.By}
	for i := range m.Factor {
		out.Factors = append(out.Factors, ratio(m.Factor[i]))
		out.Chances = append(out.Chances, valuation.Share(m.Chance[i]))
	}
	return out
}

func sightingsOf(seen []valuation.Sighting) []sightingJSON {
	out := []sightingJSON{}
	for _, s := range seen {
		out = append(out, sightingJSON{s.Line, s.Day.Format("2006-01-02"), s.Price, s.Counts, s.Grade, s.Lacking, s.Asked, valuation.Share(s.Weight), s.SetAside})
	}
	return out
}

// A ratio is a number of any size, in JSON with as many digits as agree on every
// platform, and null where it is not finite.
type ratio float64

// MarshalJSON implements json.Marshaler.
func (r ratio) MarshalJSON() ([]byte, error) {
	if f := float64(r); !math.IsInf(f, 0) && !math.IsNaN(f) {
		return strconv.AppendFloat(nil, f, 'g', 12, 64), nil
	}
	return []byte("null"), nil
}
