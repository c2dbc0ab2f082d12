package main

import (
	"errors"
	"fmt"
	"strings"

	"lotgauge/valuation/diag"
)

// fault is an error as the page shows it.
type fault struct {
	Message string   `json:"message"`
	Lines   []string `json:"lines"`  // what exactly, one mistake a line
	Broken  bool     `json:"broken"` // the program's own fault
}

func (f *fault) Error() string { return f.Message }

func faultf(format string, args ...any) *fault {
	return &fault{Message: fmt.Sprintf(format, args...)}
}

// asFault puts an error into the page's words. What is expected of a file that
// people write is kept; places in a file that nobody wrote are not.
func asFault(err error) *fault {
	var f *fault
	if errors.As(err, &f) {
		return f
	}
	var list diag.List
	if !errors.As(err, &list) {
		return &fault{Message: err.Error()}
	}
	f = &fault{}
	for _, d := range list {
		if d.Severity == diag.Error {
			f.Lines = append(f.Lines, line(d))
		}
	}
	f.Message, f.Lines = f.Lines[0], f.Lines[1:]
	return f
}

// line is a diagnostic in one line. Places in files of the data folder are named
// and what to do about them; a find was not written as a file by anybody.
func line(d diag.Diagnostic) string {
	if d.Pos.File != "" {
		return d.Error()
	}
	text := withoutPlaces(d.Summary)
	if d.Key != "" {
		text = d.Key + ": " + text
	}
	return diag.Clean(text)
}

// withoutPlaces is a message without the places, " (7:1)", at which the findings
// that it names stand.
func withoutPlaces(s string) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(s, " (")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		place, after, closed := strings.Cut(rest, ")")
		if !closed || place == "" || strings.Trim(place, "0123456789:") != "" {
			b.WriteString(" (")
			s = rest
			continue
		}
		s = after
	}
}
