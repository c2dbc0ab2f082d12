package load

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
)

// An Output is a file being written. Nothing is created before the first byte,
// and the file at the path is replaced whole, by Commit: who reads it meanwhile
// sees the old one, and a failed run leaves no trace. What is there and no
// regular file (/dev/null, a pipe) is written as it goes.
type Output struct {
	path string // where it goes, links followed
	file *os.File
	temp bool // file is to be renamed to path
}

// Create returns an output for the path; it touches nothing.
func Create(path string) *Output { return &Output{path: path} }

// Write implements io.Writer.
func (o *Output) Write(p []byte) (int, error) {
	if len(p) == 0 {
		return 0, nil
	}
	if o.file == nil {
		if err := o.start(); err != nil {
			return 0, err
		}
	}
	n, err := o.file.Write(p)
	if err != nil {
		return n, refused(Short(o.path), err)
	}
	return n, nil
}

// start opens what the bytes go to first.
func (o *Output) start() error {
	name := Short(o.path)
	if real, err := filepath.EvalSymlinks(o.path); err == nil {
		o.path = real
	}
	info, err := os.Stat(o.path)
	switch {
	case err == nil && info.IsDir():
		return &Error{Path: name, What: "is a folder, not a file", Mistaken: true}
	case err == nil && !info.Mode().IsRegular():
		o.file, err = os.OpenFile(o.path, os.O_WRONLY, 0)
	default:
		o.temp = true
		o.file, err = temporary(o.path, info)
	}
	if err != nil {
		return refused(name, err)
	}
	return nil
}

// temporary creates a file beside the one at path, with the permissions of old
// where there is one, else those the user's mask leaves.
func temporary(path string, old fs.FileInfo) (f *os.File, err error) {
	_, err = fresh(path, func(name string) error {
		f, err = os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		return err
	})
	if err != nil || old == nil {
		return f, err
	}
	if err := f.Chmod(old.Mode().Perm()); err != nil {
		f.Close()
		os.Remove(f.Name())
		return nil, err
	}
	return f, nil
}

// fresh calls create with hidden names beside path until one is not taken, and
// returns that name.
func fresh(path string, create func(name string) error) (name string, err error) {
	dir, base := filepath.Split(filepath.Clean(path))
	for range 100 {
		name = filepath.Join(dir, fmt.Sprintf(".%s.%08x.tmp", base, rand.Uint32()))
		if err = create(name); !errors.Is(err, fs.ErrExist) {
			return name, err
		}
	}
	return "", err
}

// Commit puts the file in its place and waits until it is on the disk. Without
// a byte written it does nothing.
func (o *Output) Commit() error {
	if o.file == nil {
		return nil
	}
	if err := o.commit(); err != nil {
		o.Discard()
		return refused(Short(o.path), err)
	}
	o.file = nil
	return nil
}

func (o *Output) commit() error {
	if !o.temp {
		return o.file.Close()
	}
	if err := o.file.Sync(); err != nil {
		return err
	}
	if err := o.file.Close(); err != nil {
		return err
	}
	if err := os.Rename(o.file.Name(), o.path); err != nil {
		return err
	}
	return syncDir(filepath.Dir(o.path))
}

// Discard removes what was written since Create. After Commit it does nothing.
func (o *Output) Discard() {
	if o.file == nil {
		return
	}
	o.file.Close()
	if o.temp {
		os.Remove(o.file.Name())
	}
	o.file = nil
}

// Replace writes the file at path in one step: all that write wrote, or, where
// it failed, nothing.
func Replace(path string, write func(io.Writer) error) error {
	o := Create(path)
	defer o.Discard()
	if err := write(o); err != nil {
		return err
	}
	return o.Commit()
}
