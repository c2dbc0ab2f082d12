package load

import (
	"errors"
	"io/fs"
	"os"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

var starter = fstest.MapFS{
	"families/a.toml":  {Data: []byte("a"), Mode: 0o444},
	"families/b.toml":  {Data: []byte("b")},
	"prices.csv":       {Data: []byte("p")},
	"sheets/hall.toml": {Data: []byte("h")},
}

// tree reads a folder back, every file by its path.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			out[name] = read(t, dir+"/"+name)
		} else if name != "." {
			out[name+"/"] = ""
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestStarter(t *testing.T) {
	want := map[string]string{"families/": "", "sheets/": "",
		"families/a.toml": "a", "families/b.toml": "b", "prices.csv": "p", "sheets/hall.toml": "h"}
	for _, test := range []struct {
		name, dir string
		make      func(t *testing.T)
	}{
		{"new", "data", nil},
		{"new, with a slash", "data/", nil},
		{"new below new", "a/b/data", nil},
		{"empty", "data", func(t *testing.T) { mkdir(t, "data") }},
		{"the working folder", ".", nil},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			if test.make != nil {
				test.make(t)
			}
			if err := Starter(test.dir, starter); err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(want, tree(t, test.dir)); diff != "" {
				t.Errorf("folder (-want +got):\n%s", diff)
			}
			if got := names(t, "."); test.dir != "." && len(got) != 1 {
				t.Errorf("left beside it: %v", got)
			}
			f, err := os.OpenFile(test.dir+"/families/a.toml", os.O_WRONLY, 0)
			if err != nil {
				t.Errorf("the copy cannot be edited: %v", err)
			}
			f.Close()
		})
	}
}

func TestStarterRefuses(t *testing.T) {
	tests := []struct {
		name string
		make func(t *testing.T)
		want string
	}{
		{"a folder with something in it", func(t *testing.T) {
			mkdir(t, "data/sheets")
			write(t, "data/prices.csv", "mine")
		}, "data: is not empty: prices.csv, sheets would be in the way"},
		{"a folder with many things in it", func(t *testing.T) {
			for _, name := range []string{"a", "b", "c", "d", "e", "f", "g"} {
				mkdir(t, "data/"+name)
			}
		}, "data: is not empty: a, b, c, d, e, 2 more would be in the way"},
		{"a hidden file", func(t *testing.T) { mkdir(t, "data"); write(t, "data/.notes", "") },
			"data: is not empty: .notes would be in the way"},
		{"a file", func(t *testing.T) { write(t, "data", "mine") }, "data: is a file, not a folder"},
		{"a dangling link", func(t *testing.T) {
			if err := os.Symlink("nowhere", "data"); err != nil {
				t.Skip(err)
			}
		}, "data: is a link that leads nowhere"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			test.make(t)
			before := names(t, ".")
			check(t, Starter("data", starter), test.want, true)
			if diff := cmp.Diff(before, names(t, ".")); diff != "" {
				t.Errorf("the disk changed (-before +after):\n%s", diff)
			}
		})
	}
}

// brokenFS fails on one file, which comes last: everything else has been
// written by then.
type brokenFS struct{ fs.FS }

var errBroken = errors.New("cannot be read")

func (b brokenFS) Open(name string) (fs.File, error) {
	if name == "sheets/hall.toml" {
		return nil, errBroken
	}
	return b.FS.Open(name)
}

func TestStarterLeavesNothingHalfWritten(t *testing.T) {
	for _, dir := range []string{"data", "a/b/data", "empty", "."} {
		t.Run(dir, func(t *testing.T) {
			t.Chdir(t.TempDir())
			if dir == "empty" {
				mkdir(t, "empty")
			}
			before := tree(t, ".")
			if err := Starter(dir, brokenFS{starter}); !errors.Is(err, errBroken) {
				t.Fatalf("Starter = %v", err)
			}
			if diff := cmp.Diff(before, tree(t, ".")); diff != "" {
				t.Errorf("the disk changed (-before +after):\n%s", diff)
			}
		})
	}
}

func TestStarterWhereNobodyMayWrite(t *testing.T) {
	if os.Getuid() == 0 {
		t.Skip("the super-user may write everywhere")
	}
	t.Chdir(t.TempDir())
	if err := os.Mkdir("locked", 0o555); err != nil {
		t.Fatal(err)
	}
	check(t, Starter("locked/data", starter), "locked/data: permission denied", false)
	check(t, Starter("locked", starter), "locked: permission denied", false)
}
