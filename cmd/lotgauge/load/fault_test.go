package load

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
)

// The texts of the file that the tests of this file change.
const (
	oldText = "date,item\n2026-03-13,tyre\n"
	newText = oldText + "2026-03-14,lamp\n"
)

// disks are what an edit may find, by name: the file's own text, and whether it
// has been edited before.
var disks = map[string]func(dir string) map[string]string{
	"no file": func(string) map[string]string { return nil },
	"first edit": func(dir string) map[string]string {
		return map[string]string{filepath.Join(dir, "prices.csv"): oldText}
	},
	"many edits": func(dir string) map[string]string {
		const left = "left by a process that was killed"
		files := map[string]string{
			filepath.Join(dir, "prices.csv"):                                                  oldText,
			filepath.Join(dir, "prices.csv.bak"):                                              "older",
			filepath.Join(dir, ".prices.csv.0000002a.new"):                                    left,
			filepath.Join(dir, ".prices.csv.bak.0000002a.new"):                                left,
			filepath.Join(dir, historyDir, ".prices-2026-02-01T000000.000Z.csv.0000002a.new"): left,
		}
		for i := range states {
			name := time.Date(2026, 3, 1, 0, 0, i, 0, time.UTC).Format("prices-" + stamp + ".csv")
			files[filepath.Join(dir, historyDir, name)] = "older"
		}
		return files
	},
}

// change makes the new text of the tests from the old one.
func change(text []byte) ([]byte, error) {
	if text == nil {
		text = []byte(oldText)
	}
	return append(bytes.Clone(text), newText[len(oldText):]...), nil
}

// everyStep makes an edit again and again on a fresh disk that fails at its
// first operation, then at its second, and so on, until the edit needs no more.
func everyStep(t *testing.T, spoil func(*memory), check func(t *testing.T, m *memory, path string, err error)) {
	for name, files := range disks {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir() // for the lock
			path := filepath.Join(dir, "prices.csv")
			failing := 0
			for at := 1; ; at++ {
				m := newMemory(files(dir))
				m.at = at
				spoil(m)
				err := Editor{disk: m, Now: func() time.Time { return m.time }}.Edit(path, change)
				if m.failed == "" {
					break
				}
				failing++
				t.Run(fmt.Sprintf("%d %s", at, strings.TrimSpace(hexless(m.failed))), func(t *testing.T) { check(t, m, path, err) })
			}
			if failing < 5 {
				t.Errorf("only %d operations could fail", failing)
			}
		})
	}
}

// hexless is the name of a step without the digits drawn for a temporary file.
func hexless(s string) string {
	fields := strings.Split(s, ".")
	return strings.Join(slices.DeleteFunc(fields, func(f string) bool { return len(f) == 8 }), ".")
}

// Whatever operation fails, the error says so and the file is the old one, or
// the new one where the edit says done.
func TestEveryFault(t *testing.T) {
	for name, spoil := range map[string]func(*memory){
		"input or output error": func(m *memory) { m.fault = syscall.EIO },
		"full disk":             func(m *memory) { m.fault, m.short = syscall.ENOSPC, true },
		"quiet short write":     func(m *memory) { m.fault, m.short = io.ErrShortWrite, true },
		"no permission":         func(m *memory) { m.fault = syscall.EACCES },
		"nothing works after":   func(m *memory) { m.fault, m.dies = syscall.EIO, true },
	} {
		t.Run(name, func(t *testing.T) { everyStep(t, spoil, checkFault) })
	}
}

func checkFault(t *testing.T, m *memory, path string, err error) {
	old := "(none)"
	if n := m.kept[path]; n != nil {
		old = oldText
	}
	got := m.text(path)
	e, _ := errors.AsType[*Error](err)
	switch {
	case err == nil: // a failure that does no harm: removing what is too old
		if got != newText || !strings.HasPrefix(m.failed, "remove") {
			t.Errorf("done, and the file holds %q after the failure of %s", got, m.failed)
		}
	case e == nil:
		t.Errorf("error %#v, want an *Error", err)
	case strings.Contains(e.What, "has been changed"):
		if got != newText || !strings.HasPrefix(m.failed, "sync folder") {
			t.Errorf("%v: the file holds %q", err, got)
		}
	default:
		if got != old {
			t.Errorf("%v: the file holds %q, want %q", err, got, old)
		}
		if !strings.Contains(e.Hint, "nothing has been changed") {
			t.Errorf("%v: hint %q", err, e.Hint)
		}
	}
	if bak := m.text(path + ".bak"); bak != "(none)" && bak != oldText && bak != "older" {
		t.Errorf("the copy holds %q", bak)
	}
	if m.dies || strings.HasPrefix(m.failed, "remove") {
		return
	}
	for name := range m.now {
		if strings.HasSuffix(name, "."+unfinished) {
			t.Errorf("%s is left", name)
		}
	}
}

