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
// # Names
//
// An id is made of ASCII letters, digits, - and _, and is looked up exactly.
// It is unique within its list: features of a family, options of a feature,
// states of a point and so on; a point and a feature may share one. Part ids
// alone are one namespace over all families of a folder, so that a family may
// need a part that another defines. In a part id `{feature}` stands for the
// option that the variant left the factory with:
//
//	needs = ["lamp-{lamps}", { part = "screw", qty = 2 }]
//
// has to name parts for every variant the point applies to, and only for those.
//
// # Odds
//
// Odds are weights of any scale: of a state among the states of its point, per
// history; of a history among the histories. A bare number counts for all
// histories. Of a table, histories it does not name get weight 1, the default
// of odds left out altogether. Within a point, each history needs a state with
// odds above 0.
//
// # Defaults
//
// A title left out is the id. A family without a history list has one history,
// [AnyHistory], with odds 1, so that odds are always one weight a history. A
// point without `see` is settled in the hand, a symptom without it on the
// track. A text to ask for something is English unless it comes as a table by
// language. The remaining defaults stand with the fields.
//
// # Limits
//
// A list holds at most [MaxEach] entries, parts, rules and causes excepted:
// outcomes are stored as bytes, and the value 255 stands for a point that does
// not apply. Numbers are bounded far above anything meant, so that sums of them
// stay finite.
package checklist
