package main

import (
	"bufio"
	"context"
	"io"
	"time"
)

// A reader reads on request, so that waiting for it can be given up. What it
// waits for then is lost with the process.
type reader struct {
	want chan bool // whether a whole line is wanted, or one key
	got  chan chunk
	// pending: a key was wanted that nobody has taken yet.
	pending bool
}

// chunk is what a reader read.
type chunk struct {
	text string
	err  error
}

func newReader(in io.Reader) *reader {
	r := &reader{want: make(chan bool), got: make(chan chunk, 1)}
	go func() {
		b := bufio.NewReader(in)
		for line := range r.want {
			take := key
			if line {
				take = lineOf
			}
			text, err := take(b)
			r.got <- chunk{text, err}
		}
	}()
	return r
}

// read returns a line, or one key, unless ctx ends first.
func (r *reader) read(ctx context.Context, line bool) (string, error) {
	if !r.pending {
		select {
		case r.want <- line:
		case <-ctx.Done():
			return "", errInterrupted
		}
	}
	select {
	case c := <-r.got:
		r.pending = false
		return c.text, c.err
	case <-ctx.Done():
		return "", errInterrupted
	}
}

// pause is how long no key comes when somebody has stopped to look: those who type
// on need a fifth of a second from key to key (a choice, no source).
const pause = 400 * time.Millisecond

// drop throws away the keys that come before a pause. The key that it then waits
// for is the next to be read; so is one that ends the program.
func (r *reader) drop() {
	for {
		if !r.pending {
			r.want <- false
			r.pending = true
		}
		select {
		case c := <-r.got:
			if c.err != nil || c.text == interruptKey || c.text == endKey {
				r.got <- c
				return
			}
			r.pending = false
		case <-time.After(pause):
			return
		}
	}
}

// mostLine is how long an answer may be, in bytes; a longer one is taken for
// several.
const mostLine = 1 << 12

// lineOf reads to the next line end.
func lineOf(in *bufio.Reader) (string, error) {
	var b []byte
	for len(b) < mostLine {
		c, err := in.ReadByte()
		if err != nil {
			return string(b), err
		}
		if b = append(b, c); c == '\n' {
			break
		}
	}
	return string(b), nil
}

// escape is the Escape key, and begins what arrow keys and the like send.
const escape = '\x1b'

// sequence stands for all that begins with an escape: no key that is known.
const sequence = "\x1b["

// key reads one key: a character, or the whole of what another key sends.
func key(in *bufio.Reader) (string, error) {
	c, _, err := in.ReadRune()
	if err != nil {
		return "", err
	}
	if c != escape || in.Buffered() == 0 {
		return string(c), nil
	}
	if next, _ := in.Peek(1); next[0] < ' ' {
		return string(escape), nil // a key of its own, and another after it
	}
	c, _, err = in.ReadRune()
	for ends := c != '[' && c != 'O'; err == nil && !ends && in.Buffered() > 0; {
		c, _, err = in.ReadRune()
		ends = c >= '@' && c <= '~'
	}
	return sequence, err
}
