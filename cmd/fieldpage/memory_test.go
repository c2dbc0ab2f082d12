package main

import (
	"errors"
	"io/fs"
	"testing"
)

func TestMemory(t *testing.T) {
	m := memory{"settings.toml": "format = 1\n", "families/a.toml": "a", "families/b.toml": "", "sheets/x.toml": "x"}
	text, err := fs.ReadFile(m, "families/a.toml")
	if err != nil || string(text) != "a" {
		t.Errorf("read %q, %v", text, err)
	}
	entries, err := fs.ReadDir(m, "families")
	if err != nil || len(entries) != 2 || entries[0].Name() != "a.toml" || entries[0].IsDir() {
		t.Errorf("folder has %v, %v", entries, err)
	}
	for _, name := range []string{"nothing.toml", "families/c.toml", "nowhere"} {
		if _, err := m.Open(name); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := m.Open("../etc"); !errors.Is(err, fs.ErrInvalid) {
		t.Errorf("a path that leaves the folder: %v", err)
	}
	if info, err := fs.Stat(m, "families"); err != nil || !info.IsDir() || !info.Mode().IsDir() {
		t.Errorf("the folder is %v, %v", info, err)
	}
	if info, err := fs.Stat(m, "settings.toml"); err != nil || info.Size() != 11 || !info.Mode().IsRegular() {
		t.Errorf("the file is %v, %v", info, err)
	}
}
