package load

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// MaxFile is the size in bytes above which a file of the data folder is not
// read at all: ten times a price table of a million rows is far below it.
const MaxFile = 1 << 30

// Guarded returns the folder as a file system that opens folders and regular
// files only. Without it, a FIFO named like a family would hang the reader for
// ever.
func Guarded(dir string) fs.FS { return guarded(dir) }

type guarded string

// Open implements fs.FS.
func (g guarded) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	path := filepath.Join(string(g), filepath.FromSlash(name))
	info, err := os.Stat(path)
	if err != nil {
		return nil, &fs.PathError{Op: "open", Path: name, Err: cause(err)}
	}
	if err := readable(info); err != nil && !info.IsDir() {
		return nil, &fs.PathError{Op: "open", Path: name, Err: err}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, &fs.PathError{Op: "open", Path: name, Err: cause(err)}
	}
	return f, nil
}

// readable says why a file is not to be read, or nil.
func readable(info fs.FileInfo) error {
	if !info.Mode().IsRegular() {
		return fmt.Errorf("is %s, not a file", kind(info.Mode()))
	}
	if info.Size() > MaxFile {
		return fmt.Errorf("is %d MB long, more than the %d MB that are read", info.Size()>>20, MaxFile>>20)
	}
	return nil
}

// kind says in words what a directory entry is.
func kind(mode fs.FileMode) string {
	switch {
	case mode.IsRegular():
		return "a file"
	case mode.IsDir():
		return "a folder"
	case mode&fs.ModeNamedPipe != 0:
		return "a named pipe"
	case mode&fs.ModeSocket != 0:
		return "a socket"
	case mode&fs.ModeDevice != 0:
		return "a device"
	}
	return "something else"
}
