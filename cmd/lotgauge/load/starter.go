package load

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Starter writes all files of content into dir, which must not be there yet or
// be an empty folder. Everything is first written beside its place and then
// moved: after an error the disk is as it was before. A folder that holds
// anything is refused, and nothing is ever overwritten.
func Starter(dir string, content fs.FS) error {
	name := Short(dir)
	there, err := vacant(dir, name)
	if err != nil {
		return err
	}
	if there {
		err = fill(dir, content)
	} else {
		err = build(dir, content)
	}
	if _, ok := errors.AsType[*Error](err); err != nil && !ok {
		return refused(name, err)
	}
	return err
}

// vacant reports whether dir is there; it is an error if it is not an empty
// folder.
func vacant(dir, name string) (there bool, err error) {
	if _, err := os.Lstat(dir); errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, &Error{Path: name, What: "is a link that leads nowhere", Mistaken: true, Err: err}
	case err != nil:
		return false, refused(name, err)
	case !info.IsDir():
		return false, &Error{Path: name, What: "is " + kind(info.Mode()) + ", not a folder", Mistaken: true}
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return false, refused(name, err)
	}
	if len(entries) > 0 {
		return false, &Error{Path: name, What: "is not empty: " + some(entries) + " would be in the way",
			Hint: "name a new or an empty folder; nothing has been written", Mistaken: true}
	}
	return true, nil
}

// some names the first entries of a folder and counts the others.
func some(entries []fs.DirEntry) string {
	const most = 5
	var names []string
	for _, e := range entries[:min(most, len(entries))] {
		names = append(names, e.Name())
	}
	if n := len(entries) - most; n > 0 {
		names = append(names, fmt.Sprintf("%d more", n))
	}
	return strings.Join(names, ", ")
}

// build makes the folder elsewhere and renames it to dir in one step.
func build(dir string, content fs.FS) error {
	undo, err := makeParents(dir)
	if err != nil {
		return err
	}
	stage, err := fresh(dir, "tmp", func(name string) error { return os.Mkdir(name, 0o777) })
	if err == nil {
		defer os.RemoveAll(stage)
		err = copyAll(stage, content)
	}
	if err == nil {
		err = os.Rename(stage, dir)
	}
	if err != nil {
		os.RemoveAll(stage)
		undo()
		return err
	}
	return syncDir(filepath.Dir(filepath.Clean(dir)))
}

// makeParents creates the folders above dir. The function it returns removes
// those it created, as far as they are empty.
func makeParents(dir string) (undo func(), err error) {
	var made []string
	parent := filepath.Dir(filepath.Clean(dir))
	for p := parent; ; p = filepath.Dir(p) {
		if _, err := os.Stat(p); !errors.Is(err, fs.ErrNotExist) || p == filepath.Dir(p) {
			break
		}
		made = append(made, p)
	}
	undo = func() {
		for _, p := range made {
			os.Remove(p)
		}
	}
	if err := os.MkdirAll(parent, 0o777); err != nil {
		undo()
		return nil, err
	}
	return undo, nil
}

// fill writes into a folder that is there and empty, and takes back what it
// wrote if it cannot write all.
func fill(dir string, content fs.FS) (err error) {
	stage, err := fresh(filepath.Join(dir, "starter"), "tmp", func(name string) error { return os.Mkdir(name, 0o777) })
	if err != nil {
		return err
	}
	defer os.RemoveAll(stage)
	if err := copyAll(stage, content); err != nil {
		return err
	}
	entries, err := os.ReadDir(stage)
	if err != nil {
		return err
	}
	var placed []string
	defer func() {
		if err != nil {
			for _, p := range placed {
				os.RemoveAll(p)
			}
		}
	}()
	for _, e := range entries {
		to := filepath.Join(dir, e.Name())
		if _, err := os.Lstat(to); !errors.Is(err, fs.ErrNotExist) {
			return &Error{Path: Short(to), What: "appeared meanwhile", Mistaken: true}
		}
		if err := os.Rename(filepath.Join(stage, e.Name()), to); err != nil {
			return err
		}
		placed = append(placed, to)
	}
	return syncDir(dir)
}

// copyAll writes every file of content below dir and waits until it is on the
// disk.
func copyAll(dir string, content fs.FS) error {
	return fs.WalkDir(content, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || name == "." {
			return err
		}
		to := filepath.Join(dir, filepath.FromSlash(name))
		if d.IsDir() {
			return os.Mkdir(to, 0o777)
		}
		return copyFile(to, content, name)
	})
}

func copyFile(to string, content fs.FS, name string) error {
	in, err := content.Open(name)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	if err == nil {
		err = out.Sync()
	}
	return errors.Join(err, out.Close())
}
