package load

import (
	"errors"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

func TestGuardedIsAFileSystem(t *testing.T) {
	dir := t.TempDir()
	mkdir(t, dir+"/families")
	write(t, dir+"/families/a.toml", "format = 1")
	write(t, dir+"/prices.csv", "")
	if err := fstest.TestFS(Guarded(dir), "families/a.toml", "prices.csv"); err != nil {
		t.Error(err)
	}
}

func TestGuardedRefuses(t *testing.T) {
	dir := t.TempDir()
	huge := write(t, dir+"/rates.csv", "")
	if err := os.Truncate(huge, MaxFile+1); err != nil { // sparse: takes no room
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"rates.csv":  "rates.csv: is 1024 MB long",
		"nosuch.csv": "nosuch.csv: no such file",
		"../up":      "../up: invalid",
	} {
		_, err := Guarded(dir).Open(name)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Open(%q) = %v, want %q", name, err, want)
		}
		if err != nil && strings.Contains(err.Error(), dir) {
			t.Errorf("%v names the folder twice", err)
		}
	}
	if _, err := Guarded(dir).Open("nosuch.csv"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("%v is not fs.ErrNotExist", err)
	}
}
