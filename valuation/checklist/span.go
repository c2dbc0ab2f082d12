package checklist

import "math"

// A span is the values between two bounds. A bound belongs to the span unless it
// is open.
type span struct {
	low, high         float64
	lowOpen, highOpen bool
}

// spanOf is what a figure can be.
func spanOf(figure string) span {
	if figure == "repair-share" { // a cost over a price
		return span{low: 0, high: math.Inf(1)}
	}
	return span{low: 0, high: 1}
}

// span is the values between the bounds of a condition on a figure.
func (c Condition) span() span {
	s := span{low: math.Inf(-1), high: math.Inf(1)}
	if c.Above != nil {
		s.low, s.lowOpen = *c.Above, true
	}
	if c.Below != nil {
		s.high, s.highOpen = *c.Below, true
	}
	return s
}

// outside is the values not between the bounds; false where these are not one
// span.
func (c Condition) outside() (span, bool) {
	switch {
	case c.Above != nil && c.Below == nil:
		return span{low: math.Inf(-1), high: *c.Above}, true
	case c.Above == nil && c.Below != nil:
		return span{low: *c.Below, high: math.Inf(1)}, true
	}
	return span{}, false
}

// and is what two spans have in common.
func (s span) and(t span) span {
	if t.low > s.low || t.low == s.low && t.lowOpen {
		s.low, s.lowOpen = t.low, t.lowOpen
	}
	if t.high < s.high || t.high == s.high && t.highOpen {
		s.high, s.highOpen = t.high, t.highOpen
	}
	return s
}

// empty tells whether there is no value in the span.
func (s span) empty() bool {
	return s.low > s.high || s.low == s.high && (s.lowOpen || s.highOpen)
}

// contradiction is a figure whose bounds in an all-of leave no value. Bounds in
// a further all count, and so does a not with one bound. It takes the figures in
// the order of Figures, and the first found is the answer.
func contradiction(c Condition) (string, bool) {
	left := map[string]span{}
	var gather func(Condition)
	gather = func(c Condition) {
		for _, inner := range c.All {
			gather(inner)
		}
		held, ok := c.span(), c.Figure != ""
		if c.Not != nil && c.Not.Figure != "" {
			c = *c.Not
			held, ok = c.outside()
		}
		if ok {
			s, seen := left[c.Figure]
			if !seen {
				s = spanOf(c.Figure)
			}
			left[c.Figure] = s.and(held)
		}
	}
	gather(c)
	for _, name := range Figures {
		if s, ok := left[name]; ok && s.empty() {
			return name, true
		}
	}
	return "", false
}
