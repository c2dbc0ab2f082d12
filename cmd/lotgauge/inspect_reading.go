package main

import (
	"context"
	"strings"

	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// spoken is an answer with what it was taken for, where it is a reading.
func spoken(answer string, taken valuation.Taken) string {
	if taken.Against == "" {
		return answer
	}
	return answer + ": " + taken.String()
}

// confirm questions a reading that is rather a slip. At a keyboard it asks
// whether to keep it; whoever is not there to be asked is warned.
func (d *dialogue) confirm(ctx context.Context, c valuation.Check, answer string, taken valuation.Taken) (bool, error) {
	doubt := c.Title + ": " + answer + " is far from what any state reads"
	if taken.Right != "" {
		doubt += "; right: " + taken.Right
	}
	if !d.from.live() {
		at, _ := d.from.place()
		d.warn(diag.List{{Severity: diag.Warning, Pos: at, Summary: doubt, Try: "measuring again, and the newer reading"}})
		return true, nil
	}
	if err := d.objectText(doubt); err != nil {
		return false, err
	}
	text, err := d.from.ask(ctx, "y keep it, any other key to type it again: ", false)
	return strings.EqualFold(text, "y"), err
}
