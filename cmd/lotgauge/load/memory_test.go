package load

import (
	"errors"
	"io"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"time"
)

// memory is a disk for tests. It knows what a real one would still have after a
// power cut, and fails or dies at the operation that a test says.
//
// What is written to a file is lost unless it was synced; what is made, renamed
// or removed in a folder may be lost until the folder is synced, or may not.
type memory struct {
	now  map[string]*node // as the running system sees it
	kept map[string]*node // names that a power cut leaves for certain
	time time.Time

	steps  int   // operations so far that change something
	at     int   // the one that fails, from 1; 0: none
	fault  error // what it fails with
	short  bool  // a write that fails writes the half
	dies   bool  // all after it fail too: the process was killed
	failed string
}

// node is the content of a file.
type node struct {
	text, synced []byte
	mode         fs.FileMode
	time         time.Time
	dir          bool
}

func newMemory(files map[string]string) *memory {
	m := &memory{now: map[string]*node{}, time: time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC)}
	for name, text := range files {
		m.time = m.time.Add(time.Second)
		m.now[name] = &node{text: []byte(text), synced: []byte(text), mode: 0o640, time: m.time}
		if dir := filepath.Dir(name); filepath.Base(dir) == historyDir {
			m.now[dir] = &node{dir: true, mode: 0o755}
		}
	}
	m.kept = maps.Clone(m.now)
	return m
}

// step counts an operation and says how it fails.
func (m *memory) step(what string) error {
	m.steps++
	if m.steps == m.at {
		m.failed = what
	}
	if m.at > 0 && (m.steps == m.at || m.dies && m.steps > m.at) {
		return m.fault
	}
	return nil
}

func (m *memory) Create(name string) (file, error) {
	if err := m.step("create " + filepath.Base(name)); err != nil {
		return nil, err
	}
	if m.now[name] != nil {
		return nil, fs.ErrExist
	}
	m.now[name] = &node{mode: 0o644, time: m.tick()}
	return &handle{m, name, m.now[name]}, nil
}

func (m *memory) tick() time.Time {
	m.time = m.time.Add(time.Second)
	return m.time
}

func (m *memory) Read(name string) ([]byte, fs.FileInfo, error) {
	n := m.now[name]
	if n == nil {
		return nil, nil, fs.ErrNotExist
	}
	return slices.Clone(n.text), look{name, *n, n}, nil
}

func (m *memory) Stat(name string) (fs.FileInfo, error) {
	_, info, err := m.Read(name)
	return info, err
}

func (m *memory) Same(a, b fs.FileInfo) bool {
	x, y := a.(look), b.(look)
	return x.is == y.is && x.time.Equal(y.time)
}

func (m *memory) Names(dir string) ([]string, error) {
	var names []string
	for name := range m.now {
		if filepath.Dir(name) == filepath.Clean(dir) {
			names = append(names, filepath.Base(name))
		}
	}
	return names, nil
}

func (m *memory) Mkdir(name string) error {
	if m.now[name] != nil {
		return fs.ErrExist
	}
	if err := m.step("mkdir"); err != nil {
		return err
	}
	m.now[name] = &node{dir: true, mode: 0o755}
	return nil
}

func (m *memory) Rename(from, to string) error {
	if err := m.step("rename to " + filepath.Base(to)); err != nil {
		return err
	}
	m.now[to] = m.now[from]
	delete(m.now, from)
	return nil
}

func (m *memory) Remove(name string) error {
	if err := m.step("remove " + filepath.Base(name)); err != nil {
		return err
	}
	delete(m.now, name)
	return nil
}

func (m *memory) SyncDir(dir string) error {
	if err := m.step("sync folder " + filepath.Base(dir)); err != nil {
		return err
	}
	inside := func(name string, _ *node) bool { return filepath.Dir(name) == dir }
	maps.DeleteFunc(m.kept, inside)
	for name, n := range m.now {
		if inside(name, n) {
			m.kept[name] = n
		}
	}
	return nil
}

// afterPowerCut is what a file may hold when the power comes back: with the
// names that are certain, and with all that were. ok is false where there is
// none.
func (m *memory) afterPowerCut(name string) (texts []string) {
	for _, names := range []map[string]*node{m.kept, m.now} {
		if n := names[name]; n != nil {
			texts = append(texts, string(n.synced))
		} else {
			texts = append(texts, "(none)")
		}
	}
	return texts
}

func (m *memory) text(name string) string {
	if n := m.now[name]; n != nil {
		return string(n.text)
	}
	return "(none)"
}

// handle is an open file of a memory.
type handle struct {
	m    *memory
	name string
	*node
}

func (h *handle) Name() string { return h.name }
func (h *handle) Close() error { return h.m.step("close") }

func (h *handle) Chmod(mode fs.FileMode) error {
	if err := h.m.step("chmod"); err != nil {
		return err
	}
	h.mode = mode
	return nil
}

func (h *handle) Write(p []byte) (int, error) {
	n := len(p)
	err := h.m.step("write " + filepath.Base(h.name))
	switch {
	case err != nil && h.m.short:
		n /= 2
		if errors.Is(err, io.ErrShortWrite) {
			err = nil // and says nothing of it
		}
	case err != nil:
		n = 0
	}
	h.text = append(h.text, p[:n]...)
	return n, err
}

func (h *handle) Sync() error {
	if err := h.m.step("sync " + filepath.Base(h.name)); err != nil {
		return err
	}
	h.synced = slices.Clone(h.text)
	return nil
}

// look is what was seen of a file.
type look struct {
	name string
	node
	is *node
}

func (l look) Name() string       { return filepath.Base(l.name) }
func (l look) Size() int64        { return int64(len(l.text)) }
func (l look) Mode() fs.FileMode  { return l.mode }
func (l look) ModTime() time.Time { return l.time }
func (l look) IsDir() bool        { return l.dir }
func (l look) Sys() any           { return nil }
