package load

import (
	"io/fs"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

func demo() fs.FS {
	file := &fstest.MapFile{Data: []byte("format = 1\n")}
	return Join(
		fstest.MapFS{"a.toml": file, "b.toml": file, "a.cases.toml": file, "embed.go": file, "old/c.toml": file},
		fstest.MapFS{"prices.csv": file, "settings.toml": file, "sheets/hall.toml": file, "embed.go": file})
}

func TestJoinIsAFileSystem(t *testing.T) {
	err := fstest.TestFS(demo(), "families/a.toml", "families/b.toml", "prices.csv", "settings.toml", "sheets/hall.toml")
	if err != nil {
		t.Error(err)
	}
}

func TestJoinShowsDataOnly(t *testing.T) {
	var got []string
	err := fs.WalkDir(demo(), ".", func(name string, _ fs.DirEntry, err error) error {
		got = append(got, name)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{".", "families", "families/a.toml", "families/b.toml", "prices.csv", "settings.toml", "sheets", "sheets/hall.toml"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("files (-want +got):\n%s", diff)
	}
	for _, hidden := range []string{"families/a.cases.toml", "families/embed.go", "families/old/c.toml", "embed.go"} {
		if _, err := fs.Stat(demo(), hidden); err == nil {
			t.Errorf("%s can be opened", hidden)
		}
	}
}
