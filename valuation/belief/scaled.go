package belief

import "math"

// A scaled number is m·2^e with m in [1/2, 1), or zero. Products of many small
// probabilities stay in range, and scaling by powers of two loses no digit. It
// needs neither Log nor Exp, the second of which differs between platforms.
type scaled struct {
	m float64
	e int
}

var one = scaled{0.5, 1}

// times returns x·f, for f not negative.
func (x scaled) times(f float64) scaled {
	fm, fe := math.Frexp(f)
	m, e := math.Frexp(x.m * fm)
	return scaled{m, x.e + fe + e}
}

// mul returns x·y.
func (x scaled) mul(y scaled) scaled {
	m, e := math.Frexp(x.m * y.m)
	return scaled{m, x.e + y.e + e}
}

// over returns x as a plain number in units of 2^e.
func (x scaled) over(e int) float64 { return math.Ldexp(x.m, x.e-e) }

// largest is what sums of scaled numbers are taken in units of: it is the
// highest exponent among those of xs that are not zero.
func largest(xs []scaled) (e int, positive bool) {
	for _, x := range xs {
		if x.m > 0 && (!positive || x.e > e) {
			e, positive = x.e, true
		}
	}
	return e, positive
}
