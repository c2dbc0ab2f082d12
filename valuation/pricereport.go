package valuation

import (
	"encoding/json"
	"io"
	"time"
)

// PriceReport is all that is known of the price of one item on a day. Money is
// in Currency, the home currency, but for what a row itself says.
type PriceReport struct {
	Format        int         `json:"format"`
	Item          string      `json:"item"`
	Title         string      `json:"title"` // "" if no family knows the item
	Date          string      `json:"date"`
	Currency      string      `json:"currency"`
	Demonstration bool        `json:"demonstration"`
	Model         bool        `json:"model"`
	Grade         string      `json:"grade"` // of a model: that which prices are brought to
	Guide         *Money      `json:"guide"` // null where there is none
	Sell          *PriceRange `json:"sell"`  // what one brings; null where nothing is known
	Buy           *PriceRange `json:"buy"`   // what one costs, postage in
	Rows          []PriceRow  `json:"rows"`  // oldest first
	SetAside      int         `json:"set_aside"`
	Later         int         `json:"later"` // rows dated after the day, not used
	Trend         PriceTrend  `json:"trend"`
	Find          PriceFind   `json:"find"`
}

// PriceRow is a row of the price table and what was done to it.
type PriceRow struct {
	Line     int       `json:"line"`
	Day      time.Time `json:"-"`
	Date     string    `json:"date"`
	Kind     string    `json:"kind"`
	Grade    string    `json:"grade"`
	Lacking  string    `json:"lacking"`
	Price    Money     `json:"price"` // for the whole row, in the row's currency
	Postage  Money     `json:"postage"`
	Currency string    `json:"currency"`
	Qty      int       `json:"qty"`
	Source   string    `json:"source"`
	Note     string    `json:"note"`
	// Each is the one before made comparable: one piece in the home currency, by
	// the rate of the row's day; then brought from asked to paid, and to a sound
	// one at the reference grade.
	Rate     Share  `json:"rate"` // home units for one of the row's currency
	RateDate string `json:"rate_date"`
	Home     Money  `json:"home"`
	Paid     Share  `json:"paid"`   // what is paid of what is asked; 1 for what was sold
	Factor   Share  `json:"factor"` // that the price is divided by: grade and what was lacking
	Sound    Money  `json:"sound"`
	Weight   Share  `json:"weight"`
	Score    Share  `json:"score"`     // modified z-score among the rows; 0 with fewer than 5
	SetAside string `json:"set_aside"` // "", "price", "postage" (for buying only)
}

// What a row is set aside for.
const (
	AsideForPrice   = "price"
	AsideForPostage = "postage"
)

// PriceTrend is how the price moves in a year, 0.05 for 5% up: see
// [prices.Trend]. While Lacking is above 0 the rates are 0 and say nothing.
type PriceTrend struct {
	Rate       Share `json:"rate"`
	Low        Share `json:"low"`
	High       Share `json:"high"`
	Confidence Share `json:"confidence"`
	Rows       int   `json:"rows"`
	Lacking    int   `json:"lacking"` // rows that are wanting for a trend
}

// PriceFind is how hard it is to find one: see [prices.Scarcity].
type PriceFind struct {
	Sightings int   `json:"sightings"`
	Days      int   `json:"days"` // that they are counted over
	Within    int   `json:"within_days"`
	Chance    Share `json:"chance"` // of finding one in that time
	Scarce    bool  `json:"scarce"`
}

// WriteJSON writes the report, indented.
func (r *PriceReport) WriteJSON(w io.Writer) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(true)
	enc.SetIndent("", "  ")
	return enc.Encode(r)
}
