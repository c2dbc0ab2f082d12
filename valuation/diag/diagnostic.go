package diag

import (
	"strconv"
	"strings"
)

// Severity says how bad a diagnostic is. The zero value is invalid, and counts
// as an error.
type Severity uint8

// An Error makes a document unusable, a Warning does not: it is doubtful, or
// without effect, but clear in what it means.
const (
	Error Severity = iota + 1
	Warning
)

// String is "error" or "warning".
func (s Severity) String() string {
	if s == Warning {
		return "warning"
	}
	return "error"
}

// Pos is a place in a file. Line and Column count from 1, Column in characters
// (a tab is one). Line 0 means the whole file, Column 0 the whole line.
type Pos struct {
	File         string
	Line, Column int
}

// String is "file:line:col", shorter where a part is unknown.
func (p Pos) String() string {
	var parts []string
	if p.File != "" {
		parts = append(parts, p.File)
	}
	if p.Line > 0 {
		parts = append(parts, strconv.Itoa(p.Line))
		if p.Column > 0 {
			parts = append(parts, strconv.Itoa(p.Column))
		}
	}
	return strings.Join(parts, ":")
}

// A Diagnostic is one thing wrong, or doubtful, at one place.
type Diagnostic struct {
	Severity Severity
	Pos      Pos
	Key      string // path of the key, `point[3].state[1].odds`, counted from 1; "" where none
	Summary  string // what is wrong: one line, lower case, no full stop
	Expected string // what was expected there, to follow the word "expected"; may be ""
	Try      string // what to try, to follow the word "try": a near name, a row to add; may be ""
}

// Error is all of it in one line, safe for a terminal:
// "file:line:col: key: summary: expected …; try …".
func (d Diagnostic) Error() string {
	head, details := d.parts()
	if len(details) > 0 {
		head += ": " + strings.Join(details, "; ")
	}
	return head
}

// parts is the sentence that says where and what, and those that say what was
// expected and what to try, all of them clean.
func (d Diagnostic) parts() (head string, details []string) {
	var words []string
	for _, word := range []string{d.Pos.String(), d.warning(), d.Key, d.Summary} {
		if word != "" {
			words = append(words, Clean(word))
		}
	}
	if d.Expected != "" {
		details = append(details, "expected "+Clean(d.Expected))
	}
	if d.Try != "" {
		details = append(details, "try "+Clean(d.Try))
	}
	return strings.Join(words, ": "), details
}

// warning is "warning" for one, and "" for an error, which needs no such word.
func (d Diagnostic) warning() string {
	if d.Severity == Warning {
		return "warning"
	}
	return ""
}
