package valuation

import (
	"time"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/diag"
)

// An Appraisal is the answer to one listing. Its JSON form is the published
// one; what carries `json:"-"` is for a reader of the printed appraisal.
// Chances are unconditional: the states of a point sum to Applies. Money is in
// Currency, save inside Purchase, where bids and lines are in the sheet's.
type Appraisal struct {
	Format        int           `json:"format"`
	Title         string        `json:"title"`
	Family        string        `json:"family"`
	Date          string        `json:"date"`
	Currency      string        `json:"currency"`
	Draws         int           `json:"draws"`
	Seed          uint64        `json:"seed"`
	Demonstration bool          `json:"demonstration"`
	Variants      []Chance      `json:"variants"`
	Histories     []Chance      `json:"histories"`
	Points        []PointBelief `json:"points"`
	Symptoms      []Chance      `json:"symptoms"`
	Score         Scores        `json:"score"`
	Parts         []PartNeed    `json:"parts"`
	Unpriced      []string      `json:"unpriced"`
	Routes        []RouteWorth  `json:"routes"`
	Worth         *Worth        `json:"worth"` // null where a price is missing
	AllPartsFound Share         `json:"all_parts_found_chance"`
	RepairShare   *Share        `json:"repair_share"` // null where a price is missing
	Purchase      Purchase      `json:"purchase"`
	Questions     []Question    `json:"questions"`
	Rules         []FiredRule   `json:"rules"`
	Reading       Reading       `json:"-"`
}

// Share is a number from 0 to 1, or a mean that is an estimate. In JSON it is
// rounded to 12 decimals, so that equal input gives equal bytes on every
// platform.
type Share float64

// Money is an estimate or amount in the home currency, in JSON a decimal
// string at the currency's minor unit.
type Money struct{ decimal.Decimal }

// Chance is the chance of one of several answers.
type Chance struct {
	ID     string `json:"id"`
	Title  string `json:"-"`
	Chance Share  `json:"chance"`
}

// PointBelief is what is believed of an inspection point.
type PointBelief struct {
	ID           string   `json:"id"`
	Applies      Share    `json:"applies"` // chance that the model has the point at all
	States       []Chance `json:"states"`
	ExpectedCost *Money   `json:"expected_cost"` // null where a price is missing
	Title        string   `json:"-"`
	Area         string   `json:"-"`
	Usual        []Chance `json:"-"` // before any finding
}

// Spread is a mean with its 10% and 90% points (Hyndman and Fan's type 7).
type Spread struct {
	Mean Tenth `json:"mean"`
	P10  Tenth `json:"p10"`
	P90  Tenth `json:"p90"`
}

// Tenth is a score from 0 to 100. In JSON it has up to 9 decimals.
type Tenth float64

// Scores are the three scores, 0 to 100, and the share of the inspection that
// has been done.
type Scores struct {
	Condition    Spread `json:"condition"`
	Originality  Spread `json:"originality"`
	Completeness Spread `json:"completeness"`
	Coverage     Share  `json:"coverage"`
}

// PriceRange describes the 41 equally likely values of a price.
type PriceRange struct {
	Mean Money `json:"mean"`
	P10  Money `json:"p10"`
	P50  Money `json:"p50"`
	P90  Money `json:"p90"`
}

// PartNeed is a part that may have to be bought, at its buying price, postage
// in. Needed counts pieces and is an expectation.
type PartNeed struct {
	ID           string      `json:"id"`
	Needed       Share       `json:"needed"`
	Price        *PriceRange `json:"price"` // null where unpriced
	Observations int         `json:"observations"`
	SetAside     int         `json:"set_aside"`
	FindChance   Share       `json:"find_chance"`
	Scarce       bool        `json:"scarce"`
	Ratio        *Share      `json:"ratio_to_cheapest"` // null where alone in its group or unpriced
	Title        string      `json:"-"`
	Chance       float64     `json:"-"` // that any piece is needed
	Sightings    int         `json:"-"`
	Cheapest     string      `json:"-"` // title of the cheapest of its group
	Seen         []Sighting  `json:"-"` // the rows its price rests on, oldest first
}

// Sighting is one price row that an estimate rests on: the price of one piece in
// the home currency as it was asked or paid, in the state it was in, for parts
// postage in.
type Sighting struct {
	Line     int // in the price table
	Day      time.Time
	Price    Money
	Counts   Money  // as it counts: of a sound one at the reference grade, asked ones after their factor
	Grade    string // of models
	Lacking  string
	Asked    bool
	SetAside bool
	Weight   float64
}

// RouteWorth is what one route brings, net, everything but the purchase.
type RouteWorth struct {
	ID        string   `json:"id"`
	Mean      *Money   `json:"mean"`
	P10       *Money   `json:"p10"`
	P90       *Money   `json:"p90"`
	BreakEven *Money   `json:"break_even_bid"` // in the buying sheet's currency
	Chosen    *Share   `json:"chosen"`         // share of the draws in which it is the best
	Missing   []string `json:"-"`              // unpriced items it needs
}

// Worth is the worth by the best route.
type Worth struct {
	Mean Money `json:"mean"`
	SE   Money `json:"se"` // standard error of the mean over the draws
	P10  Money `json:"p10"`
	P50  Money `json:"p50"`
	P90  Money `json:"p90"`
}

// BillLine is one line of the charge sheet at the ask, in its currency.
type BillLine struct {
	ID     string `json:"id"`
	Amount Money  `json:"amount"`
	Title  string `json:"-"`
	Memo   bool   `json:"-"`
}

