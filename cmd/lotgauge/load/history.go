package load

import (
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

const (
	// historyDir is the folder beside a file that its former states are in.
	historyDir = ".lotgauge-history"
	// states is how many of them are kept for one file.
	states = 10
	// stamp is the date in their names, UTC: in the order of the names they are
	// in the order of time, and no system objects to a letter of it.
	stamp = "2006-01-02T150405.000Z"
)

// keep keeps the text that a file has, in the history and as path.bak. Both are
// on the disk before the file is replaced, and each is a file of its own: who
// edits one of them changes no other.
func (e Editor) keep(path string, text []byte, mode fs.FileMode) error {
	dir, base := filepath.Split(path)
	history := filepath.Join(dir, historyDir)
	if err := e.disk.Mkdir(history); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	former := e.former(history, base)
	if err := e.put(filepath.Join(history, e.dated(base, former)), text, mode); err != nil {
		return err
	}
	if err := e.disk.SyncDir(history); err != nil {
		return err
	}
	for _, name := range former[:max(0, len(former)+1-states)] {
		_ = e.disk.Remove(filepath.Join(history, name)) // one too many does no harm
	}
	return e.put(path+".bak", text, mode)
}

// put writes a file whole.
func (e Editor) put(path string, text []byte, mode fs.FileMode) error {
	out, err := e.written(path, text, mode)
	if err != nil {
		return err
	}
	defer out.Discard()
	return out.place()
}

// former are the names of the states of a file that are kept, oldest first.
func (e Editor) former(history, base string) []string {
	names, _ := e.disk.Names(history) // what cannot be seen is not counted
	names = slices.DeleteFunc(names, func(name string) bool {
		_, dated := date(base, name)
		return !dated
	})
	slices.Sort(names)
	return names
}

// dated is a name for the next state: of now, but later than the last one, so
// that a clock put back brings nothing out of order.
func (e Editor) dated(base string, former []string) string {
	now := e.Now().UTC()
	if n := len(former); n > 0 {
		if last, _ := date(base, former[n-1]); !now.After(last.Add(time.Millisecond)) {
			now = last.Add(time.Millisecond)
		}
	}
	ext := filepath.Ext(base)
	return strings.TrimSuffix(base, ext) + "-" + now.Format(stamp) + ext
}

// date is the date in the name of a state of a file.
func date(base, name string) (time.Time, bool) {
	ext := filepath.Ext(base)
	text, named := strings.CutPrefix(strings.TrimSuffix(name, ext), strings.TrimSuffix(base, ext)+"-")
	day, err := time.Parse(stamp, text)
	return day, named && err == nil
}
