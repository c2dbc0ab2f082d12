package valuation

import (
	"time"

	"lotgauge/valuation/checklist"
	"lotgauge/valuation/diag"
)

// FamilyFit is what the user's own rows say of the factors of a family, beside
// those in its file. Nothing is written: whether to take them over is for the
// user to say.
type FamilyFit struct {
	Family   string         `json:"family"`
	On       time.Time      `json:"on"`
	Base     string         `json:"base"` // the grade that the others are held against: its factor is taken from the file
	Rows     int            `json:"rows"` // of all its variants, that the fit rests on
	SetAside int            `json:"set_aside"`
	Freedom  int            `json:"freedom"` // rows less what was fitted; 0: nothing is known
	Spread   float64        `json:"spread"`  // of prices about the fit: the standard deviation of their logarithm
	Factors  []FittedFactor `json:"factors"` // grades in the file's order, then what was lacking, then asked
}

// The kinds of factors.
const (
	GradeFactor   = "grade"
	LackingFactor = "lacking"
	AskedFactor   = "asked"
)

// FittedFactor is one factor, in the file and by the rows.
type FittedFactor struct {
	Kind   string   `json:"kind"`
	ID     string   `json:"id"`     // a grade ("" where rows give none), point:state, or asked
	Title  string   `json:"title"`  // in words
	Rows   int      `json:"rows"`   // that have it and were not set aside
	File   float64  `json:"file"`   // in the family file; for asked, in the settings
	Known  bool     `json:"known"`  // false: the rows do not tell it, and the next three are 0
	Fitted float64  `json:"fitted"` // for the base grade, all three are the file's
	Low    float64  `json:"low"`    // 90% interval
	High   float64  `json:"high"`
	Alias  []string `json:"alias,omitempty"` // what the rows do not tell it apart from, in words
}

// FitFamily fits the grade and lacking factors of a family to the user's rows of
// all its variants, dated up to a day: see [prices.FitTerms]. Each variant, grade,
// state that was lacking, and having been asked only, is a term; prices are in
// the home currency, for one piece, without postage, and count as in estimates.
//
// Rows say what one grade is worth against another, so one has to be given: the
// grade with the most rows, which tells most of the others, is held at its factor
// in the file. No other factor of the file is used.
func (l *Library) FitFamily(id string, on time.Time) (*FamilyFit, diag.List) {
	var diags diag.List
	family := need(&diags, func() (*checklist.Family, diag.List) { return l.Family(id) })
	settings := need(&diags, l.Settings)
	table := need(&diags, l.Prices)
	rates := need(&diags, l.Rates)
	if diags.HasErrors() {
		return nil, diags.Sorted()
	}
	f := newFamilyFit(&market{family: family, rules: settings.PriceRules, table: table, rates: rates, on: on})
	f.collect()
	fit := f.fit()
	if diags = append(diags, f.market.diags...); diags.HasErrors() {
		return nil, diags.Sorted()
	}
	return fit, diags.Sorted()
}
