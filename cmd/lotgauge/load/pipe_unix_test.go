//go:build unix

package load

import (
	"strings"
	"syscall"
	"testing"
)

// A named pipe without a writer blocks whoever opens it: both readers must
// refuse it before they open it.
func TestNamedPipes(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := syscall.Mkfifo("pipe.toml", 0o666); err != nil {
		t.Skip(err)
	}
	_, _, err := Listing("pipe.toml", nil)
	check(t, err, "pipe.toml: is a named pipe, not a file", true)

	_, err = Guarded(".").Open("pipe.toml")
	if err == nil || !strings.Contains(err.Error(), "is a named pipe") {
		t.Errorf("Open = %v", err)
	}
}

func TestDeviceAsListing(t *testing.T) {
	_, _, err := Listing("/dev/null", nil)
	check(t, err, "/dev/null: is a device, not a file", true)
}
