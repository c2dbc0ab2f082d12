package load

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// A Folder is a data folder. Name is how messages name it: the path the user
// gave, shortened to the working folder where it lies below it. Demonstration
// is set for the built-in one, whose Path is empty.
type Folder struct {
	FS            fs.FS
	Name          string
	Path          string
	Demonstration bool
}

// BuiltIn is the Name of the demonstration folder.
const BuiltIn = "built-in"

// A Finder looks for the data folder. GOOS empty means the running system's.
type Finder struct {
	GOOS   string
	Getenv func(string) string
	Demo   fs.FS // the built-in demonstration folder
}

// Find returns the data folder: the one the flag names, else the one
// LOTGAUGE_DATA names, else the platform's if it is there, else the built-in
// one. A folder that was named but cannot be read is an error, never a reason
// to take the next: user data and built-in data must not be confused.
func (f Finder) Find(flag string) (Folder, error) {
	if flag != "" {
		return open(flag, "--data names it")
	}
	if dir := f.Getenv(Variable); dir != "" {
		return open(dir, Variable+" names it")
	}
	dir := f.Place()
	if dir == "" {
		return f.builtIn(), nil
	}
	if _, err := os.Lstat(dir); errors.Is(err, fs.ErrNotExist) {
		return f.builtIn(), nil
	}
	return open(dir, "it is the data folder of this system; --data names another")
}

// Place returns the platform's data folder, there or not, or "" where the
// environment does not say where the user lives.
func (f Finder) Place() string {
	goos := f.GOOS
	if goos == "" {
		goos = runtime.GOOS
	}
	return place(goos, f.Getenv)
}

func (f Finder) builtIn() Folder {
	return Folder{FS: f.Demo, Name: BuiltIn, Demonstration: true}
}

// open returns the folder at dir, which must be a folder that can be listed.
func open(dir, why string) (Folder, error) {
	name := Short(dir)
	info, err := os.Stat(dir)
	if err != nil {
		return Folder{}, noFolder(name, why, err)
	}
	if !info.IsDir() {
		return Folder{}, &Error{Path: name, What: "is " + kind(info.Mode()) + ", not a folder",
			Hint: why, Mistaken: true}
	}
	if _, err := os.ReadDir(dir); err != nil {
		return Folder{}, refused(name, err)
	}
	return Folder{FS: Guarded(dir), Name: name, Path: dir}, nil
}

func noFolder(name, why string, err error) error {
	e := refused(name, err)
	if errors.Is(err, fs.ErrNotExist) {
		e.What = "no such folder"
		e.Hint = why + "; lotgauge init " + name + " starts one"
	}
	return e
}

// Short returns the path relative to the working folder where it lies below it,
// and otherwise as it is.
func Short(path string) string {
	if !filepath.IsAbs(path) {
		return filepath.Clean(path)
	}
	wd, err := os.Getwd()
	if err != nil {
		return path
	}
	rel, err := filepath.Rel(wd, path)
	if err != nil || rel == ".." || strings.HasPrefix(rel, ".."+string(filepath.Separator)) {
		return path
	}
	return rel
}
