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
	disk disk
	kind string      // the end of the temporary file's name
	path string      // where it goes, links followed
	mode fs.FileMode // its permissions, 0 for those of the file there
	file file
	temp string // the file to be renamed to path, "" where there is none
	shut bool   // file is closed
}

// Create returns an output for the path; it touches nothing.
func Create(path string) *Output { return &Output{disk: system{}, kind: "tmp", path: path} }

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
	if err == nil && n < len(p) {
		err = io.ErrShortWrite
	}
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
	info, err := o.disk.Stat(o.path)
	switch {
	case err == nil && info.IsDir():
		return &Error{Path: name, What: "is a folder, not a file", Mistaken: true}
	case err == nil && !info.Mode().IsRegular():
		err = o.direct()
	default:
		err = o.temporary(info)
	}
	if err != nil {
		return refused(name, err)
	}
	return nil
}

// direct opens what is no regular file.
func (o *Output) direct() error {
	f, err := os.OpenFile(o.path, os.O_WRONLY, 0)
	if err == nil {
		o.file = f
	}
	return err
}

// temporary creates a file beside the one at path, with the permissions asked
// for, else those of old where there is one, else those the user's mask leaves.
func (o *Output) temporary(old fs.FileInfo) error {
	name, err := fresh(o.path, o.kind, func(name string) (err error) {
		o.file, err = o.disk.Create(name)
		return err
	})
	if err != nil {
		return err
	}
	o.temp = name
	if o.mode == 0 && old != nil {
		o.mode = old.Mode().Perm()
	}
	if o.mode != 0 {
		err = o.file.Chmod(o.mode)
	}
	if err != nil {
		o.Discard()
	}
	return err
}

// fresh calls create with hidden names beside path, which end in kind, until
// one is not taken, and returns that name.
func fresh(path, kind string, create func(name string) error) (name string, err error) {
	dir, base := filepath.Split(filepath.Clean(path))
	for range 100 {
		name = filepath.Join(dir, fmt.Sprintf(".%s.%08x.%s", base, rand.Uint32(), kind))
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
	if err := o.settle(); err != nil || o.temp == "" {
		return err
	}
	if err := o.place(); err != nil {
		return err
	}
	return o.disk.SyncDir(filepath.Dir(o.path))
}

// settle closes the file; a temporary one is on the disk then.
func (o *Output) settle() error {
	if o.temp != "" {
		if err := o.file.Sync(); err != nil {
			return err
		}
	}
	o.shut = true
	return o.file.Close()
}

// place renames the temporary file to its place.
func (o *Output) place() error {
	if err := o.disk.Rename(o.temp, o.path); err != nil {
		return err
	}
	o.file, o.temp = nil, ""
	return nil
}

// Discard removes what was written since Create. After Commit it does nothing.
func (o *Output) Discard() {
	if o.file == nil {
		return
	}
	if !o.shut {
		o.file.Close()
	}
	if o.temp != "" {
		_ = o.disk.Remove(o.temp) // what stays is hidden and in nobody's way
	}
	o.file, o.temp = nil, ""
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
