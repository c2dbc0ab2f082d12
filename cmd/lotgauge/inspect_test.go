package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"testing/iotest"
	"time"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
	"lotgauge/valuation/checklist"
)

// inspected is the check that the tests of reading answers are about.
var inspected = valuation.Check{Kind: "point", ID: "tyres", Answers: []valuation.CheckAnswer{
	{ID: "sound"}, {ID: "perished"}, {ID: "b"}, {ID: "stop"},
}}

func TestReadAnswers(t *testing.T) {
	measured := inspected
	measured.Measure = &checklist.Measure{What: "width", Unit: "mm"}
	for _, row := range []struct {
		text    string
		check   valuation.Check
		more    bool
		do      deed
		key     string
		answer  string
		reading bool
	}{
		{"1", inspected, true, doAnswer, "", "sound", false},
		{" 2 \n", inspected, true, doAnswer, "", "perished", false},
		{"perished", inspected, true, doAnswer, "", "perished", false},
		{"stop", inspected, true, doAnswer, "", "stop", false}, // a name is an answer before it is a command
		{"b", inspected, true, doBack, "", "", false},          // a character is a key before it is a name
		{"back", inspected, true, doBack, "", "", false},
		{"BACK", inspected, true, doBack, "", "", false},
		{"?", inspected, true, doAnswer, "", valuation.CannotTell, false},
		{"cannot tell", inspected, true, doAnswer, "", valuation.CannotTell, false},
		{"s", inspected, true, doAnswer, "", valuation.Skip, false},
		{".", inspected, true, doAnswer, "", valuation.Skip, false},
		{"q", inspected, true, doStop, "", "", false},
		{"g", inspected, true, doGoOn, "", "", false},
		{":", inspected, true, doType, "", "", false},
		{"m", inspected, true, doAnswer, "", "m", false}, // which nothing answers
		{"m", measured, true, doType, "", "", true},
		{"13.9", measured, true, doAnswer, "", "13.9 mm", false},
		{"13.9 mm", measured, true, doAnswer, "", "13.9 mm", false},
		{"13.9", inspected, true, doAnswer, "", "13.9", false},
		{"9", inspected, true, doAnswer, "", "9", false},
		{"lamps = missing", inspected, true, doAnswer, "lamps", "missing", false},
		{"lamps=skip", inspected, false, doAnswer, "lamps", valuation.Skip, false},
		{"lamps=?", inspected, false, doAnswer, "lamps", valuation.CannotTell, false},
		{"", inspected, true, doNothing, "", "", false},
		{"   ", inspected, false, doNothing, "", "", false},
		{"1", inspected, false, doUnknown, "", "1", false},
		{"s", inspected, false, doUnknown, "", "s", false},
		{"m", measured, false, doUnknown, "", "m", false},
		{"stop", inspected, false, doStop, "", "", false},
	} {
		r := read(row.text, row.check, row.more)
		if r.do != row.do || r.key != row.key || r.do == doAnswer && r.answer != row.answer || r.reading != row.reading {
			t.Errorf("%q: %+v, want %+v", row.text, r, row)
		}
	}
}

// No key for an answer does something else, and each is there once.
func TestAnswerKeys(t *testing.T) {
	c := valuation.Check{Answers: make([]valuation.CheckAnswer, 40)}
	seen := map[string]bool{}
	for i, key := range answerKeys(c) {
		if _, taken := commands[key]; taken || seen[key] && key != "" {
			t.Errorf("key %q", key)
		}
		if seen[key] = true; (key == "") != (i >= len(keys)) {
			t.Errorf("answer %d has key %q", i, key)
		}
	}
}

// heard is what another process or goroutine has written so far.
type heard struct {
	mu   sync.Mutex
	text string
}

func (h *heard) Write(p []byte) (int, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.text += string(p)
	return len(p), nil
}

func (h *heard) String() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.text
}

// past forgets what was heard up to a text and with it; false where it was not
// heard yet.
func (h *heard) past(text string) bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	_, after, ok := strings.Cut(h.text, text)
	if ok {
		h.text = after
	}
	return ok
}

// startChild starts the program with a pipe for its answers.
func startChild(t *testing.T, dir string, args ...string) (*exec.Cmd, io.WriteCloser, *heard, *heard) {
	t.Helper()
	cmd := exec.Command("lotgauge", args...)
	cmd.Dir = dir
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, errs := &heard{}, &heard{}
	cmd.Stdout, cmd.Stderr = out, errs
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd, in, out, errs
}

