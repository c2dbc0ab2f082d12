package valuation

// Against reports whether the rows speak against the factor of the file: their
// interval leaves it out.
func (x *FittedFactor) Against() bool {
	return x.Known && (x.File < x.Low || x.File > x.High)
}
