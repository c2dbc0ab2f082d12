package main

import (
	"fmt"
	"io"
	"strings"
	"time"
)

// A progress is a bar on a terminal that shows how far long work has come. It
// appears only once the work has taken a while, and takes one line, which Hide
// clears: whoever writes to the same terminal hides it first.
type progress struct {
	w     io.Writer
	now   func() time.Time
	total int
	begun time.Time
	last  time.Time // when it was last drawn
	drawn int       // characters on the line
}

const (
	patience = 500 * time.Millisecond // before the bar appears
	redraw   = 100 * time.Millisecond // at most so often
	barWidth = 30
)

// progress begins to show the progress of work of so many steps. Off a terminal
// it is nil, and shows nothing.
func (e *environment) progress(total int) *progress {
	if !e.ErrTerminal {
		return nil
	}
	return &progress{w: e.Err, now: e.Now, total: total, begun: e.Now()}
}

// Step says that so many steps are done.
func (p *progress) Step(done int) {
	if p == nil {
		return
	}
	now := p.now()
	if now.Sub(p.begun) < patience || now.Sub(p.last) < redraw {
		return
	}
	p.last = now
	filled := barWidth * done / max(p.total, 1)
	line := fmt.Sprintf("[%s%s] %d of %d listings", strings.Repeat("=", filled), strings.Repeat(" ", barWidth-filled), done, p.total)
	fmt.Fprintf(p.w, "\r%-*s", p.drawn, line)
	p.drawn = max(p.drawn, len(line))
}

// Hide clears the line.
func (p *progress) Hide() {
	if p == nil || p.drawn == 0 {
		return
	}
	fmt.Fprintf(p.w, "\r%s\r", strings.Repeat(" ", p.drawn))
	p.drawn = 0
}
