package charges

import (
	"math/big"
	"math/bits"

	"lotgauge/valuation/money"
)

// rates brings the rates of tiers to one denominator, the least common multiple
// of theirs, and takes the step of the rounding into it: what a charge comes to
// in steps is then its rates × its base ÷ one divisor.
func (c *compiler) rates(out *step, tiers []Tier) {
	common := big.NewInt(1)
	rates := make([]*big.Rat, len(tiers))
	for i, t := range tiers {
		rates[i] = t.Rate.Rat()
		den := rates[i].Denom()
		factor := new(big.Int).GCD(nil, nil, common, den)
		common.Mul(common, factor.Quo(den, factor))
	}
	for i := range tiers {
		factor := new(big.Int).Quo(common, rates[i].Denom())
		out.tiers[i].rate = c.uint64(factor.Mul(factor, rates[i].Num()))
	}
	out.divisor = c.uint64(common.Mul(common, new(big.Int).SetUint64(out.to)))
}

// smallRates is rates in 64 bits. It is false where they do not hold a figure on
// the way.
func (s *step) smallRates(tiers []Tier) (ok bool) {
	common := uint64(1)
	dens := make([]uint64, len(tiers))
	for i, t := range tiers {
		if s.tiers[i].rate, dens[i], ok = lowest(t.Rate); !ok {
			return false
		}
		if common, ok = times(common, dens[i]/gcd(common, dens[i])); !ok {
			return false
		}
	}
	for i, den := range dens {
		if s.tiers[i].rate, ok = times(s.tiers[i].rate, common/den); !ok {
			return false
		}
	}
	s.divisor, ok = times(common, s.to)
	return ok
}

// times is a × b. It is false where that is too large.
func times(a, b uint64) (uint64, bool) {
	high, low := bits.Mul64(a, b)
	return low, high == 0
}

// lowest is a rate in lowest terms. It is not ok where that does not fit into
// 64 bits or is below 0.
func lowest(rate money.Ratio) (num, den uint64, ok bool) {
	n, d, ok := rate.Fraction()
	if !ok || n < 0 {
		return 0, 0, false
	}
	num, den = uint64(n), uint64(d)
	divisor := gcd(num, den)
	return num / divisor, den / divisor, true
}

// gcd is the greatest common divisor of a and b, which are not both 0.
func gcd(a, b uint64) uint64 {
	for b > 0 {
		a, b = b, a%b
	}
	return a
}
