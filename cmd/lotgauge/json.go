package main

import (
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// An escaper writes JSON on with everything escaped that could do something to
// a terminal and that encoding/json leaves as it is: DEL, the C1 controls and
// the characters that turn the writing direction around. Outside strings JSON
// has none of them, and inside them an escape means the same. Each Write must be
// of whole characters.
type escaper struct{ w io.Writer }

func (e escaper) Write(p []byte) (int, error) {
	if err := e.write(p); err != nil {
		return 0, err
	}
	return len(p), nil
}

func (e escaper) write(p []byte) error {
	var b strings.Builder
	for len(p) > 0 {
		r, n := utf8.DecodeRune(p)
		if r >= 0x7f && unicode.In(r, unicode.Cc, unicode.Bidi_Control) {
			fmt.Fprintf(&b, `\u%04x`, r)
		} else {
			b.Write(p[:n])
		}
		p = p[n:]
	}
	_, err := io.WriteString(e.w, b.String())
	return err
}
