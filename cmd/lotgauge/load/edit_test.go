package load

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// add is a change that writes a line more.
func add(line string) func([]byte) ([]byte, error) {
	return func(text []byte) ([]byte, error) { return append(text, line+"\n"...), nil }
}

func TestEdit(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "prices.csv")
	var e Editor
	for i, want := range []string{"one\n", "one\ntwo\n", "one\ntwo\nthree\n"} {
		if err := e.Edit(path, add([]string{"one", "two", "three"}[i])); err != nil {
			t.Fatal(err)
		}
		if got := read(t, path); got != want {
			t.Errorf("the file holds %q, want %q", got, want)
		}
	}
	if got := read(t, path+".bak"); got != "one\ntwo\n" {
		t.Errorf("the copy holds %q", got)
	}
	if got, want := names(t, dir), []string{historyDir, lockFile, "prices.csv", "prices.csv.bak"}; !cmp.Equal(got, want) {
		t.Errorf("the folder holds %v", got)
	}
	kept := names(t, filepath.Join(dir, historyDir))
	if len(kept) != 2 || read(t, filepath.Join(dir, historyDir, kept[0])) != "one\n" {
		t.Errorf("the history holds %v", kept)
	}
}

func TestEditThatChangesNothing(t *testing.T) {
	dir := t.TempDir()
	path := write(t, filepath.Join(dir, "prices.csv"), "one\n")
	broken := errors.New("broken")
	for _, test := range []struct {
		change func([]byte) ([]byte, error)
		want   error
	}{
		{func(text []byte) ([]byte, error) { return text, nil }, nil},
		{func([]byte) ([]byte, error) { return nil, broken }, broken},
	} {
		if err := (Editor{}).Edit(path, test.change); !errors.Is(err, test.want) {
			t.Errorf("Edit = %v, want %v", err, test.want)
		}
		if got := names(t, dir); read(t, path) != "one\n" || !cmp.Equal(got, []string{lockFile, "prices.csv"}) {
			t.Errorf("the folder holds %v", got)
		}
	}
}

func TestEditEmptiesAFile(t *testing.T) {
	path := write(t, filepath.Join(t.TempDir(), "prices.csv"), "one\n")
	for range 2 {
		if err := (Editor{}).Edit(path, func([]byte) ([]byte, error) { return nil, nil }); err != nil {
			t.Fatal(err)
		}
	}
	if read(t, path) != "" || read(t, path+".bak") != "one\n" {
		t.Errorf("the file holds %q, its copy %q", read(t, path), read(t, path+".bak"))
	}
}

// Permissions stay, those of the copies are no wider, and a link stays a link:
// what belongs to the file is beside the file.
func TestEditKeepsPermissionsAndLinks(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no permission bits")
	}
	dir := t.TempDir()
	elsewhere := mkdir(t, filepath.Join(dir, "elsewhere"))
	real := write(t, filepath.Join(elsewhere, "real.csv"), "one\n")
	if err := os.Chmod(real, 0o600); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(dir, "prices.csv")
	if err := os.Symlink(real, link); err != nil {
		t.Fatal(err)
	}
	if err := (Editor{}).Edit(link, add("two")); err != nil {
		t.Fatal(err)
	}
	info, err := os.Lstat(link)
	if err != nil || info.Mode().IsRegular() || read(t, link) != "one\ntwo\n" {
		t.Errorf("%v, %v, %q", info.Mode(), err, read(t, link))
	}
	kept := names(t, filepath.Join(elsewhere, historyDir))
	for _, name := range []string{real, real + ".bak", filepath.Join(elsewhere, historyDir, kept[0])} {
		info, err := os.Stat(name)
		if err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%s: %v, %v", name, info.Mode(), err)
		}
	}
	if got := names(t, dir); !cmp.Equal(got, []string{"elsewhere", "prices.csv"}) {
		t.Errorf("beside the link: %v", got)
	}
}

// A program that knows nothing of the lock saves the file while it is changed:
// what it saved is not overwritten, and the change is made to that.
func TestEditOfAFileThatChangesMeanwhile(t *testing.T) {
	path := write(t, filepath.Join(t.TempDir(), "prices.csv"), "one\n")
	calls := 0
	err := Editor{}.Edit(path, func(text []byte) ([]byte, error) {
		if calls++; calls == 1 {
			write(t, path, "one\nfrom a spreadsheet\n")
		}
		return append(text, "two\n"...), nil
	})
	if err != nil || read(t, path) != "one\nfrom a spreadsheet\ntwo\n" {
		t.Errorf("%v, %q", err, read(t, path))
	}
	err = Editor{}.Edit(path, func(text []byte) ([]byte, error) {
		calls++
		write(t, path, fmt.Sprint(calls))
		return append(text, "three\n"...), nil
	})
	if err == nil || !strings.Contains(err.Error(), "another program keeps changing it") || read(t, path) != fmt.Sprint(calls) {
		t.Errorf("%v, %q", err, read(t, path))
	}
	fresh := filepath.Join(filepath.Dir(path), "rates.csv")
	err = Editor{}.Edit(fresh, func(text []byte) ([]byte, error) {
		if text == nil {
			write(t, fresh, "appeared\n")
		}
		return append(text, "two\n"...), nil
	})
	if err != nil || read(t, fresh) != "appeared\ntwo\n" {
		t.Errorf("%v, %q", err, read(t, fresh))
	}
}

