package valuation_test

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"lotgauge/valuation"
)

// referenceDir holds four listings in a small data folder, with the figures
// that a brute-force enumeration of every variant, history and state gives
// (Python 3.11, SciPy 1.10.1, written from the design alone and sharing no code
// with this project; its README says which figures are exact).
const referenceDir = "../testdata/reference/appraise"

// referenceDraws is how many draws stand behind the reference's drawn figures.
const referenceDraws = 200_000

// wanted is one expected file.
type wanted struct {
	Variants     map[string]float64            `json:"variants"`
	Histories    map[string]float64            `json:"histories"`
	Points       map[string]map[string]float64 `json:"points"`
	Symptoms     map[string]float64            `json:"symptoms"`
	ExpectedCost map[string]float64            `json:"expected_cost"`
	Routes       map[string]float64            `json:"routes"`
	Worth        float64                       `json:"worth"`
	WorthMC      float64                       `json:"worth_mc"`
	WorthP       [3]float64                    `json:"worth_p"`
	RepairShare  float64                       `json:"repair_share"`
	Condition    float64                       `json:"condition"`
	BreakEven    string                        `json:"break_even_bid"`
	Careful      string                        `json:"careful_bid"`
	Landed       float64                       `json:"landed"`
	LossChance   float64                       `json:"loss_chance"`
	Lines        map[string]string             `json:"lines"`
	Questions    map[string]float64            `json:"questions"`
	Needed       map[string]float64            `json:"needed"`
	AllFound     float64                       `json:"all_parts_found_chance"`
	Prices       map[string]struct{ Mean, P50 float64 }
}

func openReference(t testing.TB) *valuation.Library {
	t.Helper()
	return valuation.Open(os.DirFS(referenceDir), "", false)
}

func appraise(t testing.TB, l *valuation.Library, file string, o valuation.Options) *valuation.Appraisal {
	t.Helper()
	a, diags := l.Appraise(readListing(t, file), o)
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	return a
}

func TestReferenceAppraisals(t *testing.T) {
	l := openReference(t)
	for _, name := range []string{"a", "b", "c", "d"} {
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile(filepath.Join(referenceDir, "expected", name+".json"))
			if err != nil {
				t.Fatal(err)
			}
			var want wanted
			if err := json.Unmarshal(text, &want); err != nil {
				t.Fatal(err)
			}
			got := appraise(t, l, filepath.Join(referenceDir, "listings", name+".toml"), valuation.Options{})
			c := &comparison{T: t}
			c.beliefs(got, &want)
			c.figures(got, &want)
			c.purchase(got, &want)
			c.drawn(got, &want)
		})
	}
}

// comparison holds an appraisal against a reference.
type comparison struct{ *testing.T }

const (
	exactly = 1e-9  // chances and scores
	cent    = 0.005 // money that was rounded to the cent
)

func (c *comparison) near(what string, got, want, within float64) {
	c.Helper()
	if !(math.Abs(got-want) <= within+1e-12) {
		c.Errorf("%s: got %v, want %v within %v", what, got, want, within)
	}
}

func (c *comparison) money(what string, got *valuation.Money, want, within float64) {
	c.Helper()
	if got == nil {
		c.Errorf("%s: no figure, want %v", what, want)
		return
	}
	f, _ := got.Float64()
	c.near(what, f, want, within)
}

func (c *comparison) chances(what string, got []valuation.Chance, want map[string]float64) {
	c.Helper()
	seen := 0
	for _, g := range got {
		if _, ok := want[g.ID]; ok {
			seen++
		}
		c.near(what+" "+g.ID, float64(g.Chance), want[g.ID], exactly) // the impossible is left out there
	}
	if seen != len(want) {
		c.Errorf("%s: got %d of %d", what, seen, len(want))
	}
}

func (c *comparison) beliefs(got *valuation.Appraisal, want *wanted) {
	c.chances("variant", got.Variants, want.Variants)
	c.chances("history", got.Histories, want.Histories)
	c.chances("symptom", got.Symptoms, want.Symptoms)
	if len(got.Points) != len(want.Points) {
		c.Errorf("got %d points, want %d", len(got.Points), len(want.Points))
	}
	for _, p := range got.Points {
		c.chances("point "+p.ID, p.States, want.Points[p.ID])
		c.money("cost of "+p.ID, p.ExpectedCost, want.ExpectedCost[p.ID], cent)
	}
}

