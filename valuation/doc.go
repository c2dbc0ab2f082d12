// Package valuation decides what a second-hand lot is worth to one buyer.
//
// It holds a listing against the inspection checklist of its family, infers
// what is probably wrong with the model (package belief), prices what that
// would cost and bring (package prices), and turns the expected worth into the
// bid at which to stop by inverting the charge sheet of the place of sale
// (package charges).
//
// The engine does no input or output of its own: a Library reads from an
// fs.FS, everything else from values. It looks at no clock, prints nothing and
// keeps no global state. The same input and seed give the same bytes, js/wasm
// included.
//
// Money that is paid is an exact decimal; chances, scores and estimates are
// floats; package money holds the one bridge between the two.
package valuation
