//go:build unix

package load

import (
	"errors"
	"os"
	"syscall"
)

// syncDir waits until the entries of a folder are on the disk. Some file
// systems cannot, and say so with EINVAL; there is then nothing to wait for.
func syncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	if err := d.Sync(); err != nil && !errors.Is(err, syscall.EINVAL) {
		return err
	}
	return nil
}

func rename(from, to string) error { return os.Rename(from, to) }

// inUse reports nothing: these systems let a file be replaced that is open.
func inUse(error) bool { return false }
