//go:build !darwin && !dragonfly && !freebsd && !illumos && !linux && !netbsd && !openbsd && !windows

package load

import (
	"errors"
	"os"
)

// tryLock fails: without locks two processes could each lose what the other
// wrote.
func tryLock(*os.File) (bool, error) { return false, errors.ErrUnsupported }
