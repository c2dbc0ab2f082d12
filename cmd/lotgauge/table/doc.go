// Package table prints results for a person at a terminal or in a mail: plain
// words, columns that line up, no line longer than the width. It decides
// nothing and figures nothing; what it prints was decided under valuation.
//
// All text is made harmless (diag.Clean) before it is measured, wrapped before
// it is coloured, and written in one piece, so that no text from a listing can
// reach the terminal as a command, and no colour code upsets a width.
package table
