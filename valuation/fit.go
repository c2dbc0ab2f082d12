package valuation

import (
	"time"

	"lotgauge/valuation/diag"
)

// FamilyFit is what the user's own rows say of the factors of a family, beside
// those in its file. Nothing is written: whether to take them over is for the
// user to say.
type FamilyFit struct {
	Family   string         `json:"family"`
	On       time.Time      `json:"on"`
	Base     string         `json:"base"` // the grade that the others are held against
	Rows     int            `json:"rows"` // sales of all its variants that the fit rests on
	SetAside int            `json:"set_aside"`
	Freedom  int            `json:"freedom"` // rows less factors fitted; 0: no intervals, all Known are false
	Spread   float64        `json:"spread"`  // relative, of prices about the fit
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
	ID     string   `json:"id"`    // a grade ("" where a row gives none), point:state, or asked
	Title  string   `json:"title"` // in words
	Rows   int      `json:"rows"`  // that have it
	File   float64  `json:"file"`  // in the family file; for asked, in the settings
	Known  bool     `json:"known"` // false: the rows do not tell it, and the next three are 0
	Fitted float64  `json:"fitted"`
	Low    float64  `json:"low"` // 90% interval
	High   float64  `json:"high"`
	Alias  []string `json:"alias,omitempty"` // what the rows do not tell it apart from
}

// FitFamily fits the grade and lacking factors of a family to the user's rows
// dated up to a day.
func (l *Library) FitFamily(id string, on time.Time) (*FamilyFit, diag.List) {
	f, diags := l.Family(id)
	if f == nil {
		return nil, diags
	}
	return &FamilyFit{Family: f.ID, On: on}, diags
}
