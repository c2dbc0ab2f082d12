package page

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
)

func TestParts(t *testing.T) {
	p := newView(rich()).Parts
	var got []string
	for _, x := range p.First {
		got = append(got, strings.Join([]string{
			x.Title.Short, x.Mean, x.Low, x.High, x.Needed, x.Pieces, x.Found, x.Seen, x.Aside, x.Note.Short,
		}, " | "))
	}
	want := []string{
		"Pantograph, black | 66.18 | 47.55 | 86.67 | 87% | 0.94 | 43% | 3 |  | 3.6 times the price of Pantograph, grey",
		"Screw-base bulb, 16 V | 2.31 | 1.46 | 3.29 | 71% | 1.07 | 93% | 5 | 1 set aside | ",
		"Cab interior with driver | no price | no price | no price | <1% | <0.01 | 4% | 0 |  | ",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if !p.First[0].Scarce || p.First[2].Bar != nil {
		t.Errorf("%+v", p.First)
	}
}

func TestManyParts(t *testing.T) {
	a := rich()
	for i := range 40 {
		n := a.Parts[0]
		n.Title, n.Chance = fmt.Sprintf("Screw %d", i), 0.1
		a.Parts = append(a.Parts, n)
	}
	v := newView(a)
	if len(v.Parts.First) != firstParts || len(v.Parts.Rest) != 43-firstParts {
		t.Errorf("%d parts and %d more", len(v.Parts.First), len(v.Parts.Rest))
	}
	if len(v.Prices.First) != firstItems || len(v.Prices.Rest) != 44-firstItems {
		t.Errorf("%d items and %d more", len(v.Prices.First), len(v.Prices.Rest))
	}
	a.Parts = nil
	if newView(a).Parts != nil {
		t.Error("there are parts without any")
	}
}

// TestSightingMarks: what was sold, what was asked and what was set aside are
// marks of different shapes, in order of time, the cheaper the lower.
func TestSightingMarks(t *testing.T) {
	v := newView(rich()).Prices
	var titles []string
	for _, x := range v.First {
		titles = append(titles, x.Title.Short)
	}
	want := []string{
		"6043, red, late roof, electronic reverser", "Pantograph, black", "Screw-base bulb, 16 V", "6032, red, early roof, disc motor",
	}
	if diff := cmp.Diff(want, titles); diff != "" {
		t.Fatal(diff)
	}
	bulbs := v.First[2].Plot
	if sold, asked, aside := bulbs.of("dot", "sold"), bulbs.of("dot", "asked"), bulbs.of("cross", "aside"); len(sold) != 3 || len(asked) != 1 || len(aside) != 1 {
		t.Fatalf("%d sold, %d asked, %d aside", len(sold), len(asked), len(aside))
	} else {
		if number(t, sold[0].X) >= number(t, sold[1].X) || number(t, sold[0].Y) <= number(t, sold[1].Y) {
			t.Errorf("the later and dearer one is not right of and above the earlier: %+v", sold)
		}
		if aside[0].Y != fmt.Sprint(dotsTop) {
			t.Errorf("a price beyond the plot stands at %s", aside[0].Y)
		}
	}
	if len(bulbs.of("rect", "range")) != 1 {
		t.Error("the estimate is not drawn")
	}
}

func TestSightingRows(t *testing.T) {
	x := newView(rich()).Prices.First[2]
	var got []string
	for _, r := range x.Rows {
		got = append(got, strings.TrimSpace(fmt.Sprint(r.Day, " ", r.Price, " ", r.Kind, " ", r.SetAside, " ", r.Weight, " ", r.Line)))
	}
	want := []string{
		"2 Nov 2023 1.90 sold false 0.44 12", "17 Jun 2024 2.10 sold false 0.55 40", "17 Jun 2024 19.00 asked true 0.00 41",
		"3 Feb 2025 2.60 asked false 0.34 77", "20 Jan 2026 2.45 sold false 0.95 90",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if want := "2.20, 8 in 10 between 1.46 and 3.29"; x.Estimate != want {
		t.Errorf("%q, want %q", x.Estimate, want)
	}
}

func TestSightingsAlone(t *testing.T) {
	a := rich()
	a.Reading.Models, a.Parts = nil, a.Parts[:1]
	a.Parts[0].Price = nil
	x := newView(a).Prices.First[0]
	if x.Estimate != "" || len(x.Plot.of("rect", "range")) != 0 {
		t.Errorf("an estimate out of nothing: %+v", x)
	}
	a.Parts = nil
	if newView(a).Prices != nil {
		t.Error("there are prices without any")
	}
}

func TestQuestions(t *testing.T) {
	a := rich()
	q := newView(a).Ask
	var got []string
	for _, x := range q.First {
		text := fmt.Sprintf("%d. %s | %s | %s | %s", x.Number, x.Title.Short, x.Worth, x.Where, plainly(x.Time))
		for _, ask := range x.Ask {
			text += " " + ask.Language
		}
		got = append(got, text)
	}
	want := []string{
		"1. Front pantograph and reverser spring together | 1.12 |  | 6 min",
		"2. Front pantograph | 0.76 | on a photo or in the hand | 1 min en de fr",
		"3. Does not move under power | 0.20 | on the track or by asking the seller | ",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	for range 20 {
		a.Questions = append(a.Questions, valuation.Question{ID: "more", Worth: cash("0.01")})
	}
	if q := newView(a).Ask; len(q.First) != firstQuestions || len(q.Rest) != 23-firstQuestions {
		t.Errorf("%d questions and %d more", len(q.First), len(q.Rest))
	}
	a.Questions = nil
	if q := newView(a).Ask; q == nil || q.First != nil {
		t.Errorf("nothing left to ask: %+v", q)
	}
	a.Worth = nil
	if newView(a).Ask != nil {
		t.Error("questions have a worth where nothing has")
	}
}
