package main

import (
	"bytes"
	"io"
	"strings"
	"testing"
)

// On a terminal messages keep to its width, whatever they are; what is written
// to a file stays as it is, and so does a progress bar.
func TestMessagesKeepToTheWidth(t *testing.T) {
	for _, test := range []struct {
		terminal bool
		columns  int
		most     int
	}{{true, 50, 50}, {true, 20, 40}, {false, 0, 1000}, {true, 0, 1000}} {
		s := newScreenful()
		s.ErrTerminal, s.ErrColumns = test.terminal, test.columns
		s.run(t, exitBad, "identify", "--data", base, "quillmore-t1", "lamp=brass")
		s.Err.Write([]byte("\r[====] a bar of a fixed length that nobody may break into two"))
		text, bar, _ := strings.Cut(s.err.String(), "\r")
		longest := 0
		for line := range strings.SplitSeq(text, "\n") {
			longest = max(longest, len(line))
		}
		if longest > test.most || test.most > 100 && longest < 57 || strings.Contains(bar, "\n") {
			t.Errorf("%+v: %d columns in\n%s", test, longest, &s.err)
		}
		if !strings.Contains(strings.Join(strings.Fields(text), " "), `no feature called "lamp" in family quillmore-t1`) {
			t.Errorf("%+v: words lost in\n%s", test, text)
		}
	}
}

func TestWrapperReportsErrors(t *testing.T) {
	var b bytes.Buffer
	if n, err := (wrapper{&b, 40}).Write([]byte(strings.Repeat("word ", 20) + "\n")); n != 101 || err != nil {
		t.Errorf("%d, %v", n, err)
	}
	if _, err := (wrapper{brokenWriter{io.ErrShortWrite}, 40}).Write([]byte("line\n")); err != io.ErrShortWrite {
		t.Error(err)
	}
}
