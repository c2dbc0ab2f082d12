package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"golang.org/x/term"

	"lotgauge/valuation/diag"
)

// keyboard is somebody at a terminal. Only while it waits for a key is the
// terminal told to hand over single ones; it is told back before anything else
// happens, so that no way out of the program leaves it so.
type keyboard struct {
	reader *reader
	file   *os.File
	out    io.Writer
}

// What a terminal that hands over single keys no longer does itself.
const (
	interruptKey = "\x03" // Ctrl-C
	endKey       = "\x04" // Ctrl-D
)

func (k *keyboard) ask(ctx context.Context, prompt string, line bool) (string, error) {
	if _, err := io.WriteString(k.out, prompt); err != nil {
		return "", unwritten(err)
	}
	if line {
		return k.line(ctx, prompt)
	}
	text, err := k.key(ctx)
	shown := text
	if text < " " {
		shown = ""
	}
	if _, werr := fmt.Fprintln(k.out, diag.Clean(shown)); werr != nil {
		return "", unwritten(werr)
	}
	switch {
	case err != nil:
		return "", err
	case text == interruptKey:
		return "", errInterrupted
	case text == endKey:
		return "", io.EOF
	case text < " ":
		return "", nil
	}
	return text, nil
}

// key waits for one key.
func (k *keyboard) key(ctx context.Context) (string, error) {
	fd := int(k.file.Fd())
	was, err := term.MakeRaw(fd)
	if err != nil {
		return k.reader.read(ctx, true) // it hands over lines, then
	}
	defer term.Restore(fd, was)
	return k.reader.read(ctx, false)
}

func (k *keyboard) place() (diag.Pos, bool) { return diag.Pos{}, false }

func (k *keyboard) live() bool { return true }

// forget drops what is typed on, until the keys pause. The terminal has to hand
// over single ones for that.
func (k *keyboard) forget() {
	fd := int(k.file.Fd())
	was, err := term.MakeRaw(fd)
	if err != nil {
		return
	}
	defer term.Restore(fd, was)
	k.reader.drop()
}
