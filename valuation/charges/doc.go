// Package charges works out what a lot costs in the end, and what a sale
// brings, by a charge sheet: an ordered list of charges on a hammer price or
// on a sale price. It also answers the inverse question, which bid still keeps
// the landed cost within a budget.
//
// All of it is exact. Amounts are decimals, rates are fractions, and a figure
// is rounded only where the sheet says so.
package charges
