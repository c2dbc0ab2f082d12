package checklist

import (
	"slices"
	"strings"

	"lotgauge/valuation/diag"
	"lotgauge/valuation/money"
)

// The largest numbers a family may hold. They are far above anything meant, and
// keep sums of them finite.
const (
	maxWeight  = 1e9 // odds, made (numbers built will do) and weights
	maxMinutes = 100_000
	maxFactor  = 100
)

// evidence is the ways of settling something that a seller does not hide.
var evidence = [...]string{"hand", "track", "photo", "seller"}

// titled is the title of a table, its id where it has none.
func titled(t *diag.Table, id string) string {
	if title := t.Text("title"); title != "" {
		return title
	}
	return id
}

// amount reads money.
func amount(t *diag.Table, key string) *money.Amount {
	if a, ok := diag.Parse(t, key, `money such as "45 EUR"`, money.ParseAmount); ok {
		return &a
	}
	return nil
}

// guide reads a price that a logarithm will be taken of.
func guide(t *diag.Table) *money.Amount {
	a := amount(t, "guide")
	if a != nil && a.Value.IsZero() {
		t.Report("guide", "a guide of nothing", "more than 0", "leaving the key out where no price is known")
		return nil
	}
	return a
}

// share reads a rate of at most the whole; nil where there is none.
func share(t *diag.Table, key string) *float64 {
	f := rate(t, key)
	if f != nil && *f > 1 {
		t.Report(key, "a share over the whole", `between "0%" and "100%"`, "")
	}
	return f
}

// rate reads a rate; nil where there is none.
func rate(t *diag.Table, key string) *float64 {
	r, ok := diag.Parse(t, key, `a rate such as "85%" or "1/6"`, money.ParseRate)
	if !ok {
		return nil
	}
	f := r.Float()
	return &f
}

// phrases reads a text that may come in several languages.
func phrases(t *diag.Table) Phrases {
	const key = "ask"
	switch {
	case !t.Has(key):
		return nil
	case !t.IsTable(key):
		return Phrases{"en": t.Required(key)}
	}
	out := Phrases{}
	c := t.Child(key)
	for _, tag := range c.Keys() {
		out[tag] = c.Required(tag)
		if len(tag) != 2 || strings.Trim(tag, "abcdefghijklmnopqrstuvwxyz") != "" {
			c.Report(tag, quoted(tag)+" is no language", "two lower-case letters, such as en, de or fr", "")
		}
	}
	if len(out) == 0 {
		t.Report(key, "no phrase", `a text, or one a language: { en = "…", de = "…" }`, "")
	}
	return out
}

// see reads the evidence that can settle something.
func see(t *diag.Table, usual string) []string {
	const key = "see"
	if !t.Has(key) {
		return []string{usual}
	}
	ways := t.Texts(key)
	eachOnce(t, key, "evidence", ways, evidence[:])
	if len(ways) == 0 {
		t.Report(key, "nothing settles it", "at least one of "+anyOf(evidence[:]), "")
	}
	return ways
}

// minded is what may be named as to be minded of a check.
var minded = [...]string{MindOpening, MindPower, MindSolvent}

// mind reads what is to be minded of a check, nil where that is not said.
func mind(t *diag.Table) []string {
	const key = "mind"
	if !t.Has(key) {
		return nil
	}
	named := append([]string{}, t.Texts(key)...)
	eachOnce(t, key, "thing to mind", named, minded[:])
	return named
}

// eachOnce reports words that are none of the known ones, or are there twice.
func eachOnce(t *diag.Table, key, kind string, words, known []string) {
	for i, word := range words {
		if !slices.Contains(known, word) {
			t.ReportItem(key, i, "unknown "+kind+" "+quoted(word), anyOf(known), try(near(word, known)))
		} else if slices.Contains(words[:i], word) {
			t.ReportItem(key, i, quoted(word)+" named twice", "each once", "")
		}
	}
}
