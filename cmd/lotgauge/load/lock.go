package load

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"time"

	"lotgauge/valuation/diag"
)

// lockFile is the file in a data folder that is locked while a file of the
// folder is changed. It stays there: a lock file that came and went could be
// locked by two, each with a file of its own.
const lockFile = ".lotgauge.lock"

// lock takes the lock of a folder and returns what gives it back. While another
// process has it, it waits, and at last says who that is. A process that ends,
// however it ends, has no lock any more.
func lock(dir string, wait time.Duration) (unlock func(), err error) {
	path := filepath.Join(dir, lockFile)
	until := time.Now().Add(wait)
	for pause := 2 * time.Millisecond; ; pause = min(2*pause, 50*time.Millisecond) {
		f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o666)
		if err != nil {
			return nil, unlockable(dir, err)
		}
		got, err := tryLock(f)
		switch {
		case err != nil:
			f.Close()
			return nil, unlockable(dir, err)
		case got && stillThere(f, path):
			sign(f)
			return func() { f.Close() }, nil
		}
		f.Close()
		if time.Now().After(until) {
			return nil, &Error{Path: Short(dir), What: "is being changed by " + holder(path) + waited(wait),
				Hint: "try again when it has ended; nothing has been changed"}
		}
		time.Sleep(pause + rand.N(pause)) // not all at once again
	}
}

// stillThere tells whether the file that is open is the one at path: somebody
// may have tidied it away before it was locked.
func stillThere(f *os.File, path string) bool {
	mine, err := f.Stat()
	if err != nil {
		return false
	}
	there, err := os.Stat(path)
	return err == nil && os.SameFile(mine, there)
}

// sign writes into the lock file who has the lock. It is for messages only.
func sign(f *os.File) {
	text := fmt.Sprintf("process %d", os.Getpid())
	if host, err := os.Hostname(); err == nil {
		text += " on " + host
	}
	text += time.Now().Format(" since 15:04:05")
	if f.Truncate(0) == nil {
		_, _ = f.WriteAt([]byte(text+"\n"), 0)
	}
}

// holder says who has a lock.
func holder(path string) string {
	const most = 100
	text, err := os.ReadFile(path)
	if line, _, _ := bytes.Cut(text, []byte{'\n'}); err == nil && len(line) > 0 && len(line) <= most {
		return "another lotgauge, " + diag.Clean(string(line))
	}
	return "another lotgauge"
}

func waited(wait time.Duration) string {
	if wait <= 0 {
		return ""
	}
	return fmt.Sprintf(", and was so for %v", wait)
}

// unlockable says why a folder cannot be locked, and so not be changed.
func unlockable(dir string, err error) error {
	e := refused(Short(dir), err)
	if errors.Is(err, errors.ErrUnsupported) {
		e.What = "this file system has no locks"
		e.Hint = "keep the data folder on a disk of this computer"
		return e
	}
	e.What = "cannot be changed: " + e.What
	e.Hint = "a file is changed by putting a new one in its place, so its folder must be writable"
	return e
}
