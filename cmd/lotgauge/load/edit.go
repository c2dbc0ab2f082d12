package load

import (
	"bytes"
	"errors"
	"io/fs"
	"path/filepath"
	"strings"
	"time"
)

// An Editor changes text files of the user's, so that whatever happens on the
// way (a full disk, a killed process, a power cut) the file is the former one
// or the new one, whole.
type Editor struct {
	Wait time.Duration    // how long another process is waited for
	Now  func() time.Time // dates the states that are kept; nil is the system's
	disk disk             // nil is the system's
}

// turns is how often a change is tried on a file that other programs change
// meanwhile.
const turns = 3

// Edit replaces the file at path, or begins it, by what change makes of its
// text, which is nil where there is no file yet. It holds the lock of the
// folder that the file really is in, links followed. Text that stays as it is
// is not written. change may be called again if a program that knows nothing
// of the lock writes the file meanwhile.
//
// The new text is written beside the file and synced; the former text is kept
// in the history and as path.bak; then the new file takes the place of the old
// one and the folder is synced. Only after that the answer is nil.
//
// The error is one of change, or an *Error: unless it says otherwise nothing has
// been changed.
func (e Editor) Edit(path string, change func(text []byte) ([]byte, error)) error {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	unlock, err := lock(filepath.Dir(path), e.Wait)
	if err != nil {
		return err
	}
	defer unlock()
	if e.disk == nil {
		e.disk = system{}
	}
	if e.Now == nil {
		e.Now = time.Now
	}
	e.sweep(path)
	for range turns {
		done, err := e.try(path, change)
		if done || err != nil {
			return err
		}
	}
	return &Error{Path: Short(path), What: "another program keeps changing it",
		Hint: "close it there and try again; nothing has been changed"}
}

// sweep removes what processes that were killed have left beside the file. None
// is at work now: the lock is ours.
func (e Editor) sweep(path string) {
	dir, base := filepath.Split(path)
	stem := strings.TrimSuffix(base, filepath.Ext(base))
	for _, d := range []string{dir, filepath.Join(dir, historyDir)} {
		names, _ := e.disk.Names(d) // what cannot be seen stays
		for _, name := range names {
			if strings.HasPrefix(name, "."+stem) && strings.HasSuffix(name, "."+unfinished) {
				_ = e.disk.Remove(filepath.Join(d, name))
			}
		}
	}
}

// unfinished ends the names of files that an edit has not put in their place.
const unfinished = "new"

// try makes the change once; done is false if the file was changed meanwhile.
func (e Editor) try(path string, change func([]byte) ([]byte, error)) (done bool, err error) {
	text, was, err := e.read(path)
	if err != nil {
		return false, err
	}
	next, err := change(text)
	if err != nil || was != nil && bytes.Equal(text, next) {
		return err == nil, err
	}
	out, err := e.written(path, next, modeOf(was))
	if err != nil {
		return false, unchanged(path, err)
	}
	defer out.Discard()
	if was != nil {
		if err := e.keep(path, text, modeOf(was)); err != nil {
			return false, unchanged(path, err)
		}
	}
	if !e.same(path, was) {
		return false, nil
	}
	if err := out.place(); err != nil {
		return false, unchanged(path, err)
	}
	if err := e.disk.SyncDir(filepath.Dir(path)); err != nil {
		return false, unsure(path, err)
	}
	return true, nil
}

// read returns the text of a file that may be replaced; nil for none.
func (e Editor) read(path string) ([]byte, fs.FileInfo, error) {
	text, info, err := e.disk.Read(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil, nil
	case err != nil:
		return nil, nil, unchanged(path, err)
	case info.Mode().Perm()&0o200 == 0: // which does not hold the super-user back
		return nil, nil, &Error{Path: Short(path), What: "is write-protected",
			Hint: "allow it to be written and try again; nothing has been changed"}
	}
	return text, info, nil
}

// modeOf is the permissions of a file, 0 where there is none.
func modeOf(info fs.FileInfo) fs.FileMode {
	if info == nil {
		return 0
	}
	return info.Mode().Perm()
}

// written returns an output for path that holds the text and is on the disk; it
// waits to be put in its place.
func (e Editor) written(path string, text []byte, mode fs.FileMode) (*Output, error) {
	out := &Output{disk: e.disk, kind: unfinished, path: path, mode: mode}
	err := out.start() // even for no text
	if err == nil {
		_, err = out.Write(text)
	}
	if err == nil {
		err = out.settle()
	}
	if err != nil {
		out.Discard()
		return nil, err
	}
	return out, nil
}

// same tells whether the file at path is still what it was.
func (e Editor) same(path string, was fs.FileInfo) bool {
	is, err := e.disk.Stat(path)
	if was == nil {
		return errors.Is(err, fs.ErrNotExist)
	}
	return err == nil && e.disk.Same(was, is)
}
