package main

import (
	"io"
	"os"
	"time"

	"golang.org/x/term"
)

// streams is all that a command sees of the world outside its files.
type streams struct {
	In          io.Reader
	Out         io.Writer // results, and nothing else
	Err         io.Writer // everything else
	Terminal    bool      // whether Out is a terminal
	Columns     int       // its width, 0 where it is none
	ErrTerminal bool      // whether Err is a terminal
	Getenv      func(string) string
	Now         func() time.Time
}

// system returns the streams of the process.
func system() streams {
	s := streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Getenv: os.Getenv, Now: time.Now}
	s.ErrTerminal = term.IsTerminal(int(os.Stderr.Fd()))
	if fd := int(os.Stdout.Fd()); term.IsTerminal(fd) {
		s.Terminal = true
		if columns, _, err := term.GetSize(fd); err == nil {
			s.Columns = columns
		}
	}
	return s
}
