package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"syscall"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/valuation/diag"
)

// The exit codes. The help of the root command names them.
const (
	exitDone   = 0 // the work is done
	exitFailed = 1 // it could not be done: input or output failed, or a figure cannot be given
	exitBad    = 2 // a mistake in the command line or in the data
)

// A usageError is a mistake in the command line.
type usageError struct {
	what  string
	hints []string
}

func (e *usageError) Error() string { return e.what }

func usagef(format string, args ...any) *usageError {
	return &usageError{what: fmt.Sprintf(format, args...)}
}

// hint adds a line that says what to try; empty ones are left out.
func (e *usageError) hint(format string, args ...any) *usageError {
	if s := fmt.Sprintf(format, args...); s != "" {
		e.hints = append(e.hints, s)
	}
	return e
}

// A refusal is an answer that cannot be given though the data are in order. Its
// reasons have been printed, or are its hints.
type refusal struct {
	what  string
	hints []string
}

func (e *refusal) Error() string { return e.what }

// A badData says that what was printed as the result are mistakes in the data.
type badData struct{ what string }

func (e *badData) Error() string { return e.what }

// complain is where every error is printed, and gives the exit code. Messages
// go to w: one line that begins with the program's name, in lower case, without
// a full stop; each hint on a line of its own. Mistakes in the data are printed
// as they are, each with its place, and without the program's name.
func complain(w io.Writer, err error) int {
	var (
		usage  *usageError
		file   *load.Error
		list   diag.List
		refuse *refusal
		data   *badData
	)
	switch {
	case err == nil:
		return exitDone
	case closed(err):
		return exitFailed // who reads the output has gone: nobody to tell
	case errors.As(err, &usage):
		return say(w, exitBad, usage.what, usage.hints...)
	case errors.As(err, &list):
		if err := list.WriteText(w, 0); err != nil {
			return exitFailed
		}
		return exitBad
	case errors.As(err, &file) && file.Mistaken:
		return say(w, exitBad, file.Error(), file.Hint)
	case errors.As(err, &file):
		return say(w, exitFailed, file.Error(), file.Hint)
	case errors.As(err, &data):
		return say(w, exitBad, data.what)
	case errors.As(err, &refuse):
		return say(w, exitFailed, refuse.what, refuse.hints...)
	}
	return say(w, exitFailed, err.Error())
}

// say prints a message with its hints and returns the code.
func say(w io.Writer, code int, what string, hints ...string) int {
	lines := "lotgauge: " + diag.Clean(what) + "\n"
	for _, hint := range hints {
		if hint != "" {
			lines += "hint: " + diag.Clean(hint) + "\n"
		}
	}
	_, _ = io.WriteString(w, lines) // if that fails there is nowhere left to say so
	return code
}

// closed tells whether an error says that the reader of a pipe has gone.
func closed(err error) bool {
	return errors.Is(err, syscall.EPIPE) || errors.Is(err, io.ErrClosedPipe)
}

// counted is a number with its noun, "1 error" or "2 families".
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	if stem, ok := strings.CutSuffix(noun, "y"); ok {
		return fmt.Sprintf("%d %sies", n, stem)
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
