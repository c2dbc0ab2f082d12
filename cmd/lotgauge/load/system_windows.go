package load

import (
	"errors"
	"os"
	"time"

	"golang.org/x/sys/windows"
)

// syncDir does nothing: a folder cannot be opened for syncing, and the file
// system keeps a journal of renames.
func syncDir(string) error { return nil }

// renameWait is how long a file is waited for that somebody is reading.
const renameWait = 2 * time.Second

// rename puts a file in the place of another. While any program has that one
// open the system refuses, as it does for the blink of an eye after a virus
// scanner has seen a new file; so a refusal is taken only after some time.
func rename(from, to string) error {
	until := time.Now().Add(renameWait)
	for pause := time.Millisecond; ; pause *= 2 {
		err := os.Rename(from, to)
		if err == nil || !inUse(err) || time.Now().Add(pause).After(until) {
			return err
		}
		time.Sleep(pause)
	}
}

// inUse reports whether an error says that another program has the file open.
func inUse(err error) bool {
	return errors.Is(err, windows.ERROR_SHARING_VIOLATION) || errors.Is(err, windows.ERROR_LOCK_VIOLATION) ||
		errors.Is(err, windows.ERROR_ACCESS_DENIED)
}
