// Package prices keeps what the user has seen sold and asked, and the exchange
// rates to compare it by, and says from them what an item costs, what it
// brings and how hard it is to find.
//
// A [Table] is prices.csv, [Rates] the file of exchange rates. Both are read
// whole, with every bad line reported, into integers: a price is the digits of
// its text and the place of its point, a day a number of days. Decimals are
// built for the rows that are asked for.
//
// The files are the user's and may be edited by hand, come from a spreadsheet
// or be no table at all. Whatever they are, the answer is a value that can be
// used and a list of what is wrong, by line; nothing panics, and memory is
// bounded by the size of the file.
//
// [Table.Estimate] turns the rows of one item into two [Quote] values, 41
// equally likely prices each, one for selling it and one for buying it with
// postage in. It works on logarithms with a normal-inverse-gamma [Belief].
// [Table.Scarcity] turns the same rows into the chance of finding one in time.
//
// Nothing here looks at a clock: days are given, and rows after the day asked
// about are as if not there, so an old appraisal can be done again.
//
// Estimates are floats. Equal input gives equal figures on every platform: see
// Student.prices for how.
package prices
