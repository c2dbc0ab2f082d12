package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/pricedata"
	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// screenful is the streams of a test and what was written to them.
type screenful struct {
	streams
	out, err bytes.Buffer
	env      map[string]string
}

func newScreenful() *screenful {
	s := &screenful{env: map[string]string{}}
	s.streams = streams{
		In: strings.NewReader(""), Out: &s.out, Err: &s.err,
		Getenv: func(key string) string { return s.env[key] },
		Now:    func() time.Time { return time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC) },
	}
	return s
}

// TestDemonstrationLasts: whenever it is tried, the demonstration plays on a day
// that it has rates for.
func TestDemonstrationLasts(t *testing.T) {
	s := newScreenful()
	s.Now = func() time.Time { return time.Date(2031, 1, 2, 12, 0, 0, 0, time.UTC) }
	s.In = strings.NewReader("format = 1\ntitle = \"T\"\nfamily = \"pellworth-ce4\"\nsale = \"auction\"\nbuy = \"northquay\"\n")
	if out := s.run(t, exitDone, "appraise", "--json", "--draws", "200", "-"); !strings.Contains(out, `"date": "`+pricedata.Today+`"`) {
		t.Error(out)
	}
	s.run(t, exitDone, "prices", "show", "pellworth-ce4/6043")
	s.run(t, exitDone, "prices", "check")
}

const lot = base + "/lot.toml"

func (s *screenful) run(t *testing.T, want int, args ...string) string {
	t.Helper()
	s.out.Reset()
	s.err.Reset()
	if got := run(args, s.streams); got != want {
		t.Fatalf("%v: exit code %d, want %d; standard error:\n%s", args, got, want, &s.err)
	}
	return s.out.String()
}

func TestWidthAndColourOfTheTerminal(t *testing.T) {
	longest := func(text string) int {
		most := 0
		for line := range strings.SplitSeq(text, "\n") {
			most = max(most, len([]rune(line)))
		}
		return most
	}
	for _, test := range []struct {
		name     string
		terminal bool
		columns  int
		env      map[string]string
		args     []string
		least    int // of the longest line
		most     int
		colour   bool
	}{
		{"a pipe", false, 0, nil, nil, 70, 80, false},
		{"a terminal", true, 100, nil, nil, 81, 2000, true},
		{"a narrow terminal", true, 30, nil, nil, 30, 2000, true},
		{"a terminal, NO_COLOR", true, 100, map[string]string{"NO_COLOR": "1"}, nil, 81, 100, false},
		{"a terminal without colours", true, 100, map[string]string{"TERM": "dumb"}, nil, 81, 100, false},
		{"NO_COLOR, but asked for", true, 100, map[string]string{"NO_COLOR": "1"}, []string{"--color", "always"}, 81, 2000, true},
		{"a terminal, not wanted", true, 100, nil, []string{"--color", "never"}, 81, 100, false},
		{"a terminal, narrower", true, 100, nil, []string{"--width", "60", "--color", "never"}, 50, 60, false},
	} {
		t.Run(test.name, func(t *testing.T) {
			s := newScreenful()
			s.Terminal, s.Columns = test.terminal, test.columns
			if test.env != nil {
				s.env = test.env
			}
			out := s.run(t, exitDone, append([]string{"appraise", "--data", base, lot}, test.args...)...)
			if n := longest(out); n < test.least || n > test.most {
				t.Errorf("longest line %d, want %d to %d", n, test.least, test.most)
			}
			if got := strings.Contains(out, "\x1b["); got != test.colour {
				t.Errorf("colour is %v", got)
			}
		})
	}
}

// brokenWriter fails as a stream does that nobody can write to any more.
type brokenWriter struct{ err error }

func (w brokenWriter) Write([]byte) (int, error) { return 0, w.err }

// Who pipes the output into a program that stops reading wants no complaint.
func TestClosedPipeIsQuiet(t *testing.T) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	r.Close()
	defer w.Close()
	for name, out := range map[string]io.Writer{"a pipe": w, "EPIPE": brokenWriter{syscall.EPIPE}, "a pipe within": brokenWriter{io.ErrClosedPipe}} {
		for _, args := range [][]string{
			{"appraise", "--data", base, lot}, {"appraise", "--json", "--data", base, lot},
			{"appraise", "--data", base, lot, lot + "/../lot.toml"}, {"appraise", "--html", "-", "--data", base, lot},
			{"explain", "--data", base, lot, "lamps"}, {"identify", "--data", base, "quillmore-t1"},
			{"families", "--data", base}, {"check", base}, {"check", "--json", base}, {"completion", "bash"},
		} {
			s := newScreenful()
			s.Out = out
			s.run(t, exitFailed, args...)
			if s.err.Len() > 0 {
				t.Errorf("%s, %v: %s", name, args, &s.err)
			}
		}
	}
}

