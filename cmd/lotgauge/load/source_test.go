package load

import (
	"errors"
	"os"
	"strings"
	"testing"
)

func TestSource(t *testing.T) {
	t.Chdir(t.TempDir())
	write(t, "in.csv", "a,b\n")
	text, name, err := Source("in.csv", nil, 4, "a file")
	if err != nil || name != "in.csv" || string(text) != "a,b\n" {
		t.Errorf("%q, %q, %v", text, name, err)
	}
	text, name, err = Source("-", strings.NewReader("x"), 4, "a file")
	if err != nil || name != StandardInput || string(text) != "x" {
		t.Errorf("%q, %q, %v", text, name, err)
	}
	_, _, err = Source("in.csv", nil, 3, "a file")
	check(t, err, "in.csv: is longer than the 0 MB that are read", true)
	_, _, err = Source("-", strings.NewReader("long"), 3, "a file")
	check(t, err, "standard input: is longer than the 0 MB that are read", true)
	_, _, err = Source("nosuch", nil, 3, "a file")
	check(t, err, "nosuch: no such file or folder", true)
	mkdir(t, "box")
	_, _, err = Source("box", nil, 3, "a file of rates")
	check(t, err, "box: is a folder, not a file", true)
	if e, _ := errors.AsType[*Error](err); !strings.Contains(e.Hint, "name a file of rates, or - ") {
		t.Errorf("hint %q", e.Hint)
	}
	if _, err := os.Stat("/dev/null"); err == nil {
		_, _, err = Source("/dev/null", nil, 3, "a file")
		check(t, err, "/dev/null: is a device, not a file", true)
	}
}
