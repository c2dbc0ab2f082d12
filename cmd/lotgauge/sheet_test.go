package main

import (
	"errors"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	phonepage "lotgauge/cmd/lotgauge/field"
)

// The page for a phone is written whole, to a file or to standard output, and
// is the same again.
func TestSheetForPhone(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds the engine")
	}
	file := filepath.Join(t.TempDir(), "stall.html")
	s := newScreenful()
	s.run(t, exitDone, "sheet", "quillmore-t1", "--data", base, "--phone", file)
	if !strings.Contains(s.err.String(), "stall.html: send it to the phone") || s.out.Len() > 0 {
		t.Errorf("%s%s", &s.out, &s.err)
	}
	page, err := os.ReadFile(file)
	if err != nil || !strings.HasPrefix(string(page), "<!doctype html>") || len(page) > phonepage.MaxSize {
		t.Fatalf("%v, %d bytes", err, len(page))
	}
	if again := s.run(t, exitDone, "sheet", "quillmore-t1", "--data", base, "--phone", "-"); again != string(page) {
		t.Error("another page to standard output")
	}
	s.run(t, exitBad, "sheet", "quillmore-t1", "--data", base, "--phone", filepath.Join(file+"-gone", "a.html"))
}

// Handed over on this machine: the address works once, and Ctrl-C before that
// says that nobody has the page.
func TestSheetServed(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds the engine")
	}
	folder, err := filepath.Abs(base)
	if err != nil {
		t.Fatal(err)
	}
	cmd, in, out, errs := startChild(t, t.TempDir(), "sheet", "quillmore-t1", "--data", folder, "--serve")
	in.Close()
	var url string
	for range 1200 {
		if url = strings.TrimSpace(out.String()); strings.HasSuffix(out.String(), "/\n") {
			break
		}
		time.Sleep(50 * time.Millisecond)
	}
	if !strings.HasPrefix(url, "http://127.0.0.1:") {
		cmd.Process.Kill()
		cmd.Wait()
		t.Fatalf("%q, %s", url, errs)
	}
	answer, err := http.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	if answer.StatusCode != http.StatusOK {
		t.Error(answer.Status)
	}
	if err := cmd.Process.Signal(os.Interrupt); err != nil {
		t.Skip(err)
	}
	_ = cmd.Wait()
	if cmd.ProcessState.ExitCode() != exitFailed || !strings.Contains(errs.String(), "stopped before a phone had the page") {
		t.Errorf("%v: %s", cmd.ProcessState, errs)
	}
	if !strings.Contains(errs.String(), "only this machine can") {
		t.Errorf("%s", errs)
	}
}

// An address that cannot be listened on, and no engine, are said with what to
// try.
func TestUnavailable(t *testing.T) {
	var refused *refusal
	err := unavailable(&phonepage.NoEngine{Err: errors.New("no go command"), Hints: []string{"install it"}})
	if !errors.As(err, &refused) || !strings.Contains(refused.what, "no go command") || refused.hints[0] != "install it" {
		t.Errorf("%+v", err)
	}
	if err := unavailable(syscall.ENOSPC); err != syscall.ENOSPC {
		t.Error(err)
	}
}