func TestFullDiskIsSaid(t *testing.T) {
	s := newScreenful()
	s.Out = brokenWriter{syscall.ENOSPC}
	s.run(t, exitFailed, "families", "--data", base)
	if got, want := s.err.String(), "lotgauge: cannot write the result: no space left on device\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestComplain(t *testing.T) {
	list := diag.List{
		{Severity: diag.Error, Pos: diag.Pos{File: "a.toml", Line: 3, Column: 5}, Summary: "no such thing", Expected: "another", Try: "this"},
		{Severity: diag.Warning, Pos: diag.Pos{File: "b.toml"}, Summary: "odd \x1b[2J"},
	}
	for _, test := range []struct {
		err  error
		code int
		want string
	}{
		{nil, exitDone, ""},
		{usagef("unknown flag --%s", "\x1b[2J").hint("look"), exitBad, "lotgauge: unknown flag --\\x1b[2J\nhint: look\n"},
		{&load.Error{Path: "x", What: "is gone", Hint: "look", Mistaken: true}, exitBad, "lotgauge: x: is gone\nhint: look\n"},
		{&load.Error{Path: "x", What: "broke"}, exitFailed, "lotgauge: x: broke\n"},
		{list, exitBad, "a.toml:3:5: no such thing\n    expected another\n    try this\nb.toml: warning: odd \\x1b[2J\n"},
		{&badData{"x: 1 error"}, exitBad, "lotgauge: x: 1 error\n"},
		{&refusal{what: "no figure", hints: []string{"one", "two"}}, exitFailed, "lotgauge: no figure\nhint: one\nhint: two\n"},
		{errors.New("boom"), exitFailed, "lotgauge: boom\n"},
		{&fs.PathError{Op: "write", Path: "|1", Err: syscall.EPIPE}, exitFailed, ""},
	} {
		var b bytes.Buffer
		if code := complain(&b, test.err); code != test.code || b.String() != test.want {
			t.Errorf("complain(%v) = %d, %q; want %d, %q", test.err, code, b.String(), test.code, test.want)
		}
		if test.err != nil && complain(brokenWriter{io.ErrShortWrite}, test.err) == exitDone {
			t.Errorf("complain(%v) is done where it cannot be printed", test.err)
		}
	}
}

// Every command has a sentence, and every one that does something has more and
// an example.
func TestEveryCommandIsDocumented(t *testing.T) {
	var visit func(*cobra.Command)
	visit = func(c *cobra.Command) {
		if c.Short == "" || c.Example == "" {
			t.Errorf("%s: short %q, example %q", c.CommandPath(), c.Short, c.Example)
		}
		for line := range strings.SplitSeq(c.Long+"\n"+c.Example, "\n") {
			if len(line) > 80 {
				t.Errorf("%s: %q is %d columns long", c.CommandPath(), line, len(line))
			}
		}
		for _, line := range strings.Split(c.Example, "\n") {
			if c.Name() != "completion" && !strings.HasPrefix(line, "  lotgauge ") {
				t.Errorf("%s: example %q", c.CommandPath(), line)
			}
		}
		for _, sub := range c.Commands() {
			visit(sub)
		}
	}
	visit(newRootCmd(newScreenful().streams))
}

func TestHelpFits(t *testing.T) {
	for _, args := range [][]string{{}, {"appraise"}, {"explain"}, {"identify"}, {"check"}, {"families"}, {"init"}, {"completion"}, {"help"}} {
		out := newScreenful().run(t, exitDone, append([]string{"help"}, args...)...)
		for line := range strings.SplitSeq(out, "\n") {
			if len(line) > 100 {
				t.Errorf("help %v: %q is %d columns long", args, line, len(line))
			}
		}
	}
}