// Whenever the power is cut, the file that is found afterwards is the old one or
// the new one, whole, and so are the states kept; once an edit says that it is
// done, it is the new one.
func TestPowerCut(t *testing.T) {
	spoil := func(m *memory) { m.fault, m.dies = errors.New("the power is cut"), true }
	everyStep(t, spoil, func(t *testing.T, m *memory, path string, err error) {
		want := []string{oldText, newText}
		if err == nil {
			want = []string{newText}
		} else if m.kept[path] == nil {
			want = append(want, "(none)")
		}
		for _, text := range m.afterPowerCut(path) {
			if !slices.Contains(want, text) {
				t.Errorf("the file holds %q", text)
			}
		}
		for name := range m.now {
			if strings.HasSuffix(name, "."+unfinished) || m.now[name].dir || name == path {
				continue
			}
			for _, text := range m.afterPowerCut(name) {
				if text != oldText && text != "older" && text != "(none)" {
					t.Errorf("%s holds %q", name, text)
				}
			}
		}
	})
}

// What is said to be done stays done: a power cut right after takes nothing back.
func TestDoneIsOnTheDisk(t *testing.T) {
	for name, files := range disks {
		dir := t.TempDir()
		path := filepath.Join(dir, "prices.csv")
		m := newMemory(files(dir))
		if err := (Editor{disk: m}).Edit(path, change); err != nil {
			t.Fatal(err)
		}
		for _, text := range m.afterPowerCut(path) {
			if text != newText {
				t.Errorf("%s: the file holds %q", name, text)
			}
		}
	}
}

// The former text is certain to be there by the time that the new one may be.
func TestFormerTextIsKeptFirst(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "prices.csv")
	m := newMemory(disks["first edit"](dir))
	watched := &watcher{memory: m, path: path, t: t}
	if err := (Editor{disk: watched, Now: func() time.Time { return m.time }}).Edit(path, change); err != nil {
		t.Fatal(err)
	}
	if !watched.seen {
		t.Error("the file was never replaced")
	}
}

// watcher looks, at the moment a file is replaced, for its text elsewhere.
type watcher struct {
	*memory
	path string
	seen bool
	t    *testing.T
}

func (w *watcher) Rename(from, to string) error {
	if to == w.path {
		w.seen = true
		for name, n := range w.kept {
			if filepath.Base(filepath.Dir(name)) == historyDir && string(n.synced) == oldText {
				return w.memory.Rename(from, to)
			}
		}
		w.t.Error("the old text is not in the history yet")
	}
	return w.memory.Rename(from, to)
}

// A lot of edits leaves the last states, dated in their order even if the clock
// is put back, and each of them whole.
func TestHistory(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "prices.csv")
	m := newMemory(map[string]string{path: "0"})
	clock := time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC)
	e := Editor{disk: m, Now: func() time.Time { return clock }}
	const edits = 25
	for i := 1; i <= edits; i++ {
		clock = clock.Add(time.Hour)
		if i%3 == 0 {
			clock = clock.Add(-5 * time.Hour)
		}
		if err := e.Edit(path, func([]byte) ([]byte, error) { return fmt.Append(nil, i), nil }); err != nil {
			t.Fatal(err)
		}
	}
	kept := e.former(filepath.Join(dir, historyDir), "prices.csv")
	if len(kept) != states {
		t.Fatalf("%d states: %v", len(kept), kept)
	}
	for i, name := range kept {
		if got, want := m.text(filepath.Join(dir, historyDir, name)), fmt.Sprint(edits-states+i); got != want {
			t.Errorf("%s holds %s, want %s", name, got, want)
		}
	}
	if got := m.text(path + ".bak"); got != fmt.Sprint(edits-1) {
		t.Errorf("the copy holds %s", got)
	}
}
