package charges

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/money"
)

// Rates are compiled to the same numbers in 64 bits and in any.
func TestSmallRatesLaw(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 1))
	small, large := 0, 0
	for range 20_000 {
		tiers := make([]Tier, 1+r.IntN(4))
		for i := range tiers {
			tiers[i].Rate = anyRate(r)
		}
		to := 1 + r.Uint64N(1<<r.IntN(20))
		quick := step{to: to, tiers: make([]band, len(tiers))}
		if !quick.smallRates(tiers) {
			large++
			continue
		}
		small++
		exact := step{to: to, tiers: make([]band, len(tiers))}
		c := compiler{ok: true}
		c.rates(&exact, tiers)
		if !c.ok || !slices.Equal(quick.tiers, exact.tiers) || quick.divisor != exact.divisor {
			t.Fatalf("%v to %d: %v ÷ %d, want %v ÷ %d, %v", tiers, to, quick.tiers, quick.divisor, exact.tiers, exact.divisor, c.ok)
		}
	}
	if small < 5000 || large < 1000 {
		t.Errorf("%d in 64 bits, %d not", small, large)
	}
}

// anyRate is a percentage or a fraction, of few digits or of many, and now and
// then below 0.
func anyRate(r *rand.Rand) money.Ratio {
	many := int64(200)
	if r.IntN(5) == 0 {
		many = math.MaxInt64
	}
	num := decimal.New(r.Int64N(many), -int32(r.IntN(4)))
	if r.IntN(40) == 0 {
		num = num.Neg()
	}
	if r.IntN(2) == 0 {
		return money.WholeRatio(num.Shift(-2))
	}
	return money.NewRatio(num, decimal.New(1+r.Int64N(many), -int32(r.IntN(3))))
}

// Units are those of the decimal, and what does not fit is told.
func TestCompilerUnitsLaw(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 2))
	fits := 0
	for range 20_000 {
		d := decimal.New(r.Int64()>>r.IntN(63), -int32(r.IntN(4)))
		if r.IntN(4) == 0 {
			d = d.Neg()
		}
		c := compiler{scale: 3 + int32(r.IntN(4)), ok: true}
		got, want := c.units(d), d.Shift(c.scale)
		if c.ok != want.BigInt().IsUint64() || c.ok && !decimal.NewFromUint64(got).Equal(want) {
			t.Fatalf("%s: got %d, %v, want %s", d, got, c.ok, want)
		}
		if c.ok {
			fits++
		}
	}
	if fits < 5000 || fits > 19_000 {
		t.Errorf("%d of 20,000 fit", fits)
	}
}

// The bids up to a limit are as many as steps fit, and one.
func TestRungsToLaw(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 3))
	number := func() decimal.Decimal { return decimal.New(1+r.Int64()>>r.IntN(63), int32(r.IntN(5)-3)) }
	for range 20_000 {
		st, limit := stretch{first: number(), step: number()}, number()
		want := int64(0)
		if limit.GreaterThanOrEqual(st.first) {
			steps, _ := limit.Sub(st.first).QuoRem(st.step, 0)
			if want = math.MaxInt64; steps.LessThan(decimal.New(math.MaxInt64, 0)) {
				want = steps.IntPart() + 1
			}
		}
		if got := rungsTo(limit, st); got != want {
			t.Fatalf("from %s in steps of %s to %s: %d bids, want %d", st.first, st.step, limit, got, want)
		}
	}
}
