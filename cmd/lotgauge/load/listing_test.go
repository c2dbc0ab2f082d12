package load

import (
	"io"
	"os"
	"strings"
	"testing"
)

func TestListing(t *testing.T) {
	t.Chdir(t.TempDir())
	write(t, "loft.toml", "from the file")
	for _, test := range []struct{ path, name, text string }{
		{"loft.toml", "loft.toml", "from the file"},
		{"./loft.toml", "loft.toml", "from the file"},
		{"-", StandardInput, "piped"},
	} {
		r, name, err := Listing(test.path, strings.NewReader("piped"))
		if err != nil {
			t.Fatal(err)
		}
		defer r.Close()
		text, err := io.ReadAll(r)
		if err != nil || string(text) != test.text || name != test.name {
			t.Errorf("Listing(%q) = %q, %q, %v", test.path, text, name, err)
		}
	}
}

func TestListingRefuses(t *testing.T) {
	t.Chdir(t.TempDir())
	mkdir(t, "box")
	_, _, err := Listing("nosuch.toml", nil)
	check(t, err, "nosuch.toml: no such file or folder", true)
	_, _, err = Listing("box", nil)
	check(t, err, "box: is a folder, not a file", true)
	if os.Getuid() != 0 {
		write(t, "locked.toml", "")
		if err := os.Chmod("locked.toml", 0); err != nil {
			t.Fatal(err)
		}
		_, _, err = Listing("locked.toml", nil)
		check(t, err, "locked.toml: permission denied", false)
	}
}
