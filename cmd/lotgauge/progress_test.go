package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// ticking is a clock that goes on by a step each time it is looked at.
func (s *screenful) ticking(step time.Duration) {
	now := s.Now()
	s.streams.Now = func() time.Time {
		now = now.Add(step)
		return now
	}
}

// foundLots is a folder with so many listings, and one that is none.
func foundLots(t *testing.T, n int) string {
	t.Helper()
	dir := t.TempDir()
	text, err := os.ReadFile(lot)
	if err != nil {
		t.Fatal(err)
	}
	for i := range n {
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%d.toml", i)), text, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "a.toml"), []byte("format = 1\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	return dir
}

// A bar is shown on a terminal once the work takes long, and its line is clear
// before anything else is written.
func TestProgressOnATerminal(t *testing.T) {
	s := newScreenful()
	s.ErrTerminal = true
	s.ticking(300 * time.Millisecond)
	out := s.run(t, exitBad, "appraise", "--data", base, foundLots(t, 6))
	text := s.err.String()
	if !strings.Contains(text, "\r[") || !strings.Contains(text, "] 3 of 7 listings") {
		t.Errorf("no bar in %q", text)
	}
	if strings.Contains(out, "\r") {
		t.Error("the bar is in the result")
	}
	shown := "" // the line as a terminal shows it
	for line := range strings.SplitSeq(text, "\n") {
		shown = strings.TrimRight(line[strings.LastIndex(line, "\r")+1:], " ")
		if strings.Contains(shown, "] ") {
			t.Errorf("a bar is left: %q", shown)
		}
	}
	if shown != "" {
		t.Errorf("left on the last line: %q", shown)
	}
}

func TestNoProgress(t *testing.T) {
	dir := foundLots(t, 3)
	for name, prepare := range map[string]func(*screenful){
		"no terminal":    func(s *screenful) { s.ticking(time.Second) },
		"quickly done":   func(s *screenful) { s.ErrTerminal = true },
		"a single one":   func(s *screenful) { s.ErrTerminal = true; s.ticking(time.Nanosecond) },
		"standard error": func(s *screenful) { s.Terminal, s.Columns = true, 80; s.ticking(time.Second) },
	} {
		s := newScreenful()
		prepare(s)
		s.run(t, exitBad, "appraise", "--data", base, dir)
		if strings.Contains(s.err.String(), "\r") {
			t.Errorf("%s: %q", name, &s.err)
		}
	}
}

// A bar never takes more than its line, and is full at the end.
func TestProgressBar(t *testing.T) {
	s := newScreenful()
	s.ErrTerminal = true
	s.ticking(time.Second)
	p := s.environment().progress(4)
	for done := range 5 {
		p.Step(done)
	}
	lines := strings.Split(strings.TrimPrefix(s.err.String(), "\r"), "\r")
	if len(lines) != 5 || !strings.HasPrefix(lines[4], "["+strings.Repeat("=", barWidth)+"] 4 of 4") || !strings.HasPrefix(lines[0], "[ ") {
		t.Errorf("%q", lines)
	}
	p.Hide()
	p.Hide()
	if n := strings.Count(s.err.String(), "\r"); n != 7 {
		t.Errorf("%d returns in %q", n, &s.err)
	}
	var none *progress
	none.Step(1)
	none.Hide()
}

func (s *screenful) environment() *environment { return &environment{streams: s.streams} }
