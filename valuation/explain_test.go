package valuation_test

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"lotgauge/valuation"
)

// TestExplanationMultipliesOut: usual odds times all factors are the odds now,
// for every point and the catalogue number, and the last chances are those of
// the appraisal.
func TestExplanationMultipliesOut(t *testing.T) {
	l := openReference(t)
	for _, name := range []string{"a", "b", "d"} {
		x := readListing(t, filepath.Join(referenceDir, "listings", name+".toml"))
		subjects := []string{valuation.VariantSubject, "tyres", "pickup", "reverser", "lamps", "paint", "smoke-unit"}
		for _, subject := range subjects {
			e, diags := l.Explain(x, subject, valuation.Options{})
			if diags.HasErrors() {
				t.Fatal(diags.Err())
			}
			if len(e.Moves) != len(x.Findings) {
				t.Errorf("%s %s: %d moves for %d findings", name, subject, len(e.Moves), len(x.Findings))
			}
			for s := range e.Answers {
				odds := e.Usual[s] / (1 - e.Usual[s])
				for _, m := range e.Moves {
					odds *= m.Factor[s]
				}
				want := e.Now[s] / (1 - e.Now[s])
				if odds != want && !(math.Abs(odds-want) <= 1e-9*(1+want)) {
					t.Errorf("%s %s %s: factors come to odds %v, they are %v", name, subject, e.Answers[s], odds, want)
				}
			}
		}
	}
}

func TestExplainUnknownPoint(t *testing.T) {
	x := readListing(t, filepath.Join(referenceDir, "listings", "a.toml"))
	_, diags := openReference(t).Explain(x, "tires", valuation.Options{})
	if !diags.HasErrors() || !strings.Contains(diags.Err().Error(), `"tyres"`) && !strings.Contains(diags.Err().Error(), "tyres") {
		t.Errorf("got %v", diags)
	}
}

func TestIdentify(t *testing.T) {
	l := openReference(t)
	id, diags := l.Identify("quillmore-t3", nil)
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	c := &comparison{T: t}
	// Made 4, 1 and 2 of 7: worked by hand.
	c.chances("made", id.Variants, map[string]float64{"310": 4.0 / 7, "318": 1.0 / 7, "325": 2.0 / 7})
	h := -(4.0/7*math.Log2(4.0/7) + 1.0/7*math.Log2(1.0/7) + 2.0/7*math.Log2(2.0/7))
	c.near("entropy", id.Bits, h, 1e-9)
	// Lamps tell 310 from the other two, the reverser 325: black lamps leave 1:2,
	// a relay leaves 4:1.
	third := -(1.0/3*math.Log2(1.0/3) + 2.0/3*math.Log2(2.0/3))
	fifth := -(4.0/5*math.Log2(4.0/5) + 1.0/5*math.Log2(1.0/5))
	if len(id.Next) != 2 || id.Next[0].ID != "lamps" {
		t.Fatalf("next: %+v", id.Next)
	}
	c.near("lamps", id.Next[0].Bits, h-3.0/7*third, 1e-9)
	c.near("reverser", id.Next[1].Bits, h-5.0/7*fifth, 1e-9)
}

func TestIdentifyBySight(t *testing.T) {
	id, diags := openReference(t).Identify("quillmore-t3", []valuation.Sighted{{Feature: "lamps", Option: "brass"}})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	if len(id.Variants) != 1 || id.Variants[0].ID != "310" || len(id.Next) != 0 {
		t.Errorf("got %+v", id)
	}
	_, diags = openReference(t).Identify("quillmore-t3", []valuation.Sighted{{Feature: "lamps", Option: "brass"}, {Feature: "reverser", Option: "decoder"}})
	if !diags.HasErrors() || !strings.Contains(diags.Err().Error(), "contradict") {
		t.Errorf("a model that was never made: %v", diags)
	}
}

func TestIdentifyListingInMoney(t *testing.T) {
	x := readListing(t, filepath.Join(referenceDir, "listings", "b.toml"))
	id, diags := openReference(t).IdentifyListing(x, nil, valuation.Options{})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	if id.Currency != "EUR" || len(id.Next) == 0 || id.Next[0].Worth == nil || !id.Next[0].Worth.IsPositive() {
		t.Errorf("got %+v", id)
	}
	if len(x.Findings) != 4 {
		t.Error("the listing was changed")
	}
}
