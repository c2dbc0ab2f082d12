// Package diag reads documents that people write by hand and says, for every
// mistake at once, where it is, what was expected there and what to try.
//
// [ReadDocument] decodes TOML into a tree of [Table]s. A reader asks a table
// for what it needs with typed getters. A getter never fails: it reports what
// is wrong with file, line and column, returns a harmless value and goes on.
// [Table.Finish] then refuses the keys nobody asked for. What was found is a
// [List] of [Diagnostic]s, which sorts, prints and acts as an error.
//
//	doc := diag.ReadDocument("settings.toml", r)
//	t := doc.Root()
//	draws := t.Integer("draws", 20000, 1, 1_000_000)
//	trust := t.Child("trust").Number("photo", 0.95, 0, 1)
//	t.Finish() // t, and the tables got from it
//	if err := doc.Diagnostics().Err(); err != nil { … }
//
// The package knows nothing of what the documents mean.
//
// # One mistake, one diagnostic
//
// A value that a getter has refused is not spoken of again: not by other
// getters, nor by a reader that stumbles over the harmless value it got
// instead. So readers need not ask whether a getter succeeded before they look
// an id up. Where the parser stops within one value or key, a stand-in takes its
// place and counts as refused (mend.go), so that the rest is read all the same.
// A document that cannot be read at all says so once, and the getters of its
// empty root report nothing.
//
// # Optional and required
//
// A key may be left out unless its getter says otherwise ([Table.Required],
// [Table.ID]) or [Table.Need] was asked first. What is left out gives the default
// the getter was told, or nothing; a nil [Table] stands for a table left out.
// A value of null does not exist in TOML: what is there is always of some type,
// and a wrong type is an error, never a default.
//
// # Positions and paths
//
// Lines, columns and the elements in a path, as in point[3].state[1], count
// from 1, as editors and people do; only the index that [Table.ItemPos] and
// [Table.ReportItem] take is Go's, from 0. A wrong value is reported where the
// value stands, an unknown key where the key stands, a missing key at the head
// of its table, and of the root as a matter of the whole file.
//
// # Wording
//
// All diagnostics read alike, whoever writes them:
//
//	file:line:col: key: summary: expected …; try …
//
// A summary says what is wrong in one line, lower case, without full stop, and
// need not repeat the key. Expected follows the word "expected" and names the
// right kind of thing with an example where that helps. Try follows the word
// "try" and is something to type. Text from the document goes into them through
// [strconv.Quote]; whatever is printed goes through [Clean] besides.
//
// # How it is done
//
// The TOML parser tells values, but no positions of keys, and it stops at the
// first value of a wrong type; so it decodes into maps, where only the syntax
// can be wrong. Positions come from a small scanner of our own, locate.go, which
// knows where keys and elements stand and nothing of values. Tests and fuzzing
// hold the scanner against the parser's list of keys.
package diag
