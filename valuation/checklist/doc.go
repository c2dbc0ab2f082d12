// Package checklist reads the checklist of a family: which variants there are,
// what to inspect on them, how often which fault occurs, what its remedy needs
// and which rules warn of a bad buy.
//
// [Read] turns a document into a [Family] in which every name is resolved to
// an index, and reports everything wrong with it at once, each with its place.
// [Prove] goes further and looks for what can be read but cannot be meant: a
// rule that never fires, a symptom that nothing causes, a remedy that is never
// carried out. The package computes no chance and no price.
//
// # Defaults
//
// A title left out is the id. A family without a history list has one history,
// "any", with odds 1, so that odds are always one weight a history. Odds given
// as a bare number count for all histories; of a table, histories it does not
// name get weight 1. A point without `see` is settled in the hand, a symptom
// without it on the track. The remaining defaults stand with the fields.
//
// # Limits
//
// A list holds at most [MaxEach] entries, parts and rules excepted: outcomes
// are stored as bytes, and the value 255 stands for a point that does not
// apply.
package checklist
