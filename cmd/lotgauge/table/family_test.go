package table

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"lotgauge/valuation/checklist"
)

// tankEngine is a family with everything that the list of one shows.
func tankEngine() *checklist.Family {
	odds := []checklist.State{{ID: "sound"}, {ID: "perished"}}
	return &checklist.Family{
		ID: "quillmore-t3", Title: "Quillmore T3 tank engine, H0 three-rail", Scale: "H0",
		Features: []checklist.Feature{
			{ID: "reverser", Title: "Reverser", Options: []string{"relay", "decoder"}, Tell: "A relay clacks when it is switched; a decoder is a board with legs"},
			{ID: "lamps", Title: "Lamps at both ends", Options: []string{"brass", "black"}},
		},
		Variants: []checklist.Variant{
			{ID: "310", Title: "black, relay", From: 1958, To: 1964, Fit: []int{0, 0}},
			{ID: "318", Title: "green, relay\x1b[31m", From: 1961, To: 1961, Fit: []int{0, 1}},
			{ID: "325", Title: "black, decoder", From: 1986, Fit: []int{1, 1}},
		},
		Points: []checklist.Point{
			{ID: "tyres", Title: "Traction tyres", Area: "running gear", How: "Stretch one with a needle: it must spring back", Applies: []bool{true, true, true}, States: odds},
			{ID: "smoke-unit", Title: "Smoke unit", Area: "electrical", Applies: []bool{false, false, true}, States: []checklist.State{{ID: "sound"}, {ID: "burnt-out"}}},
			{ID: "shoe", Title: "Pickup shoe", Area: "running gear", Applies: []bool{true, true, true}, States: []checklist.State{{ID: "sound"}, {ID: "oxidised"}, {ID: "weak-spring"}, {ID: "missing"}}},
			{ID: "box", Title: "Box", Applies: []bool{true, true, true}, States: []checklist.State{{ID: "there"}, {ID: "missing"}}},
		},
		Symptoms: []checklist.Symptom{
			{ID: "no-movement", Title: "Does not move under power", Causes: []checklist.Cause{{Point: 2, State: 1}, {Point: 2, State: 3}}},
		},
	}
}

func TestGoldenFamily(t *testing.T) {
	golden(t, "family", func(w io.Writer, o Options) error { return Family(w, tankEngine(), true, o) })
}

func TestGoldenFamilies(t *testing.T) {
	other := &checklist.Family{ID: "pellworth-ce4", Title: "Pellworth CE4 alpine electric with a title that is long enough to be wrapped, H0 three-rail"}
	golden(t, "families", func(w io.Writer, o Options) error {
		return Families(w, []*checklist.Family{other, tankEngine()}, false, o)
	})
}

func TestFamilyLinesFit(t *testing.T) {
	for columns := MinWidth; columns <= 160; columns++ {
		var b bytes.Buffer
		if err := Family(&b, tankEngine(), true, Options{Width: columns}); err != nil {
			t.Fatal(err)
		}
		for line := range strings.SplitSeq(b.String(), "\n") {
			if width(line) > columns || strings.Contains(line, "\x1b") {
				t.Errorf("%d: %q", columns, line)
			}
		}
	}
}

func TestNoFamilies(t *testing.T) {
	var b bytes.Buffer
	if err := Families(&b, nil, false, Options{Width: 80}); err != nil {
		t.Fatal(err)
	}
	if got := b.String(); got != "There is no family in this data folder yet.\n" {
		t.Errorf("%q", got)
	}
}

func TestYears(t *testing.T) {
	for _, test := range []struct {
		from, to int
		want     string
	}{{0, 0, ""}, {1958, 1964, "1958-1964"}, {1961, 1961, "1961"}, {1986, 0, "from 1986"}, {0, 1964, "to 1964"}} {
		if got := years(test.from, test.to); got != test.want {
			t.Errorf("years(%d, %d) = %q, want %q", test.from, test.to, got, test.want)
		}
	}
}
