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
	ErrColumns  int       // its width, 0 where it is none
	Getenv      func(string) string
	Now         func() time.Time
}

// system returns the streams of the process.
func system() streams {
	s := streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Getenv: os.Getenv, Now: time.Now}
	s.Terminal, s.Columns = terminal(os.Stdout)
	s.ErrTerminal, s.ErrColumns = terminal(os.Stderr)
	return s
}

// terminal tells whether a file is a terminal, and how wide.
func terminal(f *os.File) (is bool, columns int) {
	fd := int(f.Fd())
	if !term.IsTerminal(fd) {
		return false, 0
	}
	columns, _, err := term.GetSize(fd)
	if err != nil {
		return true, 0
	}
	return true, columns
}
