// Package charges works out what a lot costs in the end, and what a sale
// brings, by a charge sheet: an ordered list of charges on a hammer price or
// on a sale price. It also answers the inverse question, which bid still keeps
// the landed cost within a budget.
//
// All of it is exact. Amounts are decimals, rates are fractions, and a figure
// is rounded only where the sheet says so: each line when it is worked out, and
// once more what the total lands at in another currency. There are no floats.
//
// # The inverse
//
// Solving for the bid is not a formula and not one bisection. A fee of 25% of
// the whole price up to 500 and 20% above makes a bid of 501 cheaper than one
// of 500: within 610, bids up to 488 fit, then none to 500, then 501 to 508.
// [Sheet.Highest] finds 508. It cuts the ladder of bids into runs on which no
// line falls, which takes one bisection for each place where one can, and looks
// in the highest run that can hold a bid within the budget, then in the next.
// A few hundred bills are made on the way. They are made in integers where 64
// bits hold the sheet, and else in decimals as all others.
package charges
