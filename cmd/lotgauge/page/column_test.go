package page

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"lotgauge/valuation"
)

// TestColumnAddsUp: the fixture obeys the promise that the page shows, to the
// cent, and every bar ends where the next begins.
func TestColumnAddsUp(t *testing.T) {
	steps := rich().Reading.Steps
	sum := decimal.Zero
	for _, s := range steps {
		switch {
		case foreign(s):
		case s.Sum && !s.Amount.Equal(sum):
			t.Errorf("%s is %s, but the lines add up to %s", s.ID, s.Amount, sum)
		case !s.Sum:
			sum = sum.Add(s.Amount.Decimal)
		}
	}
	spans := columnSpans(steps)
	at := 0.0
	for i, x := range spans[:len(spans)-1] {
		if steps[i].Sum {
			if x.before != 0 || x.after != at {
				t.Errorf("the sum %s stands from %v to %v, want 0 to %v", steps[i].ID, x.before, x.after, at)
			}
			continue
		}
		if x.before != at {
			t.Errorf("%s begins at %v, want %v", steps[i].ID, x.before, at)
		}
		at = x.after
	}
}

func TestColumnLines(t *testing.T) {
	c := newView(rich()).Column
	first, fall, sum, bid := c.Lines[0], c.Lines[1], c.Lines[6], c.Lines[11]
	if first.Title.Short != "A sound one at the reference grade" || first.Amount != "204.28" || len(first.Bar.of("rect", "sum")) != 1 {
		t.Errorf("first line %+v", first)
	}
	if fall.Amount != "−31.35" || fall.Bar.Title != "From 204 down to 173" || len(fall.Bar.of("rect", "down")) != 1 {
		t.Errorf("second line %+v", fall)
	}
	if !sum.Sum || sum.Amount != "80.96" {
		t.Errorf("sum %+v", sum)
	}
	if bid.Bar != nil || bid.Currency != "GBP" || bid.Amount != "42.00" {
		t.Errorf("last line %+v", bid)
	}
}

// TestColumnBelowNought: a sum that falls below nought has its bars on both
// sides of the ground.
func TestColumnBelowNought(t *testing.T) {
	a := rich()
	a.Reading.Steps = []valuation.Step{
		{Title: "a", Amount: cash("10.00")}, {Title: "b", Amount: cash("-40.00")},
		{Title: "c", Amount: cash("0.01")}, {Title: "d", Amount: cash("-29.99"), Sum: true},
	}
	lines := newView(a).Column.Lines
	ground := number(t, lines[0].Bar.of("line", "ground")[0].X)
	low := lines[3].Bar.of("rect", "sum")[0]
	if x := number(t, low.X); x >= ground || x+number(t, low.W) < ground-0.02 {
		t.Errorf("the sum stands from %v over %v, the ground is at %v", x, low.W, ground)
	}
	up := lines[2].Bar.of("rect", "up")
	if len(up) != 1 || number(t, up[0].W) < hairline {
		t.Errorf("a tiny rise is drawn %+v", up)
	}
}

func TestBill(t *testing.T) {
	b := newView(rich()).Bill
	var got []string
	for _, l := range b.Lines {
		text := l.Title.Short + " " + l.Amount
		if l.Memo {
			text += " memo"
		}
		if l.Zero {
			text += " zero"
		}
		got = append(got, text)
	}
	want := []string{
		"Hammer price 38.00", "Buyer's premium 9.50", "VAT on premium 1.90", "Customs value 47.50 memo",
		"Duty 0.00 zero", "Packing and insured postage 11.50",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if b.Total != "60.90" || b.Landed != "72.05" {
		t.Errorf("total %s, landed %s", b.Total, b.Landed)
	}
	yen := rich()
	yen.Purchase.Total, yen.Purchase.Lines[0].Amount = cashPtr("60"), cash("38")
	if b := newView(yen).Bill; b.Total != "60\u2008\u2007\u2007" || b.Lines[0].Amount != "38\u2008\u2007\u2007" {
		t.Errorf("total %q is not aligned with %q", b.Total, b.Landed)
	}
	none := rich()
	none.Purchase.Ask = nil
	if newView(none).Bill != nil {
		t.Error("there is a bill without an ask")
	}
}
