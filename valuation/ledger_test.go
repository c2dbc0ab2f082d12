package valuation

import (
	"os"
	"strings"
	"testing"
	"time"

	"lotgauge/valuation/belief"
)

// prepared is an appraiser of the reference folder, up to its ledger.
func prepared(t *testing.T, listing string) *appraiser {
	t.Helper()
	x, diags := ReadListing("x.toml", strings.NewReader("format = 1\ntitle = \"x\"\nfamily = \"quillmore-t3\"\ndate = 2026-03-14\n"+listing))
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	l := Open(os.DirFS("../testdata/reference/appraise"), "", false)
	a, diags := l.prepare(x, Options{Today: time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)})
	for _, step := range []func() (string, error){
		func() (string, error) { return "prepare", diags.Err() },
		func() (string, error) { return "infer", a.infer().Err() },
		func() (string, error) { return "price", a.price().Err() },
	} {
		if name, err := step(); err != nil {
			t.Fatal(name, err)
		}
	}
	return a
}

// plain is a case added up the plain way, point by point from the family, as
// the design words it: no differences, no shortcuts.
type plain struct {
	weight, original, complete float64
	found, running, restored   float64 // condition scores of 100
	factors                    [3]float64
	costs                      [3]float64
	yields                     float64
}

func addUp(a *appraiser, c *belief.Cases, k int) plain {
	f, v := a.family, int(c.Variant[k])
	p := plain{factors: [3]float64{1, 1, 1}}
	var scores [3]float64
	for i := range f.Points {
		pt := &f.Points[i]
		if !pt.Applies[v] {
			continue
		}
		s := int(c.State[i][k])
		st := &pt.States[s]
		p.weight += pt.Weight
		p.original += pt.Weight * float64(bit(st.Original))
		p.complete += pt.Weight * float64(bit(st.Complete))
		curable := s > 0 && !st.Incurable
		for way, remedied := range []bool{false, curable && pt.NeededToRun, curable} {
			at := st
			if remedied {
				at = &pt.States[0]
				p.costs[way] += st.Minutes / 60 * 4 // the settings' bench rate
				for _, n := range st.Needs {
					p.costs[way] += float64(n.Qty) * a.market.parts[n.Part[v]].Buy.Mean
				}
				if st.Spend != nil {
					p.costs[way] += st.Spend.Value.InexactFloat64()
				}
			}
			scores[way] += pt.Weight * at.Score
			p.factors[way] *= at.Factor
		}
		for _, y := range st.Yields {
			part := y.Part[v]
			p.yields += float64(y.Qty) * a.ledger.sells[part] * (a.market.parts[part].Sell.Mean*0.92 - 1) // the letter sheet
		}
	}
	p.found, p.running, p.restored = 100*scores[0]/p.weight, 100*scores[1]/p.weight, 100*scores[2]/p.weight
	return p
}

// TestLedgerAgainstPlainSums: the ledger adds up only what is not sound; the
// plain sums over all points, and the worths worked out from them by hand, are
// the same.
func TestLedgerAgainstPlainSums(t *testing.T) {
	a := prepared(t, "keep_worth = \"110 EUR\"\n")
	c := a.posterior.Draw(2000, 3)
	hand := a.ledger.deal(c)
	for k := range c.Weight {
		v := c.Variant[k]
		if k == hand.to && !hand.next() || hand.variant != v {
			t.Fatalf("case %d is not dealt", k)
		}
		got := hand.tally(k)
		want := addUp(a, c, k)
		within(t, "condition", a.ledger.outOf100(v, got.found.score), want.found, 1e-9)
		within(t, "original", a.ledger.outOf100(v, got.original), 100*want.original/want.weight, 1e-9)
		within(t, "complete", a.ledger.outOf100(v, got.complete), 100*want.complete/want.weight, 1e-9)
		w := a.ledger.worths(v, got, a.ledger.meanBill(v, got))
		base := a.market.models[v].Sell.Mean
		net := func(score, factor float64) float64 { // the parcel sheet
			return base*newGrading(a.family.Grades).at(score)*factor*0.92 - 1.5
		}
		within(t, "as found", w[sellAsFound], net(want.found, want.factors[0]), 1e-9)
		within(t, "running", w[sellRunning], net(want.running, want.factors[1])-want.costs[1], 1e-9)
		within(t, "restored", w[sellRestored], net(want.restored, want.factors[2])-want.costs[2], 1e-9)
		within(t, "parts", w[partOut], want.yields-25.0/60*4, 1e-9)
		within(t, "kept", w[keepIt], 110-want.costs[2], 1e-9)
		if t.Failed() {
			t.Fatalf("case %d of variant %d", k, v)
		}
	}
}

// TestDrawnBillIsFair: over many draws the drawn prices average to the mean
// prices, item by item and in the whole bill.
func TestDrawnBillIsFair(t *testing.T) {
	a := prepared(t, "variant = \"310\"\n")
	one := &belief.Cases{Weight: []float64{1}, Variant: []uint8{0}, State: [][]uint8{{1}, {3}, {1}, {2}, {0}, {belief.NotApplicable}}}
	tl := tallyOf(a.ledger, one)
	want := a.ledger.meanBill(0, tl)
	var got bill
	const n = 82_000
	for k := range n {
		b := billOf(a.ledger.newThrown(7), 0, k, tl)
		got.base += b.base / n
		got.run += b.run / n
		got.all += b.all / n
		got.yields += b.yields / n
	}
	// Four standard errors, the deviation of a price being about a third of it.
	for _, c := range []struct {
		what      string
		got, want float64
	}{{"base", got.base, want.base}, {"running", got.run, want.run}, {"all", got.all, want.all}, {"yields", got.yields, want.yields}} {
		within(t, c.what, c.got, c.want, 4*0.34*c.want/286+1e-9)
	}
}

// tallyOf is the tally of the first case.
func tallyOf(l *ledger, c *belief.Cases) *tally {
	d := l.deal(c)
	d.next()
	return d.tally(0)
}

// billOf is the bill at the prices of draw k.
func billOf(p *thrown, v uint8, k int, t *tally) bill {
	p.throw(v, k, k+1)
	return p.bill(0, t)
}

func TestBestRoute(t *testing.T) {
	l := &ledger{open: [routes]bool{sellRunning: true, partOut: true}}
	if got := l.best(&[routes]float64{sellRestored: 90, sellRunning: 10, partOut: 10}); got != sellRunning {
		t.Errorf("best is %d, want the first of equal open ones", got)
	}
	if got := l.best(&[routes]float64{sellRestored: 90, sellRunning: -20, partOut: -10}); got != partOut {
		t.Errorf("best is %d, want the smaller loss", got)
	}
}
