package valuation

import (
	"lotgauge/valuation/belief"
	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
	"lotgauge/valuation/prices"
)

// The kinds of evidence a finding may rest on. Hidden means that what a seller
// normally shows is not shown.
const (
	ByHand   = "hand"
	ByTrack  = "track"
	ByPhoto  = "photo"
	BySeller = "seller"
	ByHidden = "hidden"
)

// The limits on the number of draws: below, the careful bid is noise; above,
// memory goes and nothing is gained.
const (
	MinDraws = 100
	MaxDraws = 1_000_000
)

// Settings are the user's own rates, trusts and defaults. Rates are in the home
// currency an hour, chances from 0 to 1.
type Settings struct {
	Currency   money.Currency
	BenchRate  float64 // what an hour at the bench is worth
	StallRate  float64 // and at the stall
	Tolerance  float64 // share of cases in which a careful bid may lose money
	Trust      map[string]float64
	Hidden     belief.Hidden
	Sells      float64 // chance that a harvested part sells
	Draws      int
	Seed       uint64
	Buy        string // charge sheets by default
	Sell       string
	SellParts  string
	PriceRules prices.Rules

	// Demonstration says that the folder still holds the invented prices of the
	// starter folder.
	Demonstration bool

	named map[string]diag.Pos // where the charge sheets are named, by key
}

// sheetPos is where a charge sheet is named, the file for one that is not.
func (s *Settings) sheetPos(key, file string) diag.Pos {
	if at, ok := s.named[key]; ok {
		return at
	}
	return diag.Pos{File: file}
}

// readSettings reads settings.toml. Whatever it leaves out has the value of the
// starter folder's file; the hourly rates, which it cannot know, are nothing.
func readSettings(doc *diag.Document) *Settings {
	t := doc.Root()
	readFormat(t)
	s := &Settings{
		Trust:     readTrust(t),
		Hidden:    readHidden(t),
		Tolerance: share(t, "tolerance", 0.20),
		Sells:     share(t, "sells", 0.85),
		Draws:     t.Integer("draws", 20000, MinDraws, MaxDraws),
		Seed:      uint64(t.Integer("seed", 1, 0, 1<<53)),
		Buy:       t.Text("buy"),
		Sell:      t.Text("sell"),
		SellParts: t.Text("sell_parts"),
		named:     map[string]diag.Pos{},

		Demonstration: t.Flag("demonstration", false),
		PriceRules: prices.Rules{
			HalfLifeDays:   t.Number("half_life_days", 730, 1, 1e6),
			AskedFactor:    t.Number("asked_factor", 0.85, 0.01, 10),
			AskedWeight:    t.Number("asked_weight", 0.5, 0, 1),
			Spread:         t.Number("spread", 0.25, 0.001, 5),
			FindWithinDays: t.Integer("find_within_days", 180, 1, 36500),
		},
	}
	if !t.Has("currency") {
		t.Report("", "no home currency", `currency = "EUR", an ISO 4217 code`, "")
	}
	s.Currency, _ = diag.Parse(t, "currency", `an ISO 4217 code such as "EUR"`, money.ParseCurrency)
	s.PriceRules.Home = s.Currency
	s.BenchRate = readHourly(t, "bench_rate", s.Currency)
	s.StallRate = readHourly(t, "stall_rate", s.Currency)
	for _, key := range []string{"buy", "sell", "sell_parts"} {
		if t.Has(key) {
			s.named[key] = t.Pos(key)
		}
	}
	t.Finish()
	return s
}

// readFormat checks the format number that every document opens with.
func readFormat(t *diag.Table) {
	if !t.Has("format") && !t.Unread("format") {
		t.Report("", "no format number", "format = 1 in the first line", "")
	}
	t.Integer("format", 1, 1, 1)
}

func readTrust(t *diag.Table) map[string]float64 {
	trust := map[string]float64{ByHand: 1, ByTrack: 1, ByPhoto: 0.95, BySeller: 0.75}
	if c := t.Child("trust"); c != nil {
		for _, by := range []string{ByHand, ByTrack, ByPhoto, BySeller} {
			trust[by] = c.Number(by, trust[by], 0, 1)
		}
		c.Finish()
	}
	return trust
}

func readHidden(t *diag.Table) belief.Hidden {
	h := belief.Hidden{Sound: 0.4, Faulty: 0.6}
	if c := t.Child("hidden"); c != nil {
		h.Sound = c.Number("sound", h.Sound, 0, 1)
		h.Faulty = c.Number("faulty", h.Faulty, 0, 1)
		c.Finish()
	}
	return h
}

// readHourly reads an hourly rate, which has to be in the home currency: it is
// the user's own and has no day to convert it at.
func readHourly(t *diag.Table, key string, home money.Currency) float64 {
	a, ok := diag.Parse(t, key, `money such as "6 EUR"`, money.ParseAmount)
	if ok && home != "" && a.Currency != home {
		t.Report(key, "hourly rate in "+string(a.Currency), "the home currency, "+string(home), "")
	}
	return money.Float(a.Value)
}

// share reads a rate such as "20%" that has to lie between 0 and 1.
func share(t *diag.Table, key string, def float64) float64 {
	const expected = `a share such as "20%" or "1/5"`
	r, ok := diag.Parse(t, key, expected, money.ParseRate)
	if !ok {
		return def
	}
	f := r.Float()
	if f < 0 || f > 1 {
		t.Report(key, "share over the whole", `between "0%" and "100%"`, "")
	}
	return f
}
