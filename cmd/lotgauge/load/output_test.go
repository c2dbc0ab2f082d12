package load

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// names lists the folder, hidden files too.
func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func read(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestOutputIsCreatedOnItsFirstByte(t *testing.T) {
	dir := t.TempDir()
	o := Create(filepath.Join(dir, "report.txt"))
	if _, err := o.Write(nil); err != nil {
		t.Fatal(err)
	}
	if got := names(t, dir); got != nil {
		t.Errorf("%v is there before the first byte", got)
	}
	if err := o.Commit(); err != nil {
		t.Fatal(err)
	}
	if got := names(t, dir); got != nil {
		t.Errorf("%v is there without a byte", got)
	}
}

func TestOutputReplacesWhole(t *testing.T) {
	dir := t.TempDir()
	path := write(t, filepath.Join(dir, "report.txt"), "old")
	o := Create(path)
	fmt.Fprint(o, "new and ")
	if got := read(t, path); got != "old" {
		t.Errorf("before Commit the file holds %q", got)
	}
	fmt.Fprint(o, "longer")
	if err := o.Commit(); err != nil {
		t.Fatal(err)
	}
	o.Discard()
	if got := read(t, path); got != "new and longer" {
		t.Errorf("after Commit the file holds %q", got)
	}
	if got := names(t, dir); !cmp.Equal(got, []string{"report.txt"}) {
		t.Errorf("the folder holds %v", got)
	}
}

func TestReplaceFailing(t *testing.T) {
	dir := t.TempDir()
	path := write(t, filepath.Join(dir, "report.txt"), "old")
	broken := errors.New("broken")
	err := Replace(path, func(w io.Writer) error {
		fmt.Fprint(w, "half of")
		return broken
	})
	if !errors.Is(err, broken) {
		t.Errorf("Replace = %v", err)
	}
	if got := read(t, path); got != "old" {
		t.Errorf("the file holds %q", got)
	}
	if got := names(t, dir); !cmp.Equal(got, []string{"report.txt"}) {
		t.Errorf("the folder holds %v", got)
	}
}

func TestOutputKeepsPermissionsAndLinks(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no permission bits")
	}
	dir := t.TempDir()
	real := write(t, filepath.Join(dir, "real.txt"), "old")
	if err := os.Chmod(real, 0o640); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(dir, "link.txt")
	if err := os.Symlink("real.txt", link); err != nil {
		t.Fatal(err)
	}
	err := Replace(link, func(w io.Writer) error {
		_, err := io.WriteString(w, "new")
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	info, err := os.Lstat(link)
	if err != nil || info.Mode().IsRegular() {
		t.Errorf("the link became a file: %v, %v", info.Mode(), err)
	}
	info, err = os.Stat(real)
	if err != nil || info.Mode().Perm() != 0o640 || read(t, real) != "new" {
		t.Errorf("%v, %v, %q", info.Mode(), err, read(t, real))
	}
}

func TestOutputRefuses(t *testing.T) {
	t.Chdir(t.TempDir())
	mkdir(t, "box")
	_, err := Create("box").Write([]byte("x"))
	check(t, err, "box: is a folder, not a file", true)
	_, err = Create("nowhere/report.txt").Write([]byte("x"))
	check(t, err, "nowhere/report.txt: no such file or folder", true)
}

func TestOutputToADevice(t *testing.T) {
	if _, err := os.Stat("/dev/full"); err != nil {
		t.Skip("no /dev/full")
	}
	err := Replace("/dev/null", func(w io.Writer) error { _, err := io.WriteString(w, "x"); return err })
	if err != nil {
		t.Error(err)
	}
	err = Replace("/dev/full", func(w io.Writer) error { _, err := io.WriteString(w, "x"); return err })
	check(t, err, "/dev/full: no space left on device", false)
}
