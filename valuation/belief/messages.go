package belief

// The three kinds of steps as linear maps on messages (one entry per mask),
// and their transposes (the forward and backward recursions of Rabiner 1989,
// section III.A, pp. 262-263). A message forward is P(what came before, mask),
// one backward P(what comes after | mask); their product over all masks is the
// evidence, at whichever step it is taken. q holds the point's weights, one per
// state.

// open puts a new top bit on: unset with 1-leak, set with leak.
func open(out, in []float64, leak float64) {
	n := len(in)
	for m, x := range in {
		out[m] = float64(x * (1 - leak))
		out[m+n] = float64(x * leak)
	}
}

// openBack is the transpose of open.
func openBack(out, in []float64, leak float64) {
	n := len(out)
	for m := range out {
		out[m] = float64(in[m]*(1-leak)) + float64(in[m+n]*leak)
	}
}

// shut drops a bit, weighed by the reports: explained or not.
func shut(out, in []float64, bit int, there, not float64) {
	for m := range out {
		lo := spread(m, bit)
		out[m] = float64(in[lo]*not) + float64(in[lo|bit]*there)
	}
}

// shutBack is the transpose of shut.
func shutBack(out, in []float64, bit int, there, not float64) {
	for m, x := range in {
		lo := spread(m, bit)
		out[lo] = float64(x * not)
		out[lo|bit] = float64(x * there)
	}
}

// spread makes room for a bit in a mask: what is at or above it moves up.
func spread(m, bit int) int { return m&(bit-1) | m&^(bit-1)<<1 }

// squeeze takes a bit out of a mask.
func squeeze(m, bit int) int { return m&(bit-1) | m>>1&^(bit-1) }

func squeezeAll(masks []int, bit int) {
	for k, m := range masks {
		masks[k] = squeeze(m, bit)
	}
}

// weigh sums over the states of a point, each of which may set bits: out = Σ
// q[s]·S(s)·in, where S(s) sets the bits of state s one after the other. Most
// states set none, and are taken together.
func weigh(out, in, tmp, q []float64, moves [][]move) {
	clear(out)
	same := 0.0 // weight of the states that set nothing
	for s, mv := range moves {
		if q[s] == 0 {
			continue
		}
		if len(mv) == 0 {
			same += q[s]
			continue
		}
		tmp = tmp[:copy(tmp, in)]
		for _, x := range mv {
			set(tmp, x.bit, x.p)
		}
		add(out, tmp, q[s])
	}
	if same > 0 {
		add(out, in, same)
	}
}

// weighBack is the transpose of weigh. It also fills marg, one per state, with
// the posterior weight of the state, alpha being the message before the point.
func weighBack(out, in, alpha, tmp, q, marg []float64, moves [][]move) {
	clear(out)
	same := 0.0
	straight := -1.0 // alpha·in, once it is needed
	for s, mv := range moves {
		marg[s] = 0
		if q[s] == 0 {
			continue
		}
		if len(mv) == 0 {
			if straight < 0 {
				straight = dot(alpha, in)
			}
			same += q[s]
			marg[s] = float64(q[s] * straight)
			continue
		}
		tmp = tmp[:copy(tmp, in)]
		for _, x := range mv {
			setBack(tmp, x.bit, x.p)
		}
		marg[s] = float64(q[s] * dot(alpha, tmp))
		add(out, tmp, q[s])
	}
	if same > 0 {
		add(out, in, same)
	}
}

// set moves weight p of every mask without the bit to the mask with it.
func set(a []float64, bit int, p float64) {
	for base := 0; base < len(a); base += 2 * bit {
		lo, hi := a[base:base+bit], a[base+bit:base+2*bit]
		for m, x := range lo {
			hi[m] += float64(x * p)
			lo[m] = float64(x * (1 - p))
		}
	}
}

// setBack is the transpose of set: the expectation over what set may do.
func setBack(a []float64, bit int, p float64) {
	for base := 0; base < len(a); base += 2 * bit {
		lo, hi := a[base:base+bit], a[base+bit:base+2*bit]
		for m, x := range lo {
			lo[m] = float64(x*(1-p)) + float64(hi[m]*p)
		}
	}
}

// add adds f·in to out.
func add(out, in []float64, f float64) {
	out = out[:len(in)]
	for m, x := range in {
		out[m] += float64(x * f)
	}
}

// dot is the inner product.
func dot(a, b []float64) float64 {
	sum := 0.0
	b = b[:len(a)]
	for m, x := range a {
		sum += float64(x * b[m])
	}
	return sum
}
