package load

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// put makes empty files, and folders for names that end in a slash.
func put(t *testing.T, names ...string) {
	t.Helper()
	for _, name := range names {
		err := os.MkdirAll(filepath.Dir(name), 0o777)
		if err == nil && strings.HasSuffix(name, "/") {
			err = os.MkdirAll(name, 0o777)
		} else if err == nil {
			err = os.WriteFile(name, nil, 0o666)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

func TestListings(t *testing.T) {
	t.Chdir(t.TempDir())
	put(t, "lot.toml", "in/b.toml", "in/a.TOML", "in/.hidden.toml", "in/notes.txt", "in/deeper/c.toml", "in/folder.toml/",
		"empty/", "data/settings.toml", "data/families/")
	for _, test := range []struct {
		paths   string
		files   string
		several bool
		bad     string
	}{
		{"lot.toml", "lot.toml", false, ""},
		{"-", "-", false, ""},
		{"nosuch.toml", "nosuch.toml", false, ""}, // found out when it is opened
		{"lot.toml -", "lot.toml -", true, ""},
		{"lot.toml ./lot.toml in/../lot.toml", "lot.toml", true, ""},
		{"in", "in/a.TOML in/b.toml in/folder.toml", true, ""},
		{"in/b.toml in/", "in/b.toml in/a.TOML in/folder.toml", true, ""},
		{"empty", "", true, "empty: has no listing in it"},
		{"data lot.toml empty", "lot.toml", true, "data: is a data folder, not one of listings; empty: has no listing in it"},
	} {
		files, several, bad := Listings(strings.Fields(test.paths))
		var said []string
		for _, err := range bad {
			said = append(said, err.Error())
			if e, ok := errors.AsType[*Error](err); !ok || !e.Mistaken || e.Hint == "" {
				t.Errorf("%s: %#v", test.paths, err)
			}
		}
		if diff := cmp.Diff(test.files, filepath.ToSlash(strings.Join(files, " "))); diff != "" || several != test.several || strings.Join(said, "; ") != test.bad {
			t.Errorf("%s: several is %v, errors %q, files (-want +got):\n%s", test.paths, several, said, diff)
		}
	}
}

func TestOverwrites(t *testing.T) {
	t.Chdir(t.TempDir())
	put(t, "lot.toml", "other.toml")
	if err := os.Symlink("lot.toml", "link.toml"); err != nil {
		t.Skip(err)
	}
	for _, test := range []struct {
		output string
		inputs []string
		want   bool
	}{
		{"", []string{"lot.toml"}, false},
		{"new.html", []string{"lot.toml"}, false},
		{"other.toml", []string{"lot.toml", "-", "nosuch.toml"}, false},
		{"lot.toml", []string{"other.toml", "lot.toml"}, true},
		{"./lot.toml", []string{"lot.toml"}, true},
		{"link.toml", []string{"lot.toml"}, true},
		{"lot.toml", []string{"link.toml"}, true},
		{os.DevNull, []string{os.DevNull}, false},
	} {
		if err := Overwrites(test.output, test.inputs); (err != nil) != test.want {
			t.Errorf("%q from %q: %v", test.output, test.inputs, err)
		}
	}
}
