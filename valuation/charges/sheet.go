package charges

import (
	"time"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// Side says what a sheet is for. The zero Side is neither.
type Side uint8

// A Buy sheet adds charges to a hammer price, a Sell sheet takes charges off a
// sale price.
const (
	Buy Side = iota + 1
	Sell
)

// A Sheet is a list of charges on a first line. [Read] makes one from a
// document; one made in code has to keep what the fields say, since only Read
// checks it. Nothing changes a Sheet, so many goroutines may use one.
type Sheet struct {
	ID, Title string
	Side      Side
	Currency  money.Currency // of every amount on the sheet
	Rounding  money.Rounding // of the landed cost, and of lines unless they say otherwise

	// Margin is what is added to the day's rate where the buyer pays in
	// another currency. A Sell sheet has none.
	Margin money.Ratio

	// Increment is the ladder of valid bids: from each From upwards in steps
	// of Step, below the next From. The first From is 0 and they ascend; steps
	// are above 0. Empty: every minor unit is a bid.
	Increment []Rung
	Charges   []Charge

	// ValidFrom and ValidTo are the first and the last day on which the sheet
	// holds; zero: open on that side.
	ValidFrom, ValidTo time.Time
}

// A Rung is one stretch of the ladder of bids.
type Rung struct{ From, Step decimal.Decimal }

// A Charge is one line of a sheet. Exactly one of Amount and Tiers is set.
//
// A line comes about in this order: where When does not hold it is 0, and that
// is all. The base is the sum of the lines in On, less Allowance, at least 0.
// The tiers are applied to it, or Amount is taken. That is rounded, then held
// within Min and Max, whatever the base, 0 included. A result of WaivedUpTo or
// less is not collected and becomes 0.
type Charge struct {
	ID, Title string

	// On are the lines it rests on, all before this one: 0 is the first line
	// (hammer or price), i is the charge i-1.
	On []int

	// Tiers ascend; only the last is not Bounded. A plain rate is one unbounded
	// tier. With Whole all of the base has the rate of the tier it falls in, as
	// British stamp duty was until 2014; otherwise each slice of it has its own,
	// as the resale royalty of Directive 2001/84/EC, article 4.
	Tiers []Tier
	Whole bool

	// In the sheet's currency, 0 or more; nil where there is none. An allowance
	// spares part of a base above it too (a Canadian gift relief), which a When
	// does not (a British one). A waiver is the opposite of a minimum.
	Amount, Min, Max, Allowance, WaivedUpTo *decimal.Decimal

	// Memo makes the line a base for later ones that is not itself paid: a
	// customs value, or what British import VAT adds for later transport.
	Memo bool

	Rounding money.Rounding
	RoundTo  decimal.Decimal // the line is a multiple of it; 0: the minor unit

	When *When // nil: always
}

// A Tier is a rate for what is above the tier before, up to and with UpTo.
type Tier struct {
	UpTo    decimal.Decimal
	Bounded bool
	Rate    money.Ratio
}

// When holds where the sum of the lines in On is above Above, strictly, and at
// most UpTo. Either may be nil, and then bounds nothing.
type When struct {
	On          []int
	Above, UpTo *decimal.Decimal
}

// First is the name of the first line: "hammer", or "price" on a Sell sheet.
func (s *Sheet) First() string {
	if s.Side == Sell {
		return "price"
	}
	return "hammer"
}

// ValidOn reports whether the sheet holds on the calendar day that day shows
// in its own time zone. The first and the last day are included.
func (s *Sheet) ValidOn(day time.Time) bool {
	year, month, date := day.Date()
	midnight := time.Date(year, month, date, 0, 0, 0, 0, time.UTC)
	return (s.ValidFrom.IsZero() || !midnight.Before(s.ValidFrom)) &&
		(s.ValidTo.IsZero() || !midnight.After(s.ValidTo))
}
