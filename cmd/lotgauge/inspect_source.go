package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/valuation/diag"
)

// A source is where answers come from.
type source interface {
	// ask prints the prompt and returns what is answered: where one key is
	// enough a key, unless a whole line is wanted. The error is io.EOF where
	// nothing more comes, and errInterrupted where ctx ends first.
	ask(ctx context.Context, prompt string, line bool) (string, error)
	// place is where the last answer stands, and whether one that is none is an
	// error.
	place() (at diag.Pos, strict bool)
	// live tells whether somebody sits at a keyboard, who can be asked back.
	live() bool
	// forget throws away what is typed on without a pause, where somebody is live:
	// after a mistake it was meant for something else. Elsewhere each line is an
	// answer.
	forget()
}

// source is where the answers of the command line come from.
func (opts *inspectOptions) source() (source, error) {
	if opts.Answers != "" {
		return opts.written()
	}
	if f, ok := opts.In.(*os.File); ok && term.IsTerminal(int(f.Fd())) && opts.Terminal {
		return &keyboard{reader: newReader(f), file: f, out: opts.Out}, nil
	}
	return &piped{reader: newReader(opts.In), out: opts.Out}, nil
}

// written reads a file of answers.
func (opts *inspectOptions) written() (source, error) {
	in, name, err := load.Listing(opts.Answers, opts.In)
	if err != nil {
		var known *load.Error
		if errors.As(err, &known) {
			known.Hint = "--answers names a file with one answer a line"
		}
		return nil, err
	}
	defer in.Close()
	text, err := io.ReadAll(io.LimitReader(in, diag.MaxDocument+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s: %w", name, err)
	case len(text) > diag.MaxDocument:
		return nil, &load.Error{Path: name, What: "is too large for a file of answers", Mistaken: true}
	case bytes.IndexByte(text, 0) >= 0:
		return nil, &load.Error{Path: name, What: "is no text", Mistaken: true}
	}
	return &script{name: name, lines: strings.Split(string(text), "\n"), out: opts.Out}, nil
}

// A script is answers written down beforehand.
type script struct {
	name  string
	lines []string
	at    int // lines read
	out   io.Writer
}

func (s *script) ask(ctx context.Context, prompt string, _ bool) (string, error) {
	for s.at < len(s.lines) && ctx.Err() == nil {
		line, _, _ := strings.Cut(s.lines[s.at], "#")
		s.at++
		if line = strings.TrimSpace(line); line != "" {
			_, err := fmt.Fprintf(s.out, "%s%s\n", prompt, diag.Clean(line))
			return line, unwritten(err)
		}
	}
	if ctx.Err() != nil {
		return "", errInterrupted
	}
	return "", io.EOF
}

func (*script) live() bool { return false }
func (*script) forget()    {}
func (*piped) live() bool  { return false }
func (*piped) forget()     {}

func (s *script) place() (diag.Pos, bool) { return diag.Pos{File: s.name, Line: s.at}, true }

// piped is answers that come one a line.
type piped struct {
	reader *reader
	out    io.Writer
}

func (p *piped) ask(ctx context.Context, prompt string, _ bool) (string, error) {
	if _, err := io.WriteString(p.out, prompt); err != nil {
		return "", unwritten(err)
	}
	text, err := p.reader.read(ctx, true)
	if text = strings.TrimSpace(text); err != nil && text == "" {
		fmt.Fprintln(p.out)
		if errors.Is(err, io.EOF) || errors.Is(err, errInterrupted) {
			return "", err
		}
		return "", fmt.Errorf("cannot read the answer: %w", err)
	}
	_, err = fmt.Fprintln(p.out, diag.Clean(text))
	return text, unwritten(err)
}

func (p *piped) place() (diag.Pos, bool) { return diag.Pos{}, false }
