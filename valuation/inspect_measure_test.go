package valuation_test

import (
	"math"
	"strings"
	"testing"

	"lotgauge/valuation"
)

// measuredShoe gives the reference family's pickup shoe a force to measure: the
// spring is sound from 20 g, weak up to 20 g; a missing shoe presses with
// nothing, and what is oxidised may have any force.
var measuredShoe = []patch{
	{"families/quillmore-t3.toml", "title = \"Pickup shoe\"\narea", "title = \"Pickup shoe\"\nmeasure = { unit = \"g\", what = \"force of the shoe\", within = 4 }\narea"},
	{"families/quillmore-t3.toml", `{ id = "sound", odds = { cabinet = 3, layout = 4, tampered = 2 },`, `{ id = "sound", range = { from = 20 }, odds = { cabinet = 3, layout = 4, tampered = 2 },`},
	{"families/quillmore-t3.toml", `{ id = "weak-spring",`, `{ id = "weak-spring", range = { from = 1, to = 20 },`},
	{"families/quillmore-t3.toml", `factor = 0.9, odds = { cabinet = 0,`, `factor = 0.9, range = { to = 1 }, stop = "no shoe", odds = { cabinet = 0,`},
}

// chancesOf are the chances of the pickup shoe's states after a finding.
func chancesOf(t *testing.T, l *valuation.Library, finding string) (chances [4]float64, a *valuation.Appraisal) {
	t.Helper()
	text := head + "variant = \"310\"\n"
	if finding != "" {
		text += "[[finding]]\npoint = \"pickup\"\n" + finding
	}
	a, diags := l.Appraise(parse(t, text), valuation.Options{Draws: 500})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	for _, p := range a.Points {
		if p.ID == "pickup" {
			for s := range chances {
				chances[s] = float64(p.States[s].Chance)
			}
		}
	}
	return chances, a
}

// faded is how well a state explains a reading that is off by as many times what
// one usually is off by at most.
func faded(off float64) float64 { return math.Pow(1-off/3, 7) }

// TestReadings: a reading multiplies the odds of each state by how well the
// state explains it.
func TestReadings(t *testing.T) {
	l := patched(t, measuredShoe...)
	before, _ := chancesOf(t, l, "")
	for _, row := range []struct {
		reading string
		weights [4]float64 // sound, oxidised, weak-spring, missing
	}{
		{"32 g", [4]float64{1, 1, 0, 0}},           // as far off as one can be
		{"24 g", [4]float64{1, 1, faded(1), 0}},    // as far off as an error usually goes
		{"28 g", [4]float64{1, 1, 1.0 / 2187, 0}},  // twice as far: a doubt is left
		{"22g", [4]float64{1, 1, faded(0.5), 0}},   // half as far
		{"20 g", [4]float64{1, 1, 1, 0}},           // at the end of both ranges
		{"19 g", [4]float64{faded(0.25), 1, 1, 0}}, // of sound, a quarter
		{"17.00 g", [4]float64{faded(0.75), 1, 1, 0}},
		{"8 g", [4]float64{0, 1, 1, faded(1.75)}},
		{"4 g", [4]float64{0, 1, 1, faded(0.75)}},
		{" 0.5 g ", [4]float64{0, 1, faded(0.125), 1}},
	} {
		got, _ := chancesOf(t, l, `reading = "`+row.reading+"\"\nby = \"hand\"")
		sum, c := 0.0, &comparison{T: t}
		for s, w := range row.weights {
			sum += before[s] * w
		}
		for s, w := range row.weights {
			c.near(row.reading, got[s], before[s]*w/sum, exactly)
		}
	}
}

// TestReadingOfOneState: a reading that only one state explains is that state.
func TestReadingOfOneState(t *testing.T) {
	l := patched(t, append(measuredShoe,
		patch{"families/quillmore-t3.toml", "within = 4", "within = 2"}, // 12 g lies out of reach of the other ranges
		patch{"families/quillmore-t3.toml", `{ id = "oxidised",`, `{ id = "oxidised", range = { from = 20 },`})...)
	for _, by := range []string{"hand", "photo", "seller"} {
		read, a := chancesOf(t, l, `reading = "12 g"`+"\nby = \""+by+`"`)
		found, b := chancesOf(t, l, `state = "weak-spring"`+"\nby = \""+by+`"`)
		if read != found || a.Worth.Mean.Text() != b.Worth.Mean.Text() || a.Score.Coverage != b.Score.Coverage {
			t.Errorf("%s: %v worth %s, found to be weak %v worth %s", by, read, a.Worth.Mean.Text(), found, b.Worth.Mean.Text())
		}
	}
}

