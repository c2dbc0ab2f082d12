package valuation

// loan lends columns of figures, one a case, for the time of an appraisal. They
// come to megabytes, and the next appraisal needs as many again.
type loan struct{ free, lent [][]float64 }

// column is a column of so many figures. What they are is left open. A nil loan
// gives columns away.
func (x *loan) column(n int) []float64 {
	if x == nil {
		return make([]float64, n)
	}
	var c []float64
	if last := len(x.free) - 1; last >= 0 {
		c, x.free = x.free[last], x.free[:last]
	}
	if cap(c) < n {
		c = make([]float64, n)
	}
	x.lent = append(x.lent, c)
	return c[:n]
}

// end takes all columns back. None may be used any longer.
func (x *loan) end() {
	x.free = append(x.free, x.lent...)
	x.lent = x.lent[:0]
}
