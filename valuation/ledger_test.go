package valuation

import (
	"bytes"
	"math/rand/v2"
	"os"
	"slices"
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
	var w *worths
	for k := range c.Weight {
		v := c.Variant[k]
		if k == hand.to {
			if !hand.next() {
				t.Fatalf("case %d is not dealt", k)
			}
			_, w, _ = hand.atMeanPrices()
		}
		if hand.variant != v {
			t.Fatalf("case %d is dealt as one of variant %d", k, hand.variant)
		}
		at := k - hand.from
		want := addUp(a, c, k)
		score := func(figure int) float64 { return a.ledger.outOf100(v, hand.tally[figure][at]) }
		within(t, "condition", score(scores+laneFound), want.found, 1e-9)
		within(t, "original", score(originality), 100*want.original/want.weight, 1e-9)
		within(t, "complete", score(completeness), 100*want.complete/want.weight, 1e-9)
		base := a.market.models[v].Sell.Mean
		net := func(score, factor float64) float64 { // the parcel sheet
			return base*newGrading(a.family.Grades).at(score)*factor*0.92 - 1.5
		}
		within(t, "as found", w[sellAsFound][at], net(want.found, want.factors[0]), 1e-9)
		within(t, "running", w[sellRunning][at], net(want.running, want.factors[1])-want.costs[1], 1e-9)
		within(t, "restored", w[sellRestored][at], net(want.restored, want.factors[2])-want.costs[2], 1e-9)
		within(t, "parts", w[partOut][at], want.yields-25.0/60*4, 1e-9)
		within(t, "kept", w[keepIt][at], 110-want.costs[2], 1e-9)
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
	h := a.ledger.deal(one)
	h.next()
	mean, _, _ := h.atMeanPrices()
	want := oneBill(mean, 0)
	var got caseBill
	const n = 82_000
	for _, b := range thrownBills(a.ledger, repeated(one, n), 7) {
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

// repeated is the first of some cases n times.
func repeated(c *belief.Cases, n int) *belief.Cases {
	out := &belief.Cases{Weight: slices.Repeat([]float64{1 / float64(n)}, n), Variant: bytes.Repeat(c.Variant[:1], n)}
	for _, column := range c.State {
		out.State = append(out.State, bytes.Repeat(column[:1], n))
	}
	return out
}

// caseBill is the bill of one case.
type caseBill struct{ base, run, all, yields float64 }

func oneBill(b *bill, k int) caseBill {
	return caseBill{b.base[k], b.run[k], b.all[k], b.yields[k]}
}

// thrownBills are the bills of all cases at thrown prices.
func thrownBills(l *ledger, c *belief.Cases, seed uint64) []caseBill {
	var out []caseBill
	p := l.newThrown(seed)
	for h := l.deal(c); h.next(); {
		b := p.throw(h)
		for k := range h.size() {
			out = append(out, oneBill(b, k))
		}
	}
	return out
}

func TestBestRoute(t *testing.T) {
	d := &deal{l: &ledger{open: [routes]bool{sellRunning: true, partOut: true}}, to: 2}
	var c choice
	c.choose(d, &worths{sellRestored: {90, 90}, sellRunning: {10, -20}, partOut: {10, -10}})
	if c.route[0] != sellRunning || c.worth[0] != 10 {
		t.Errorf("best is %d, want the first of equal open ones", c.route[0])
	}
	if c.route[1] != partOut || c.worth[1] != -10 {
		t.Errorf("best is %d, want the smaller loss", c.route[1])
	}
}

// TestNotSound: the set has the cases whose state is not 0, and no other.
func TestNotSound(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for n := range 65 {
		for range 50 {
			states, want := make([]uint8, n), uint64(0)
			for k := range states {
				if rng.IntN(3) == 0 {
					states[k] = []uint8{1, 2, 127, 128, 129, 254, belief.NotApplicable}[rng.IntN(7)]
					want |= 1 << k
				}
			}
			if got := notSound(states); got != want {
				t.Fatalf("%v: got %b, want %b", states, got, want)
			}
		}
	}
}
