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
package diag
