package valuation_test

import (
	"fmt"
	"os"
	"strings"
	"time"

	"lotgauge/valuation"
)

// A model is on the table for 48 EUR. The inspection asks for what pays, and says
// after each answer where to stop.
func ExampleLibrary_Inspect() {
	l := valuation.Open(os.DirFS("../testdata/reference/appraise"), "", false)
	find, diags := l.NewFind("quillmore-t3", "48", "table", time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC))
	if diags.HasErrors() {
		fmt.Println(diags)
		return
	}
	n, diags := l.Inspect(find, valuation.InspectOptions{})
	if diags.HasErrors() {
		fmt.Println(diags)
		return
	}
	stop := func() {
		p := n.Standing().Purchase
		fmt.Printf("Stop at %s %s, careful at %s.\n", p.BreakEvenBid.Text(), p.Currency, p.CarefulBid.Text())
	}
	stop()
	found := map[string]string{"reverser": "sound", "paint": "chipped"}
	for check, ok := n.Next(); ok; check, ok = n.Next() {
		fmt.Printf("%s? %s.\n", check.Title, found[check.ID])
		if diags := n.Answer(check, found[check.ID]); diags.HasErrors() {
			fmt.Println(diags)
			return
		}
		stop()
	}
	if _, ok := n.Next(); !ok {
		fmt.Println("Looking further no longer pays.")
	}
	// Output:
	// Stop at 67.00 EUR, careful at 40.00.
	// Reverser? sound.
	// Stop at 74.00 EUR, careful at 49.00.
	// Paint and lettering? chipped.
	// Stop at 72.00 EUR, careful at 49.00.
	// Looking further no longer pays.
}

// The listing that comes of an inspection is a file that can be appraised.
func ExampleListing_WriteTOML() {
	find := &valuation.Listing{
		Title: `A "rare" one`, Family: "quillmore-t3", Date: time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC), Buy: "table",
		Findings: []valuation.Finding{
			{Point: "lamps", State: "missing", By: valuation.ByHand},
			{Symptom: "no-movement", Present: false, By: valuation.ByTrack, Note: "on nine volts"},
		},
	}
	var text strings.Builder
	if err := find.WriteTOML(&text); err != nil {
		fmt.Println(err)
	}
	fmt.Print(text.String())
	// Output:
	// format = 1
	// title = "A \"rare\" one"
	// family = "quillmore-t3"
	// date = 2026-03-14
	// sale = "auction"
	// buy = "table"
	//
	// [[finding]]
	// point = "lamps"
	// state = "missing"
	// by = "hand"
	//
	// [[finding]]
	// symptom = "no-movement"
	// present = false
	// by = "track"
	// note = "on nine volts"
}

// A reckoner on paper: begin a little below what one that nobody has looked at is
// worth, and add what each thing found changes.
func ExampleLibrary_Reckon() {
	l := valuation.Open(os.DirFS("../testdata/reference/appraise"), "", false)
	o := valuation.ReckonOptions{Variant: "310", Buy: "table"}
	o.Today = time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)
	r, diags := l.Reckon("quillmore-t3", o)
	if diags.HasErrors() {
		fmt.Println(diags)
		return
	}
	fmt.Println("unseen", r.Unseen.Bid.Text(), r.SheetCurrency)
	fmt.Println("begin at", r.Start.Bid.Text(), "with", r.Sound.Bid.Text(), "the most and", r.Floor.Bid.Text(), "the least")
	for _, check := range r.Checks[:2] {
		fmt.Println(check.Title)
		for _, state := range check.States {
			fmt.Printf("  %-12s %6s\n", state.Title, state.Change.Bid.Text())
		}
	}
	all := r.Errors[len(r.Errors)-1]
	fmt.Printf("with all checked off by %s, in a tenth of cases by more than %s\n", all.Mean.Text(), all.P90.Text())
	// Output:
	// unseen 55.11 EUR
	// begin at 55.01 with 68.26 the most and 12.71 the least
	// Reverser
	//   sound          4.77
	//   dead         -20.75
	//   bypassed     -21.99
	// Paint and lettering
	//   sound          3.92
	//   chipped        0.03
	//   repainted    -21.16
	// with all checked off by 0.30, in a tenth of cases by more than 1.00
}
