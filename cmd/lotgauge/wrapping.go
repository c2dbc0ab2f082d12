package main

import (
	"io"
	"strings"

	"lotgauge/cmd/lotgauge/table"
)

// wrapping is where messages go: as they are, or on a terminal broken between
// words to its width.
func wrapping(s streams) io.Writer {
	if !s.ErrTerminal || s.ErrColumns == 0 {
		return s.Err
	}
	return wrapper{s.Err, max(s.ErrColumns, table.MinWidth)}
}

// A wrapper breaks the lines that are written to it. Each Write must be of whole
// lines, or of none: what moves about within a line, such as a progress bar, is
// passed on.
type wrapper struct {
	w     io.Writer
	width int
}

func (w wrapper) Write(p []byte) (int, error) {
	text := string(p)
	if !strings.HasSuffix(text, "\n") || strings.ContainsRune(text, '\r') {
		return w.w.Write(p)
	}
	var b strings.Builder
	for line := range strings.Lines(text) {
		for _, part := range table.Broken(strings.TrimSuffix(line, "\n"), w.width) {
			b.WriteString(part + "\n")
		}
	}
	if _, err := io.WriteString(w.w, b.String()); err != nil {
		return 0, err
	}
	return len(p), nil
}
