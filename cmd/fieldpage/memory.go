package main

import (
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"
)

// memory is a data folder in memory: text by path.
type memory map[string]string

// Open implements fs.FS.
func (m memory) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	if text, ok := m[name]; ok {
		return &memoryFile{entry: entry{path.Base(name), len(text)}, Reader: strings.NewReader(text)}, nil
	}
	names := m.in(name)
	if len(names) == 0 {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return &memoryFile{entry: entry{path.Base(name), folderSize}, Reader: strings.NewReader("")}, nil
}

// ReadDir implements fs.ReadDirFS.
func (m memory) ReadDir(name string) ([]fs.DirEntry, error) {
	names := m.in(name)
	if len(names) == 0 {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	entries := make([]fs.DirEntry, len(names))
	for i, n := range names {
		entries[i] = fs.FileInfoToDirEntry(entry{n, len(m[path.Join(name, n)])})
	}
	return entries, nil
}

// in are the names of the files of a folder, sorted.
func (m memory) in(folder string) []string {
	var names []string
	for file := range m {
		if path.Dir(file) == folder {
			names = append(names, path.Base(file))
		}
	}
	slices.Sort(names)
	return names
}

// memoryFile is an open file; a strings.Reader gives its length too, which the
// readers of tables make use of.
type memoryFile struct {
	entry
	*strings.Reader
}

var _ io.Reader = (*memoryFile)(nil)

func (f *memoryFile) Stat() (fs.FileInfo, error) { return f.entry, nil }
func (f *memoryFile) Close() error               { return nil }

// Size is the file's, as its information says; the reader has one of that name too.
func (f *memoryFile) Size() int64 { return f.entry.Size() }

const folderSize = -1

// entry is the information about a file or folder.
type entry struct {
	name string
	size int
}

func (e entry) Name() string       { return e.name }
func (e entry) Size() int64        { return int64(max(e.size, 0)) }
func (e entry) ModTime() time.Time { return time.Time{} }
func (e entry) IsDir() bool        { return e.size == folderSize }
func (e entry) Sys() any           { return nil }

func (e entry) Mode() fs.FileMode {
	if e.IsDir() {
		return fs.ModeDir | 0o555
	}
	return 0o444
}