func (c *comparison) figures(got *valuation.Appraisal, want *wanted) {
	c.near("condition", float64(got.Score.Condition.Mean), want.Condition, exactly)
	c.near("repair share", float64(*got.RepairShare), want.RepairShare, exactly)
	c.near("all found", float64(got.AllPartsFound), want.AllFound, exactly)
	c.money("worth", &got.Worth.Mean, want.Worth, cent)
	if len(got.Routes) != len(want.Routes) {
		c.Errorf("got %d routes, want %d", len(got.Routes), len(want.Routes))
	}
	for _, r := range got.Routes {
		c.money("route "+r.ID, r.Mean, want.Routes[r.ID], cent)
	}
	if len(got.Parts) != len(want.Needed) {
		c.Errorf("got %d parts, want %d", len(got.Parts), len(want.Needed))
	}
	for _, p := range got.Parts {
		c.near("needed "+p.ID, float64(p.Needed), want.Needed[p.ID], exactly)
		price := want.Prices[p.ID+"|buy"]
		c.money("mean price of "+p.ID, &p.Price.Mean, price.Mean, cent)
		c.money("median price of "+p.ID, &p.Price.P50, price.P50, cent)
	}
	c.questions(got, want)
}

// questions holds the value of knowing each point against the reference; what
// is settled has no question and is worth nothing there.
func (c *comparison) questions(got *valuation.Appraisal, want *wanted) {
	worth := map[string]*valuation.Money{}
	for _, q := range got.Questions {
		if q.Kind == "point" {
			worth[q.ID] = &q.Worth
		}
	}
	for id, w := range want.Questions {
		if worth[id] == nil && w < 1e-9 {
			continue
		}
		c.money("question "+id, worth[id], w, cent)
	}
}

func (c *comparison) purchase(got *valuation.Appraisal, want *wanted) {
	p := got.Purchase
	c.money("landed", p.Landed, want.Landed, 1e-9)
	for _, line := range p.Lines {
		w, err := strconv.ParseFloat(want.Lines[line.ID], 64)
		if err != nil {
			c.Errorf("line %s is not in the reference", line.ID)
		}
		c.money("line "+line.ID, &line.Amount, w, 1e-9)
	}
	if strings.TrimSuffix(p.BreakEvenBid.Text(), ".00") != want.BreakEven {
		c.Errorf("break-even bid: got %s, want %s", p.BreakEvenBid.Text(), want.BreakEven)
	}
}

// drawn compares what comes from draws on both sides. A mean may differ by four
// standard errors of the difference; a chance by four of a proportion; a
// quantile by the same share of cases, read off the reference's own slope
// between its 10% and 90% points, doubled for the tails' lower density.
func (c *comparison) drawn(got *valuation.Appraisal, want *wanted) {
	n := float64(got.Draws)
	both := math.Sqrt(1/n + 1.0/referenceDraws)
	se, _ := got.Worth.SE.Float64()
	c.money("drawn mean", &got.Worth.Mean, want.WorthMC, 4*se*math.Sqrt(n)*both+cent)
	c.near("loss chance", float64(*got.Purchase.LossChance), want.LossChance, 4*0.5*both)
	slope := (want.WorthP[2] - want.WorthP[0]) / 0.8
	for i, q := range []*valuation.Money{&got.Worth.P10, &got.Worth.P50, &got.Worth.P90} {
		p := []float64{0.1, 0.5, 0.9}[i]
		c.money("worth quantile", q, want.WorthP[i], 2*4*math.Sqrt(p*(1-p))*both*slope+cent)
	}
	careful, _ := got.Purchase.CarefulBid.Float64()
	w, err := strconv.ParseFloat(want.Careful, 64)
	if err != nil {
		c.Fatal(err)
	}
	c.near("careful bid", careful, w, 2) // one step of the steepest ladder near it
}