// TestReadingInWords: a reading stands in the appraisal as it was written, with
// the chance of what explains it, and may break a deal.
func TestReadingInWords(t *testing.T) {
	l := patched(t, measuredShoe...)
	got, a := chancesOf(t, l, "reading = \"18 g\"\nby = \"photo\"")
	line := a.Reading.Findings[0]
	if line.Title != "Pickup shoe" || line.Value != "18 g" {
		t.Errorf("finding %+v", line)
	}
	c := &comparison{T: t}
	c.near("chance", float64(line.Now), got[0]+got[1]+got[2], exactly)
	if a.Reading.Verdict == valuation.WalkAway {
		t.Errorf("a weak spring breaks the deal: %v", a.Reading.Reasons)
	}
	exact := patch{"families/quillmore-t3.toml", "within = 4", "within = 0"}
	l = patched(t, append(measuredShoe, patch{"families/quillmore-t3.toml", `{ id = "oxidised",`, `{ id = "oxidised", range = { from = 1 },`}, exact)...)
	_, a = chancesOf(t, l, "reading = \"0 g\"\nby = \"hand\"")
	if a.Reading.Verdict != valuation.WalkAway || len(a.Reading.Reasons) == 0 || a.Reading.Reasons[0].Text != "no shoe" {
		t.Errorf("verdict %v, reasons %v", a.Reading.Verdict, a.Reading.Reasons)
	}
}

func TestReadingFaults(t *testing.T) {
	l := patched(t, measuredShoe...)
	for _, row := range []struct{ finding, want string }{
		{"point = \"pickup\"\nreading = \"12 mm\"", `x.toml:7:11: "12 mm" is not in g, the unit of the force of the shoe: expected a number and the unit, such as "13.9 mm"`},
		{"point = \"pickup\"\nreading = \"12\"", `x.toml:7:11: "12" is not in g`},
		{"point = \"pickup\"\nreading = \"1,5 g\"", `x.toml:7:11: "1,5" is no number in plain digits`},
		{"point = \"pickup\"\nreading = \"-3 g\"", `"-3" is no number`},
		{"point = \"pickup\"\nreading = \"1e3 g\"", `"1e3" is no number`},
		{"point = \"pickup\"\nreading = \"0x3 g\"", `"0x3" is no number`},
		{"point = \"pickup\"\nreading = \"inf g\"", `"inf" is no number`},
		{"point = \"pickup\"\nreading = \" g\"", `"" is no number`},
		{"point = \"pickup\"\nreading = \"1.2.3 g\"", `"1.2.3" is no number`},
		{"point = \"tyres\"\nreading = \"12 g\"", `x.toml:7:11: point "tyres" has nothing to measure: expected state = one of sound or perished`},
	} {
		a, diags := l.Appraise(parse(t, head+"[[finding]]\n"+row.finding+"\nby = \"hand\""), valuation.Options{})
		if !diags.HasErrors() || a != nil || !strings.Contains(diags.Error(), row.want) {
			t.Errorf("%s: %v, want %s", row.finding, diags, row.want)
		}
	}
	for _, row := range []struct{ finding, want string }{
		{"point = \"pickup\"\nreading = \"12 g\"\nstate = \"sound\"\nby = \"hand\"", "one of state, option and reading"},
		{"point = \"pickup\"\nreading = \"12 g\"\nby = \"hidden\"", "a hidden point shows no state"},
		{"symptom = \"no-movement\"\npresent = true\nreading = \"12 g\"\nby = \"hand\"", "reading does not go with this finding"},
	} {
		if _, diags := valuation.ReadListing("x.toml", strings.NewReader(head+"[[finding]]\n"+row.finding)); !strings.Contains(diags.Error(), row.want) {
			t.Errorf("%s: %v, want %s", row.finding, diags, row.want)
		}
	}
}