func TestAppraiseOptions(t *testing.T) {
	s := newScreenful()
	today := s.Now()
	for _, test := range []struct {
		args []string
		want appraiseOptions
	}{
		{[]string{"a.toml"}, appraiseOptions{Listings: []string{"a.toml"}, Engine: valuation.Options{Today: today}}},
		{[]string{"--seed", "0", "-"}, appraiseOptions{Listings: []string{"-"}, Engine: valuation.Options{SeedSet: true, Today: today}}},
		{[]string{"--json", "--draws", "100", "--seed", "7", "-o", "x", "a"}, appraiseOptions{
			Listings: []string{"a"}, JSON: true, Output: "x", Engine: valuation.Options{Draws: 100, Seed: 7, SeedSet: true, Today: today}}},
	} {
		var got *appraiseOptions
		cmd := newAppraiseCmd(&environment{streams: s.streams}, func(o *appraiseOptions) error { got = o; return nil })
		cmd.SetArgs(test.args)
		if err := cmd.Execute(); err != nil {
			t.Errorf("%v: %v", test.args, err)
			continue
		}
		if got.JSON != test.want.JSON || got.Output != test.want.Output || got.Engine != test.want.Engine ||
			strings.Join(got.Listings, "|") != strings.Join(test.want.Listings, "|") {
			t.Errorf("%v: got %+v", test.args, *got)
		}
	}
}

func TestInitInTheUsualPlace(t *testing.T) {
	dir := t.TempDir()
	s := newScreenful()
	s.env["HOME"], s.env["XDG_DATA_HOME"], s.env["LocalAppData"] = dir, "", dir
	place := (&environment{streams: s.streams}).finder().Place()
	if place == "" || !strings.HasPrefix(place, dir) {
		t.Fatalf("the usual place is %q", place)
	}
	if out := s.run(t, exitDone, "init", place); !strings.Contains(out, "uses it from now on") {
		t.Errorf("%s", out)
	}
	if out := s.run(t, exitDone, "check"); !strings.HasPrefix(out, place+" is sound") {
		t.Errorf("%s", out)
	}
	if out := s.run(t, exitDone, "families"); strings.Contains(out, "DEMONSTRATION") {
		t.Error("one's own folder is taken for the demonstration")
	}
	if _, err := os.Stat(filepath.Join(place, "prices.csv")); err != nil {
		t.Error(err)
	}
}

func TestDiagnosticsCounted(t *testing.T) {
	for _, test := range []struct {
		n    int
		noun string
		want string
	}{{1, "error", "1 error"}, {2, "error", "2 errors"}, {0, "family", "0 families"}, {1, "family", "1 family"}} {
		if got := counted(test.n, test.noun); got != test.want {
			t.Errorf("%q, want %q", got, test.want)
		}
	}
}

// mostLines is how long a short appraisal of a shown listing may be at 80
// columns.
const mostLines = 125

// Every listing that the repository shows is appraised by the built-in folder,
// in every form: it fits, it is clean, and its bytes are the same again.
func TestShownListings(t *testing.T) {
	files, err := filepath.Glob("../../testdata/listings/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	widths := []int{80, 50, 120}
	if testing.Short() {
		widths = widths[:1]
	}
	for _, file := range files {
		s := newScreenful()
		for _, columns := range widths {
			for _, args := range [][]string{
				{"appraise", file}, {"appraise", "--full", file}, {"appraise", "--brief", file},
				{"explain", file, "variant"}, {"identify", "--listing", file},
			} {
				text := s.run(t, exitDone, append(args, "--draws", "100", "--width", strconv.Itoa(columns))...)
				for line := range strings.SplitSeq(text, "\n") {
					if len([]rune(line)) > columns || diag.Clean(line) != line {
						t.Errorf("%v: %q", args, line)
					}
				}
				if !strings.Contains(text+s.err.String(), "DEMONSTRATION") {
					t.Errorf("%v does not say that all is invented:\n%s", args, text)
				}
				if n := strings.Count(text, "\n"); args[1] == file && args[0] == "appraise" && columns == 80 && n > mostLines {
					t.Errorf("%s: %d lines in short", file, n)
				}
			}
		}
		first := s.run(t, exitDone, "appraise", "--json", "--draws", "100", file)
		if again := s.run(t, exitDone, "appraise", "--json", "--draws", "100", file); again != first || !json.Valid([]byte(first)) {
			t.Errorf("%s: the JSON is not the same again, or none", file)
		}
	}
}
