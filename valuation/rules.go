package valuation

import (
	"fmt"
	"strings"

	"lotgauge/valuation/belief"
	"lotgauge/valuation/checklist"
)

// facts are what a rule's condition is held against. Figures are shares of 1;
// one that could not be figured is left out.
type facts struct {
	posterior *belief.Posterior
	figures   map[string]float64
}

// fired are the rules of the family that hold, in the family's order. A rule
// that hangs on a figure which is missing does not fire: it is not known.
func (x *facts) fired(f *checklist.Family) []FiredRule {
	out := []FiredRule{}
	for i := range f.Rules {
		r := &f.Rules[i]
		if x.holds(r.When) == yes {
			out = append(out, FiredRule{ID: r.ID, Level: r.Level.String(), Text: x.say(r.Say), Grounds: x.grounds(f, r.When)})
		}
	}
	return out
}

// verity is the truth of a condition, which may hang on what is not known.
type verity int8

const (
	no verity = iota - 1
	unknown
	yes
)

func verityOf(b bool) verity {
	if b {
		return yes
	}
	return no
}

// holds is Kleene's three-valued logic (On notation for ordinal numbers, Journal
// of Symbolic Logic 3, 1938): all is the least of its parts, any the greatest.
func (x *facts) holds(c checklist.Condition) verity {
	switch {
	case c.All != nil:
		least := yes
		for _, d := range c.All {
			least = min(least, x.holds(d))
		}
		return least
	case c.Any != nil:
		greatest := no
		for _, d := range c.Any {
			greatest = max(greatest, x.holds(d))
		}
		return greatest
	case c.Not != nil:
		return -x.holds(*c.Not)
	case c.Figure != "":
		f, ok := x.figures[c.Figure]
		if !ok {
			return unknown
		}
		return verityOf((c.Above == nil || f > *c.Above) && (c.Below == nil || f < *c.Below))
	case c.Point >= 0:
		return verityOf(x.chanceOf(c.Point, c.States) >= c.Chance)
	}
	return verityOf(x.posterior.Symptom(c.Symptom) >= c.Chance)
}

func (x *facts) chanceOf(point int, states []int) float64 {
	sum := 0.0
	of := x.posterior.Point(point)
	for _, s := range states {
		sum += of[s]
	}
	return sum
}

// say fills in the figures: "{repair-share}" becomes "42%", a score "61 of 100".
func (x *facts) say(text string) string {
	for _, name := range checklist.Figures {
		f, ok := x.figures[name]
		shown := fmt.Sprintf("%.0f%%", 100*f)
		switch {
		case !ok:
			shown = "unknown"
		case name == "condition", name == "originality", name == "completeness":
			shown = fmt.Sprintf("%.0f of 100", 100*f)
		}
		text = strings.ReplaceAll(text, "{"+name+"}", shown)
	}
	return text
}

func (a *appraiser) facts(out *Appraisal) *facts {
	x := &facts{posterior: a.posterior, figures: map[string]float64{
		"coverage":               float64(out.Score.Coverage),
		"condition":              float64(out.Score.Condition.Mean) / 100,
		"originality":            float64(out.Score.Originality.Mean) / 100,
		"completeness":           float64(out.Score.Completeness.Mean) / 100,
		"all-parts-found-chance": a.expected.allFound,
		"scarce-needed-chance":   a.expected.scarce,
	}}
	if out.RepairShare != nil {
		x.figures["repair-share"] = float64(*out.RepairShare)
	}
	if out.Purchase.LossChance != nil {
		x.figures["loss-chance"] = float64(*out.Purchase.LossChance)
	}
	return x
}
