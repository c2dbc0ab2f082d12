//go:build darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd

package load

import (
	"errors"
	"os"
	"syscall"
)

// tryLock takes the lock of an open file; false if another has it. The lock is
// that of flock(2): it belongs to the open file, not to the process, and ends
// with it whatever becomes of the process.
func tryLock(f *os.File) (bool, error) {
	for {
		err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		switch {
		case err == nil:
			return true, nil
		case errors.Is(err, syscall.EWOULDBLOCK):
			return false, nil
		case !errors.Is(err, syscall.EINTR):
			return false, err
		}
	}
}
