package load

import (
	"errors"
	"os"

	"golang.org/x/sys/windows"
)

// tryLock takes the lock of an open file; false if another has it. Locks are on
// bytes here, and nobody else can read those: the one far behind the end of the
// file leaves the text, which says who has the lock, to be read.
func tryLock(f *os.File) (bool, error) {
	far := &windows.Overlapped{OffsetHigh: 1 << 30}
	err := windows.LockFileEx(windows.Handle(f.Fd()),
		windows.LOCKFILE_EXCLUSIVE_LOCK|windows.LOCKFILE_FAIL_IMMEDIATELY, 0, 1, 0, far)
	switch {
	case err == nil:
		return true, nil
	case errors.Is(err, windows.ERROR_LOCK_VIOLATION), errors.Is(err, windows.ERROR_IO_PENDING):
		return false, nil
	}
	return false, err
}