// until waits for a file to hold a text.
func until(t *testing.T, file, text string) {
	t.Helper()
	for range 300 {
		if got, err := os.ReadFile(file); err == nil && strings.Contains(string(got), text) {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatalf("%s never holds %q", file, text)
}

// Ctrl-C, and being ended by the system, lose nothing: every answer given is in
// the file, and the same command goes on.
func TestInterruptedInspection(t *testing.T) {
	data, err := filepath.Abs(base)
	if err != nil {
		t.Fatal(err)
	}
	for _, sig := range []os.Signal{os.Interrupt, syscall.SIGTERM} {
		dir := t.TempDir()
		file := filepath.Join(dir, "find.toml")
		cmd, in, _, errs := startChild(t, dir, "inspect", "quillmore-t1", "--data", data, "--ask", "88", "-o", "find.toml")
		io.WriteString(in, "118\ntyres=perished\n")
		until(t, file, "perished")
		if err := cmd.Process.Signal(sig); err != nil {
			t.Skip(err) // a system without it
		}
		err := cmd.Wait()
		if exit, ok := errors.AsType[*exec.ExitError](err); !ok || exit.ExitCode() != exitFailed {
			t.Errorf("%v: %v", sig, err)
		}
		if want := "lotgauge: interrupted; what was found is in find.toml\nhint: lotgauge inspect find.toml goes on\n"; errs.String() != want {
			t.Errorf("%v: %q", sig, errs)
		}
		s := newScreenful()
		s.In = strings.NewReader("motor=tired\nback\nstop\n")
		if out := s.run(t, exitDone, "inspect", "--data", data, file); !strings.Contains(out, "Going on after 2 answers.") {
			t.Errorf("%v: %s", sig, out)
		}
		if out := s.run(t, exitDone, "appraise", "--data", data, "--brief", file); out == "" {
			t.Error("nothing to say of it")
		}
	}
}

// What another program changes meanwhile is not written over.
func TestInspectionChangedMeanwhile(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "find.toml")
	s := newScreenful()
	r, w := io.Pipe()
	s.In = r
	done := make(chan int)
	go func() {
		done <- run([]string{"inspect", "quillmore-t1", "--data", base, "--ask", "88", "-o", file}, s.streams)
	}()
	io.WriteString(w, "118\n")
	until(t, file, "118")
	if err := os.WriteFile(file, []byte("mine"), 0o666); err != nil {
		t.Fatal(err)
	}
	io.WriteString(w, "tyres=perished\n")
	if code := <-done; code != exitFailed || !strings.Contains(s.err.String(), "another program has changed it meanwhile") {
		t.Errorf("%d, %s", code, &s.err)
	}
	if got, _ := os.ReadFile(file); string(got) != "mine" {
		t.Errorf("%s", got)
	}
}

// A screen that nobody reads any more, one that is full, and answers that cannot
// be read end it, and the file stays whole.
func TestInspectionStreamsFail(t *testing.T) {
	for _, row := range []struct {
		name string
		in   io.Reader
		out  io.Writer
		want string
	}{
		{"closed", strings.NewReader("118\n"), brokenWriter{syscall.EPIPE}, ""},
		{"full", strings.NewReader("118\n"), brokenWriter{syscall.ENOSPC}, "lotgauge: cannot write the result: no space left on device\n"},
		{"unreadable", iotest.ErrReader(errors.New("bad block")), io.Discard, "lotgauge: cannot read the answer: bad block\n"},
	} {
		s := newScreenful()
		s.In, s.Out = row.in, row.out
		file := filepath.Join(t.TempDir(), "find.toml")
		s.run(t, exitFailed, "inspect", "quillmore-t1", "--data", base, "--ask", "88", "-o", file)
		if s.err.String() != row.want {
			t.Errorf("%s: %q", row.name, &s.err)
		}
		s.Out = &s.out
		s.run(t, exitDone, "appraise", "--brief", "--data", base, file)
	}
}

// An answer longer than a line may be is no answer, and takes no more memory.
func TestEndlessAnswer(t *testing.T) {
	s := newScreenful()
	s.In = io.LimitReader(endless{}, 3*mostLine+10)
	out := s.run(t, exitDone, "inspect", "quillmore-t1", "--data", base, "--ask", "88", "-o", filepath.Join(t.TempDir(), "find.toml"))
	if n := strings.Count(out, "No answer"); n != 4 {
		t.Errorf("%d objections", n)
	}
}

type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'x'
	}
	return len(p), nil
}

