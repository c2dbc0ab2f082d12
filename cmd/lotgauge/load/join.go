package load

import (
	"errors"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
)

// Join returns the demonstration folder: the checklists as families/, beside
// them everything of the price cupboard. Only checklists are shown of the
// first, not the cases that prove them nor source files.
func Join(checklists, cupboard fs.FS) fs.FS {
	return joined{families: checklists, rest: cupboard}
}

type joined struct{ families, rest fs.FS }

const familiesDir = "families"

// Open implements fs.FS.
func (j joined) Open(name string) (fs.File, error) {
	file, err := j.open(name)
	if err != nil {
		return nil, &fs.PathError{Op: "open", Path: name, Err: cause(err)}
	}
	return file, nil
}

func (j joined) open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, fs.ErrInvalid
	}
	inside, ok := strings.CutPrefix(name, familiesDir+"/")
	switch {
	case name == ".":
		return j.root()
	case name == familiesDir:
		return listing(j.families, familiesDir, isFamily)
	case ok && !isFamily(inside), !ok && !isData(name):
		return nil, fs.ErrNotExist
	case ok:
		return j.families.Open(inside)
	}
	return j.rest.Open(name)
}

func (j joined) root() (fs.File, error) {
	dir, err := listing(j.rest, ".", isData)
	if err != nil {
		return nil, err
	}
	families, err := fs.Stat(j.families, ".")
	if err != nil {
		return nil, err
	}
	dir.entries = append(dir.entries, fs.FileInfoToDirEntry(renamed{families, familiesDir}))
	slices.SortFunc(dir.entries, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	return dir, nil
}

// isFamily tells a checklist by its name: in the top folder, TOML, and not the
// cases beside it.
func isFamily(name string) bool {
	return path.Ext(name) == ".toml" && !strings.Contains(name, "/") && !strings.HasSuffix(name, ".cases.toml")
}

// isData tells what of the price cupboard belongs into a data folder.
func isData(name string) bool {
	ext := path.Ext(name)
	return ext == ".toml" || ext == ".csv" || ext == ""
}

// listing opens the top folder of a file system under another name, with the
// entries that keep says.
func listing(fsys fs.FS, name string, keep func(string) bool) (*folder, error) {
	info, err := fs.Stat(fsys, ".")
	if err != nil {
		return nil, err
	}
	entries, err := fs.ReadDir(fsys, ".")
	if err != nil {
		return nil, err
	}
	kept := slices.DeleteFunc(entries, func(e fs.DirEntry) bool { return !keep(e.Name()) })
	return &folder{info: renamed{info, path.Base(name)}, entries: kept}, nil
}

// A folder is an open folder whose entries were made up beforehand.
type folder struct {
	info    fs.FileInfo
	entries []fs.DirEntry
}

func (f *folder) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *folder) Close() error               { return nil }
func (f *folder) Read([]byte) (int, error) {
	return 0, &fs.PathError{Op: "read", Path: f.info.Name(), Err: errors.New("is a folder")}
}

// ReadDir implements fs.ReadDirFile.
func (f *folder) ReadDir(n int) ([]fs.DirEntry, error) {
	if n <= 0 {
		n = len(f.entries)
	} else if len(f.entries) == 0 {
		return nil, io.EOF
	}
	n = min(n, len(f.entries))
	out := f.entries[:n]
	f.entries = f.entries[n:]
	return out, nil
}

type renamed struct {
	fs.FileInfo
	name string
}

func (r renamed) Name() string { return r.name }
