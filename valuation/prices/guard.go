package prices

import (
	"bytes"
	"fmt"
	"io"
	"unicode/utf8"
)

// Limits of a file, so that one that is no table ends early and in few words.
// A line limit of one chunk keeps guard.lines simple.
const (
	// MaxTable is the size in bytes above which a file is refused: some four
	// million rows.
	MaxTable = 1 << 28
	// MaxLine is the length in bytes above which a line is refused.
	MaxLine = 64 << 10
)

// guard passes a file on and ends it, with a fault, where it stops being text
// in lines. It reads in chunks of at most MaxLine bytes. The checks are made
// here, before encoding/csv sees the bytes, since that has no limits of its
// own: it would collect a line of any length in memory.
type guard struct {
	from io.Reader
	size int  // bytes passed on
	line int  // line ends passed on
	tail int  // bytes passed on since the last line end
	odd  bool // some chunk was not valid UTF-8 by itself
	err  error
}

// A fault is what ended a file early.
type fault struct {
	line                   int
	summary, expected, try string
}

// Error is the summary; the rest goes into a diagnostic.
func (f *fault) Error() string { return f.summary }

// Read passes on the next chunk, up to a fault.
func (g *guard) Read(p []byte) (int, error) {
	if g.err != nil {
		return 0, g.err
	}
	n, err := g.from.Read(p[:min(len(p), MaxLine)])
	chunk, bad := g.text(p[:n])
	if long := g.lines(chunk); long != nil {
		chunk, bad = nil, long
	}
	switch {
	case bad != nil:
		g.err = bad
	case g.size > MaxTable:
		g.err = &fault{summary: "the file is too large",
			expected: fmt.Sprintf("at most %d MiB", MaxTable>>20)}
	default:
		g.err = err
	}
	return len(chunk), g.err
}

// text cuts a chunk before the first NUL byte, which no text file has; UTF-16,
// which some spreadsheets call Unicode text, is full of them. A character cut
// by the end of a chunk makes the chunk odd, and the rows from there on are
// looked at one by one (UTF-8 is defined in RFC 3629).
func (g *guard) text(chunk []byte) ([]byte, error) {
	g.odd = g.odd || !utf8.Valid(chunk)
	end := bytes.IndexByte(chunk, 0)
	if end < 0 {
		return chunk, nil
	}
	chunk = chunk[:end]
	return chunk, &fault{line: g.line + bytes.Count(chunk, newline) + 1, summary: "this is a binary file",
		expected: "comma-separated text in UTF-8", try: "to save it from the spreadsheet as CSV, UTF-8"}
}

var newline = []byte{'\n'}

// lines counts the lines of a chunk and refuses one that is too long. Only the
// line that goes on from the last chunk and the one that goes on into the next
// can be.
func (g *guard) lines(chunk []byte) error {
	count, first := bytes.Count(chunk, newline), bytes.IndexByte(chunk, '\n')
	length := g.tail + first
	if first < 0 {
		length = g.tail + len(chunk)
		g.tail = length
	} else {
		g.tail = len(chunk) - bytes.LastIndexByte(chunk, '\n') - 1
	}
	line := g.line + 1
	g.size, g.line = g.size+len(chunk), g.line+count
	if length <= MaxLine {
		return nil
	}
	return &fault{line: line, summary: fmt.Sprintf("a line is longer than %d KiB", MaxLine>>10),
		expected: "one row on each line", try: "to save it with LF or CRLF line ends"}
}