// A family's file is named after the day, and never one that is there.
func TestInspectionNames(t *testing.T) {
	t.Chdir(t.TempDir())
	folder := filepath.Join(packageDir, base)
	s := newScreenful()
	for _, want := range []string{"quillmore-t1-2026-03-14.toml", "quillmore-t1-2026-03-14-2.toml", "quillmore-t1-2026-03-14-3.toml"} {
		if out := s.run(t, exitDone, "inspect", "quillmore-t1", "--data", folder); !strings.Contains(out, "Kept in "+want) {
			t.Errorf("%s: %s", want, out)
		}
		if _, err := os.Stat(want); err != nil {
			t.Error(err)
		}
	}
}

var packageDir, _ = os.Getwd() // where the tests are run

// A record reads back as it was written, whatever was answered.
func TestRecordReadsBack(t *testing.T) {
	s := newScreenful()
	library, _, err := (&environment{streams: s.streams, data: base}).library()
	if err != nil {
		t.Fatal(err)
	}
	x, diags := library.NewFind("quillmore-t1", "88", "", s.Now())
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	n, diags := library.Inspect(x, valuation.InspectOptions{Here: []string{"hand", "track"}})
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	r := &record{file: filepath.Join(t.TempDir(), "find.toml"), base: []byte("format = 1\ntitle = \"x\"\nfamily = \"quillmore-t1\"\n# no line end")}
	for _, answer := range []string{"point:tyres perished", "point:motor ?", "symptom:no-movement no", "point:lamps .", "variant:quillmore-t1 110", "point:lamps sound"} {
		key, with, _ := strings.Cut(answer, " ")
		c, ok := n.Check(key)
		if !ok || n.Answer(c, with).HasErrors() {
			t.Fatal(answer)
		}
		if err := r.save(n); err != nil {
			t.Fatal(err)
		}
		text, err := os.ReadFile(r.file)
		if err != nil {
			t.Fatal(err)
		}
		before, replies := divide(text)
		if !bytes.Equal(bytes.TrimRight(before, "\n"), r.base) {
			t.Errorf("before: %q", before)
		}
		if diff := cmp.Diff(n.Replies(), replies); diff != "" {
			t.Errorf("%s:\n%s", answer, diff)
		}
		back, diags := valuation.ReadListing("", bytes.NewReader(text))
		if diags.HasErrors() || !sameFindings(back, n.Listing()) {
			t.Errorf("%s: %v\n%s", answer, diags, text)
		}
		plain, diags := valuation.ReadListing("", bytes.NewReader(forgetful(text)))
		if diags.HasErrors() || !sameFindings(plain, n.Listing()) || bytes.Contains(forgetful(text), []byte("# checked")) {
			t.Errorf("%s: %v", answer, diags)
		}
	}
}

func TestReaderGivesUp(t *testing.T) {
	r, w := io.Pipe()
	defer w.Close()
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	lines := newReader(r)
	for range 2 {
		if _, err := lines.read(ctx, true); !errors.Is(err, errInterrupted) {
			t.Errorf("%v", err)
		}
	}
}

// A check is warned of by what is to be minded of it, and by no more.
func TestCare(t *testing.T) {
	for _, row := range []struct{ mind, want []string }{
		{nil, nil},
		{[]string{checklist.MindOpening}, []string{careLeave}},
		{[]string{checklist.MindPower}, []string{carePower}},
		{[]string{checklist.MindOpening, checklist.MindPower, checklist.MindSolvent}, []string{careLeave, carePower, careClean}},
	} {
		if diff := cmp.Diff(row.want, care(valuation.Check{Mind: row.mind})); diff != "" {
			t.Errorf("%v:\n%s", row.mind, diff)
		}
	}
}

// A key is a character, and all that another key sends is one; Escape is itself.
func TestKeys(t *testing.T) {
	for _, row := range []struct {
		typed string
		want  []string
	}{
		{"1é", []string{"1", "é"}},
		{"\x1b", []string{"\x1b"}},
		{"\x1b\r", []string{"\x1b", "\r"}},
		{"\x1b[A2", []string{sequence, "2"}},
		{"\x1b[3;5~2", []string{sequence, "2"}},
		{"\x1bOP2", []string{sequence, "2"}},
		{"\x1b12", []string{sequence, "2"}}, // a key with Alt
		{"\x1b[", []string{sequence}},
	} {
		in := bufio.NewReader(strings.NewReader(row.typed))
		var got []string
		for {
			text, err := key(in)
			if err != nil {
				break
			}
			got = append(got, text)
		}
		if diff := cmp.Diff(row.want, got); diff != "" {
			t.Errorf("%q:\n%s", row.typed, diff)
		}
	}
}
