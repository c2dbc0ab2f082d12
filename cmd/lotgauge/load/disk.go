package load

import (
	"bytes"
	"io"
	"io/fs"
	"os"
)

// A disk is the operations on files that writing is made of. There is one of
// the system; tests have others, which fail, fill up, or forget what was not
// synced. Errors name a path of their own: who reports them says which the user
// knows.
type disk interface {
	// Create opens a new file for writing; it must not be there yet.
	Create(name string) (file, error)
	// Read returns a regular file that may be written, whole, and what it was at
	// that time.
	Read(name string) ([]byte, fs.FileInfo, error)
	Stat(name string) (fs.FileInfo, error)
	// Same reports whether two looks at a file saw the same one.
	Same(a, b fs.FileInfo) bool
	// Names lists a folder.
	Names(dir string) ([]string, error)
	Mkdir(name string) error
	// Rename puts a file in the place of another in one step.
	Rename(from, to string) error
	Remove(name string) error
	// SyncDir waits until the entries of a folder are on the disk.
	SyncDir(dir string) error
}

// A file is one that is being written.
type file interface {
	io.WriteCloser
	Name() string
	Chmod(mode fs.FileMode) error
	// Sync waits until what was written is on the disk.
	Sync() error
}

// system is the disk of the operating system.
type system struct{}

func (system) Create(name string) (file, error) {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return nil, err // and not a *os.File that is nil
	}
	return f, nil
}

func (system) Read(name string) ([]byte, fs.FileInfo, error) {
	before, err := os.Stat(name)
	if err != nil {
		return nil, nil, err
	}
	if err := readable(before); err != nil { // a pipe would block who opens it
		return nil, nil, &Error{Path: Short(name), What: err.Error(), Mistaken: true}
	}
	f, err := os.OpenFile(name, os.O_RDWR, 0)
	if err != nil {
		return nil, nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, nil, err
	}
	var text bytes.Buffer
	text.Grow(int(info.Size()) + bytes.MinRead)
	if _, err := text.ReadFrom(f); err != nil {
		return nil, nil, err
	}
	return text.Bytes(), info, nil
}

func (system) Stat(name string) (fs.FileInfo, error) { return os.Stat(name) }

func (system) Same(a, b fs.FileInfo) bool {
	return os.SameFile(a, b) && a.Size() == b.Size() && a.ModTime().Equal(b.ModTime())
}

func (system) Names(dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names, err
}

func (system) Mkdir(name string) error      { return os.Mkdir(name, 0o777) }
func (system) Rename(from, to string) error { return rename(from, to) }
func (system) Remove(name string) error     { return os.Remove(name) }
func (system) SyncDir(dir string) error     { return syncDir(dir) }
