package load

import (
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A disk that is really full, and one that is really read-only, where the test
// may mount them.
func TestFullDisk(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=128k"); err != nil {
		t.Skipf("no disk of the test's own: %v", err)
	}
	defer func() {
		if err := syscall.Unmount(dir, 0); err != nil {
			t.Error(err)
		}
	}()
	path := filepath.Join(dir, "prices.csv")
	text, row := "", strings.Repeat("x", 3000)
	var err error
	for len(text) < 1<<20 && err == nil {
		if err = (Editor{}).Edit(path, add(row)); err == nil {
			text += row + "\n"
		}
	}
	if err == nil || !strings.Contains(err.Error(), "no space left on device") || text == "" {
		t.Fatalf("after %d bytes: %v", len(text), err)
	}
	if got := read(t, path); got != text {
		t.Errorf("the file has %d bytes, want %d", len(got), len(text))
	}
	for _, name := range names(t, dir) {
		if strings.HasSuffix(name, "."+unfinished) {
			t.Errorf("%s is left", name)
		}
	}
	if err := syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	if err := (Editor{}).Edit(path, add(row)); err == nil || !strings.Contains(err.Error(), "read-only file system") {
		t.Errorf("read-only: %v", err)
	}
	if got := read(t, path); got != text {
		t.Error("the file on the read-only disk has changed")
	}
}
