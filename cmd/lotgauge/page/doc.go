// Package page writes the report of one appraisal as a single HTML file: to be
// read on a laptop or a phone, printed on two sheets, put away with the
// receipt. It decides nothing and figures nothing; what it shows was decided
// under valuation.
//
// The file needs nothing but itself: no script, no font, no picture, no
// address. Its Content-Security-Policy forbids all of them. Plots are plain
// SVG, drawn across in percents of their width and down in pixels, so that
// bars stretch with the screen while the lettering keeps its size; every one
// has a title, a description and a table of the same numbers beside it.
//
// Text from a listing or a data folder stays text. It is made harmless
// (diag.Clean), shortened where it is overlong with the whole of it at hand,
// kept apart from the writing direction around it (<bdi>), and escaped by
// html/template. No value is ever cast to a safe type.
//
// The same appraisal gives the same bytes.
package page
