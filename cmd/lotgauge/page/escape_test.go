package page

import (
	"strings"
	"testing"

	"lotgauge/valuation"
)

// TestTextStaysText: every text of an appraisal that the page shows is there
// letter by letter, none of it as markup.
func TestTextStaysText(t *testing.T) {
	const poison = `</p><b id="x" onclick='y'>&lt;{{.Title}}<!--`
	a, places := poisoned(poison)
	if places < 150 {
		t.Fatalf("only %d texts were poisoned", places)
	}
	root, err := parse(written(t, a))
	if err != nil {
		t.Fatal(err)
	}
	shown := root.named("body")[0].flat()
	if got := strings.Count(shown, poison); got < 100 {
		t.Errorf("the text is shown %d times as it is, expected 100 and more", got)
	}
	for _, n := range root.named("b") {
		if n.attr["id"] != "" || n.attr["onclick"] != "" {
			t.Error("a text became an element")
		}
	}
}

// TestWholeText: an overlong text is shortened in sight and whole at hand.
func TestWholeText(t *testing.T) {
	a := rich()
	a.Title = strings.Repeat("Loft find, untested; ", 500)
	root, err := parse(written(t, a))
	if err != nil {
		t.Fatal(err)
	}
	head := root.named("h1")[0].words()
	if n := len([]rune(head)); n > titleRunes || !strings.HasSuffix(head, "…") {
		t.Errorf("the heading has %d characters: %q", n, head)
	}
	whole := root.all(func(n *node) bool { return n.has("whole") })
	if len(whole) != 1 || !strings.Contains(whole[0].words(), strings.TrimSpace(a.Title)) {
		t.Errorf("the whole title is not at hand")
	}
	if title := root.named("title")[0].words(); len([]rune(title)) > 2*titleRunes {
		t.Errorf("the window's title has %d characters", len(title))
	}
}

// TestNoFigure: what is not known is said so, and is never a nought.
func TestNoFigure(t *testing.T) {
	root, err := parse(written(t, unpriced()))
	if err != nil {
		t.Fatal(err)
	}
	said := withoutPlots(root).words()
	for _, want := range []string{
		"No figure: a price is missing",
		"There is no price for Pantograph, black.",
		"Without it nobody can say what this brings: restore and sell or get running and sell.",
		"2026-03-14,ce4-pantograph-black,sold,,,PRICE,EUR,,1,,",
		"Restore and sell no price for ce4-pantograph-black no figure no figure no figure no figure no figure",
		"Front pantograph seen missing 86%, sound 10%, bent 3%, wrong type 1% no figure",
		"Pantograph, black scarce no price no price no price 87% 0.94 43% 3",
		"Stop at no figure Careful no figure Asked 38.00 GBP lands at 72.05 EUR",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	for _, never := range []string{"0.00 GBP", "0.00 EUR", "lose money"} {
		if strings.Contains(root.words(), never) {
			t.Errorf("the page says %q", never)
		}
	}
}

// withoutPlots is a page without the words of its plots.
func withoutPlots(n *node) *node {
	out := *n
	out.kids = nil
	for _, k := range n.kids {
		if k.name != "svg" {
			out.kids = append(out.kids, withoutPlots(k))
		}
	}
	return &out
}

// TestEmpty: an appraisal without anything still is a page.
func TestEmpty(t *testing.T) {
	root, err := parse(written(t, &valuation.Appraisal{}))
	if err != nil {
		t.Fatal(err)
	}
	if got := root.named("h1")[0].words(); got != "Untitled listing" {
		t.Errorf("the heading is %q", got)
	}
}

func TestDemonstrationNote(t *testing.T) {
	for _, demo := range []bool{true, false} {
		a := rich()
		a.Demonstration = demo
		if got := strings.Contains(written(t, a), "Makers, models and prices are invented."); got != demo {
			t.Errorf("demonstration %v: the note is there: %v", demo, got)
		}
	}
}
