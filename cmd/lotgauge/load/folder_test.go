package load

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
)

// finder returns a finder on Linux with this environment and a folder home
// below a new one, which is the working folder of the test.
func finder(t *testing.T, env map[string]string) Finder {
	t.Helper()
	dir := t.TempDir()
	t.Chdir(dir)
	home := filepath.Join(dir, "home")
	if err := os.MkdirAll(home, 0o777); err != nil {
		t.Fatal(err)
	}
	all := map[string]string{"HOME": home}
	for k, v := range env {
		all[k] = v
	}
	return Finder{GOOS: "linux", Demo: fstest.MapFS{}, Getenv: func(k string) string { return all[k] }}
}

func mkdir(t *testing.T, path string) string {
	t.Helper()
	if err := os.MkdirAll(path, 0o777); err != nil {
		t.Fatal(err)
	}
	return path
}

func write(t *testing.T, path, text string) string {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestFindOrder(t *testing.T) {
	f := finder(t, map[string]string{Variable: "fromenv"})
	mkdir(t, "flag")
	mkdir(t, "fromenv")
	mkdir(t, "home/.local/share/lotgauge")

	steps := []struct {
		flag string
		undo func()
		want string
	}{
		{"flag", nil, "flag"},
		{"", func() { f.Getenv = withoutVariable(f.Getenv) }, "fromenv"},
		{"", func() { os.RemoveAll("home/.local") }, filepath.Join("home", ".local", "share", "lotgauge")},
		{"", nil, BuiltIn},
	}
	for _, step := range steps {
		got, err := f.Find(step.flag)
		if err != nil {
			t.Fatal(err)
		}
		if got.Name != step.want {
			t.Errorf("found %q, want %q", got.Name, step.want)
		}
		if got.Demonstration != (step.want == BuiltIn) {
			t.Errorf("%s: demonstration is %v", step.want, got.Demonstration)
		}
		if step.undo != nil {
			step.undo()
		}
	}
}

func withoutVariable(getenv func(string) string) func(string) string {
	return func(key string) string {
		if key == Variable {
			return ""
		}
		return getenv(key)
	}
}

func TestFindWithoutHome(t *testing.T) {
	f := finder(t, map[string]string{"HOME": ""})
	got, err := f.Find("")
	if err != nil || !got.Demonstration {
		t.Errorf("Find = %+v, %v; want the demonstration folder", got, err)
	}
}

func TestFindRefuses(t *testing.T) {
	tests := []struct {
		name, flag, env string
		make            func(t *testing.T)
		want            string
		mistaken        bool
	}{
		{"missing", "nowhere", "", nil, "nowhere: no such folder", true},
		{"missing, from the environment", "", "nowhere", nil, "nowhere: no such folder", true},
		{"a file", "prices.csv", "", func(t *testing.T) { write(t, "prices.csv", "") }, "prices.csv: is a file, not a folder", true},
		{"the platform's is a file", "", "", func(t *testing.T) {
			mkdir(t, "home/.local/share")
			write(t, "home/.local/share/lotgauge", "")
		}, "home/.local/share/lotgauge: is a file, not a folder", true},
		{"unreadable", "locked", "", func(t *testing.T) {
			if os.Getuid() == 0 {
				t.Skip("the super-user may read everything")
			}
			if err := os.Mkdir("locked", 0); err != nil {
				t.Fatal(err)
			}
		}, "locked: permission denied", false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			f := finder(t, map[string]string{Variable: test.env})
			if test.make != nil {
				test.make(t)
			}
			_, err := f.Find(test.flag)
			check(t, err, test.want, test.mistaken)
		})
	}
}

// check compares an Error, whatever the separator of paths.
func check(t *testing.T, err error, want string, mistaken bool) {
	t.Helper()
	e, ok := errors.AsType[*Error](err)
	if !ok {
		t.Fatalf("got %#v, want an Error %q", err, want)
	}
	if got := filepath.ToSlash(e.Error()); got != want {
		t.Errorf("got  %q\nwant %q", got, want)
	}
	if e.Mistaken != mistaken {
		t.Errorf("mistaken is %v", e.Mistaken)
	}
}

func TestMissingFolderHint(t *testing.T) {
	_, err := finder(t, nil).Find("nowhere")
	e, ok := errors.AsType[*Error](err)
	if !ok || !strings.Contains(e.Hint, "lotgauge init nowhere") {
		t.Errorf("hint of %#v does not say how to start one", err)
	}
}

func TestShort(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	wd, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	outside := filepath.Join(filepath.Dir(wd), "elsewhere")
	for path, want := range map[string]string{
		"a/../b.toml":                "b.toml",
		filepath.Join(wd, "b.toml"):  "b.toml",
		outside:                      outside,
		filepath.Join(wd, "..data"):  "..data",
		filepath.Join("..", "other"): filepath.Join("..", "other"),
	} {
		if got := Short(path); got != want {
			t.Errorf("Short(%q) = %q, want %q", path, got, want)
		}
	}
}