// Purchase is the buying side. Null bids: no bid on the ladder will do.
type Purchase struct {
	Sheet           string     `json:"sheet"`
	Currency        string     `json:"currency"`
	Ask             *Money     `json:"ask"` // null where the listing names none
	Lines           []BillLine `json:"lines"`
	Total           *Money     `json:"total"`
	Landed          *Money     `json:"landed"` // home currency
	LossChance      *Share     `json:"loss_chance"`
	BreakEvenBid    *Money     `json:"break_even_bid"`
	BreakEvenLanded *Money     `json:"break_even_landed"` // home currency
	CarefulBid      *Money     `json:"careful_bid"`
	SheetTitle      string     `json:"-"`
	CarefulLanded   *Money     `json:"-"` // home currency
	CarefulLoss     *Share     `json:"-"` // loss chance at the careful bid
	BreakEvenLoss   *Share     `json:"-"` // loss chance at the break-even bid
	Tolerance       Share      `json:"-"`
	Fixed           bool       `json:"-"` // a fixed price, not an auction
}

// Question is one thing to find out, and the money that knowing it is worth.
// Kind is point, symptom, variant or pair; the id of a pair joins two with a
// plus sign.
type Question struct {
	Kind    string            `json:"kind"`
	ID      string            `json:"id"`
	Worth   Money             `json:"worth"`
	Minutes float64           `json:"minutes"`
	Title   string            `json:"-"`
	How     string            `json:"-"`
	Ask     map[string]string `json:"-"` // by language
	See     []string          `json:"-"`
	Found   bool              `json:"-"` // the listing has a finding on it, other than hidden
	Effects []Effect          `json:"-"` // what each answer would do, the likeliest first; of the first questions
}

// Effect is what an answer would do to the bid at which to stop.
type Effect struct {
	Title  string
	Chance Share
	Stop   *Money // in the sheet's currency; nil: no bid would pay
}

// FiredRule is a rule of the family whose condition holds.
type FiredRule struct {
	ID    string `json:"id"`
	Level string `json:"level"` // note, caution, stop
	Text  string `json:"text"`

	Grounds []Ground `json:"-"` // what made it hold, other than a figure
}

// A Ground is what is believed of a point, or of a symptom, where that is why a
// rule fired or a deal is off.
type Ground struct {
	Title  string   // of the point or the symptom
	States []Chance // of the point, those that count and may be; none for a symptom
	Chance Share    // that it is in one of them, or that the symptom is there
}

// A Reason is why to walk away.
type Reason struct {
	Text    string
	Grounds []Ground // what is believed that makes it so; none where it is the money
}

// Verdict is what the headline says.
type Verdict uint8

const (
	// Unpriceable: a price is missing, no figure is given.
	Unpriceable Verdict = iota + 1
	// WalkAway: a deal-breaker was found, a rule says stop, or no bid pays.
	WalkAway
	// TooDear: a bid pays, but the ask is above the break-even bid.
	TooDear
	// Marginal: the ask is above the careful bid, not above break-even.
	Marginal
	// Buy: the ask, if any, is at or below the careful bid.
	Buy
)

// Reading is what the printed appraisal shows beyond the JSON.
type Reading struct {
	FamilyTitle string
	Verdict     Verdict
	Reasons     []Reason // why to walk away
	Steps       []Step   // from sound price to break-even bid
	Findings    []FindingLine
	Unseen      []string // titles of points that nothing is known of
	Missing     []MissingPrice
	Warnings    diag.List
	Cautions    []string
	On          time.Time
	Margin      *Margin // what there is to gain; nil where no figure is given
	Worths      []Bin   // how the worth is spread over the draws
	Models      []Model // what the price of a sound one rests on, likeliest first
	Rests       []Input // what the appraisal rests on
}

// Margin is what a purchase would gain on average, home currency: at the price
// asked, or at the middle of where the hammer should fall.
type Margin struct {
	Amount   Money
	AtHammer bool  // at the likely hammer price, else at the ask
	Price    Money // that price, in the sheet's currency

	// At an auction where the hammer may fall is known: the chance that it falls
	// at or below the break-even bid, and the expected gain of bidding up to
	// there, which is nothing where others bid more.
	Chance  *Share
	Bidding *Money
}

// Bin is the share of draws whose worth lies from From to To, home currency.
type Bin struct {
	From, To float64
	Share    float64
}

// Model is the price of a sound one of a variant at the reference grade.
type Model struct {
	ID, Title string
	Chance    Share
	Price     PriceRange
	Guide     bool // a guide price counts among the observations
	Seen      []Sighting
	SetAside  int
}

// Input names something that the appraisal rests on: a file, a day, a number.
type Input struct{ Name, Text string }

// Step is one line of the column from the price of a sound one to the bid. The
// amounts up to each Sum line add up to it, to the minor unit.
type Step struct {
	ID     string
	Title  string
	Amount Money // home currency; in the last line the sheet's
	Sum    bool
	// Currency is set where the line is not in the home currency.
	Currency string
}

// FindingLine is one finding of the listing in words.
type FindingLine struct {
	Title string // what it is about
	Value string // what was found
	By    string // hand, track, photo, seller, hidden
	Trust float64
	Note  string
	Now   Share // chance that it is so, given everything known
}

// MissingPrice is an item without a price and the ways to mend it.
type MissingPrice struct {
	ID, Title string
	Routes    []string // routes that cannot be figured without it
	Row       string   // a row for prices.csv to fill in
	Key       string   // the key to set in the family file
}
