package main

import (
	"errors"
	"flag"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"lotgauge/valuation/diag"
)

var update = flag.Bool("update", false, "update the files that scripts compare with")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"lotgauge": mainThen, "lotgauge-adder": adder})
}

// mainThen is main on the day on which what the tests expect was written down:
// what a listing without a date is worth changes from day to day. From there on
// the clock runs.
func mainThen() {
	s := system()
	then, began := time.Date(2026, 11, 25, 12, 0, 0, 0, time.Local), time.Now()
	s.Now = func() time.Time { return then.Add(time.Since(began)) }
	os.Exit(run(os.Args[1:], s))
}

// scripts is where the scripts are, and base what each starts with: a sound
// data folder called data, and a listing. A script brings its own files to put
// in the place of these.
const (
	scripts = "../../testdata/script"
	base    = scripts + "/base"
)

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 scripts,
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup:               setup,
		Condition:           condition,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits, "inflate": inflate, "unquote-bytes": unquoteBytes, "fits": fits, "clean": clean, "stock": stock, "saleroom": saleroom,
		},
	})
}

// setup lays the base out and makes data the data folder, without any other
// folder of the user's in sight.
func setup(env *testscript.Env) error {
	env.Setenv("LOTGAUGE_DATA", "data")
	env.Setenv("XDG_DATA_HOME", "")
	env.Setenv("NO_COLOR", "")
	all, broken := stockSize()
	env.Setenv("LOTS", strconv.Itoa(all))
	env.Setenv("BROKEN", strconv.Itoa(broken))
	env.Setenv("SOUND", strconv.Itoa(all-broken))
	return fs.WalkDir(os.DirFS(base), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || name == "README.md" {
			return err
		}
		to := filepath.Join(env.WorkDir, "data", name)
		if name == "lot.toml" {
			to = filepath.Join(env.WorkDir, name)
		}
		return layOut(filepath.Join(base, name), to)
	})
}

// layOut copies a file to where there is none yet.
func layOut(from, to string) error {
	if _, err := os.Stat(to); err == nil {
		return nil
	}
	text, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
		return err
	}
	return os.WriteFile(to, text, 0o666)
}

func condition(name string) (bool, error) {
	switch name {
	case "root":
		return os.Getuid() == 0, nil
	}
	return false, errors.New("unknown condition")
}

// exits runs a command and compares its exit code: exits CODE COMMAND ARG...
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits code command args...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		exit, ok := errors.AsType[*exec.ExitError](err)
		if !ok {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// inflate makes a file of some megabytes by repeating a line of it: inflate
// FILE MEGABYTES.
func inflate(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: inflate file megabytes")
	}
	size, err := strconv.Atoi(args[1])
	ts.Check(err)
	text := ts.ReadFile(args[0])
	f, err := os.Create(ts.MkAbs(args[0]))
	ts.Check(err)
	defer f.Close()
	_, err = f.WriteString(text)
	ts.Check(err)
	block := strings.Repeat("# nothing but a remark of sixty-four characters, again and again\n", 1<<14)
	for written := 0; written < size<<20; written += len(block) {
		_, err = f.WriteString(block)
		ts.Check(err)
	}
}

// unquoteBytes replaces \xNN, \uNNNN and the like in a file by what they stand
// for, so that a script can hold what is no text: unquote-bytes FILE.
func unquoteBytes(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: unquote-bytes file")
	}
	var out []string
	for line := range strings.SplitSeq(ts.ReadFile(args[0]), "\n") {
		raw, err := strconv.Unquote(`"` + strings.ReplaceAll(line, `"`, `\"`) + `"`)
		ts.Check(err)
		out = append(out, raw)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.Join(out, "\n")), 0o666))
}

// fits fails where a line of a file, or of stdout, has more characters than
// that: fits COLUMNS FILE.
func fits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: fits columns file")
	}
	most, err := strconv.Atoi(args[0])
	ts.Check(err)
	for line := range strings.SplitSeq(ts.ReadFile(args[1]), "\n") {
		if n := len([]rune(line)); n > most {
			ts.Fatalf("%d columns: %s", n, line)
		}
	}
}

// clean fails where a file, stdout or stderr holds anything that does something
// to a terminal, line ends apart: clean FILE...
func clean(ts *testscript.TestScript, neg bool, args []string) {
	for _, file := range args {
		for line := range strings.SplitSeq(ts.ReadFile(file), "\n") {
			if (diag.Clean(line) != line) != neg {
				ts.Fatalf("%s: %q", file, line)
			}
		}
	}
}