func TestEditRefuses(t *testing.T) {
	t.Chdir(t.TempDir())
	mkdir(t, "box")
	check(t, Editor{}.Edit("box", add("x")), "box: is a folder, not a file", true)
	check(t, Editor{}.Edit("nowhere/prices.csv", add("x")), "nowhere: cannot be changed: no such file or folder", true)
	write(t, "prices.csv", "one\n")
	if err := os.Chmod("prices.csv", 0o444); err != nil {
		t.Fatal(err)
	}
	err := Editor{}.Edit("prices.csv", add("x"))
	if os.Getuid() == 0 {
		check(t, err, "prices.csv: is write-protected", false)
	} else {
		check(t, err, "prices.csv: permission denied", false)
	}
	if read(t, "prices.csv") != "one\n" {
		t.Error("a write-protected file was changed")
	}
}

func TestEditWhereNobodyMayWrite(t *testing.T) {
	if os.Getuid() == 0 {
		t.Skip("the super-user may write everywhere")
	}
	t.Chdir(t.TempDir())
	mkdir(t, "data")
	write(t, "data/prices.csv", "one\n")
	if err := os.Chmod("data", 0o555); err != nil {
		t.Fatal(err)
	}
	check(t, Editor{}.Edit("data/prices.csv", add("x")), "data: cannot be changed: permission denied", false)
	if read(t, "data/prices.csv") != "one\n" {
		t.Error("the file was changed")
	}
}

// Who has the lock is waited for, and named where it takes too long.
func TestLock(t *testing.T) {
	t.Chdir(t.TempDir())
	mkdir(t, "data")
	write(t, "data/prices.csv", "one\n")
	unlock, err := lock("data", 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, wait := range []time.Duration{0, 20 * time.Millisecond} {
		err = Editor{Wait: wait}.Edit("data/prices.csv", add("x"))
		want := "data: is being changed by another lotgauge, process " + strconv.Itoa(os.Getpid())
		if err == nil || !strings.HasPrefix(filepath.ToSlash(err.Error()), want) {
			t.Errorf("got %v, want %s…", err, want)
		}
	}
	if read(t, "data/prices.csv") != "one\n" {
		t.Error("the file was changed without the lock")
	}
	go func() {
		time.Sleep(30 * time.Millisecond)
		unlock()
	}()
	if err := (Editor{Wait: time.Minute}).Edit("data/prices.csv", add("two")); err != nil {
		t.Error(err)
	}
}

// A lock file that says something else, or is gone, is no obstacle.
func TestLockFileOfSomebodyElse(t *testing.T) {
	t.Chdir(t.TempDir())
	write(t, lockFile, strings.Repeat("\x1b[2J", 1000))
	held, err := lock(".", 0)
	if err != nil {
		t.Fatal(err)
	}
	write(t, lockFile, "\x1b[2J")
	_, err = lock(".", 0)
	check(t, err, `.: is being changed by another lotgauge, \x1b[2J`, false)
	held()
	os.Remove(lockFile)
	unlock, err := lock(".", 0)
	if err != nil {
		t.Fatal(err)
	}
	unlock()
}

// Many at once lose nothing.
func TestEditsAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "prices.csv")
	const writers, each = 8, 10
	var all sync.WaitGroup
	for w := range writers {
		all.Go(func() {
			for i := range each {
				if err := (Editor{Wait: time.Minute}).Edit(path, add(fmt.Sprint(w, "/", i))); err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	seen := map[string]int{}
	for line := range strings.Lines(read(t, path)) {
		seen[line]++
	}
	if len(seen) != writers*each {
		t.Errorf("%d different lines of %d", len(seen), writers*each)
	}
	for line, n := range seen {
		if n != 1 {
			t.Errorf("%q is there %d times", line, n)
		}
	}
}

func TestOpenElsewhere(t *testing.T) {
	t.Chdir(t.TempDir())
	write(t, "prices.csv", "one\n")
	for _, test := range []struct{ mark, text, want string }{
		{"other.csv", "", ""},
		{".~lock.prices.csv#", ",ann,laptop,14.03.2026 12:00,file:///home/ann;", "an office program of ann (.~lock.prices.csv#)"},
		{".~lock.prices.csv#", "\x1b[2J,ann,laptop", `an office program of \x1b[2J (.~lock.prices.csv#)`},
		{".~lock.prices.csv#", ",,", "an office program (.~lock.prices.csv#)"},
		{".~lock.prices.csv#", strings.Repeat("ann,", 1000), "an office program (.~lock.prices.csv#)"},
		{"~$prices.csv", "ann,x", "an office program (~$prices.csv)"},
	} {
		write(t, test.mark, test.text)
		if got := OpenElsewhere("prices.csv"); got != test.want {
			t.Errorf("%s %q: got %q, want %q", test.mark, test.text, got, test.want)
		}
		os.Remove(test.mark)
	}
}
