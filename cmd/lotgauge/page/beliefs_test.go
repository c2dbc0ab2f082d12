package page

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

func TestPoints(t *testing.T) {
	p := newView(rich()).Points
	var got []string
	for _, area := range p.Areas {
		got = append(got, "# "+area.Title.Short)
		for _, x := range area.Points {
			var states []string
			for _, s := range x.States {
				states = append(states, s.Name.Short+" "+s.Percent)
			}
			got = append(got, strings.Join([]string{x.Title.Short, x.Seen, strings.Join(states, ", "), x.Usual, x.Cost}, " | "))
		}
	}
	want := []string{
		"# Roof",
		"Front pantograph | seen | missing 86%, sound 10%, bent 3%, wrong type 1% | 66% | 57.69",
		"Roof conductors | seen | incomplete 91%, sound 7%, missing 2% | 74% | 31.03",
		"# Body",
		"Body shell | seen | sound 99%, cracked <1%, exchanged <1% | 76% | 0.03",
		"Cab interior and driver | not shown | complete 78%, incomplete 12%, missing 10% | 86% | 3.11",
		"# Electrics",
		"Reverser spring | not seen | sound 2%, slack 1%, does not have it 97% | 58% | 0.01",
		"# Elsewhere",
		"Lamps | not seen | one-dead 34%, dead 32%, sound 30%, melted 4% | 55% | 3.40",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if p.Unseen != 3 || p.Of != 6 {
		t.Errorf("%d of %d unseen", p.Unseen, p.Of)
	}
}

// TestPointBars: the states of a bar fill as much of it as the model has the
// point, the sound one first.
func TestPointBars(t *testing.T) {
	a := rich()
	i := 0
	for _, area := range newView(a).Points.Areas {
		for _, x := range area.Points {
			sum := 0.0
			for _, s := range x.Bar.Shapes {
				if s.Kind == "rect" && s.Class != "rest" {
					sum += number(t, s.W)
				}
			}
			if math.Abs(sum-100*float64(a.Points[i].Applies)) > 0.05 {
				t.Errorf("%s: the states fill %v%%, want %v", x.Title.Short, sum, a.Points[i].Applies)
			}
			if s := x.Bar.Shapes[1]; s.Class != "sound" || s.X != "0%" {
				t.Errorf("%s begins with %+v", x.Title.Short, s)
			}
			i++
		}
	}
}

func TestFindings(t *testing.T) {
	var got []string
	for _, f := range newView(rich()).Findings {
		text := strings.Join([]string{f.Title.Short, f.Value.Short, f.By, f.Trust, f.Now, f.Note.Short}, " | ")
		if f.Doubted {
			text += " doubted"
		}
		got = append(got, text)
	}
	want := []string{
		"Catalogue number | 6043 | the seller | 80% | 97% | read off the box lid",
		"Front pantograph | missing | a photo | 95% | 86% | second picture",
		"Roof conductors | sound | the seller | 75% | 7% |  doubted",
		"Body shell | sound | a photo | 95% | 99% | ",
		"Cab interior and driver | not shown | – | – | sound 78% | no picture into the cab",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// TestLikely: faint answers share a line, by number; a single one stands alone.
func TestLikely(t *testing.T) {
	lines := func(a *valuation.Appraisal) []string {
		var out []string
		for _, l := range newView(a).State.Answers[0].All {
			out = append(out, l.Name.Short+": "+l.Chance)
		}
		return out
	}
	a := rich()
	want := []string{"6043, red, late roof, electronic reverser: 97%", "6036, red, early roof, relay: 2%", "2 others: 6032, 6047: 1%"}
	if diff := cmp.Diff(want, lines(a)); diff != "" {
		t.Error(diff)
	}
	a.Variants = a.Variants[:3]
	want[2] = "6032, red, early roof, disc motor: <1%"
	if diff := cmp.Diff(want, lines(a)); diff != "" {
		t.Error(diff)
	}
	a.Variants, a.Histories, a.Symptoms = nil, nil, nil
	if got := newView(a).State.Answers; got != nil {
		t.Errorf("answers without any: %v", got)
	}
}

func TestScores(t *testing.T) {
	s := newView(rich()).State
	if s.Coverage != "35%" || len(s.Scores) != 3 {
		t.Fatalf("%+v", s)
	}
	if x := s.Scores[0]; x.Name != "Condition" || x.Mean != "66" || x.Low != "59" || x.High != "73" {
		t.Errorf("%+v", x)
	}
}

func TestRulesAndRemarks(t *testing.T) {
	a := rich()
	a.Rules = append(a.Rules, valuation.FiredRule{Level: "stop", Text: "Stop."})
	a.Reading.Warnings.Add(diag.Diagnostic{Severity: diag.Warning, Summary: "two rows set aside"})
	v := newView(a)
	var tones []string
	for _, r := range v.Rules {
		tones = append(tones, r.Level+" "+r.Tone)
	}
	if diff := cmp.Diff([]string{"Caution mind", "Note none", "Stop bad"}, tones); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"prices.csv:41: warning: a price was set aside."}, shorts(v.Verdict.Alerts)); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"Warning: two rows set aside."}, shorts(v.Doubts)); diff != "" {
		t.Error(diff)
	}
}
