// Package money keeps amounts of money exact: decimals read from text, rates
// as fractions, named rounding rules and the minor units of ISO 4217.
//
// Nothing here divides with a silently rounded result. A quotient stays a
// fraction, a [Ratio], until a [Rounding] brings it to a multiple of a step,
// and that is decided on integers. Floats appear in float.go only.
//
// Every parser bounds the digits it accepts before it builds a number, so no
// text, however long, makes a number that is slow to work with.
package money
