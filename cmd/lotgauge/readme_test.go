package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestReadme runs what README.md shows: every line of its console blocks that
// calls this program, in their order, in a folder that holds the listings and
// the files to import. Each must do as it is shown: exit with 0.
func TestReadme(t *testing.T) {
	if testing.Short() {
		t.Skip("the full run does it")
	}
	shell, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("no shell to read the lines with")
	}
	dir := t.TempDir()
	for _, shown := range []string{"listings", "import"} {
		if err := os.CopyFS(filepath.Join(dir, "testdata", shown), os.DirFS("../../testdata/"+shown)); err != nil {
			t.Fatal(err)
		}
	}
	run, goFolders := 0, goFolders(t)
	for _, line := range consoleLines(t, "../../README.md") {
		command, ok := ofThisProgram(line)
		if !ok {
			continue
		}
		run++
		cmd := exec.Command(shell, "-c", command)
		cmd.Dir = dir
		cmd.Env = append(os.Environ(), "LOTGAUGE_DATA=", "XDG_DATA_HOME=", "HOME="+dir, "LocalAppData="+dir)
		cmd.Env = append(cmd.Env, goFolders...)
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", line, err, out)
		}
	}
	if run < 10 {
		t.Errorf("only %d lines were run: have the blocks lost their marks?", run)
	}
}

// goFolders are where the go command keeps what it has fetched and built: the
// phone page builds its engine with it, and another home has neither.
func goFolders(t *testing.T) []string {
	t.Helper()
	out, err := exec.Command("go", "env", "GOMODCACHE", "GOCACHE").Output()
	if err != nil {
		t.Fatal(err)
	}
	folders := strings.Fields(string(out))
	return []string{"GOMODCACHE=" + folders[0], "GOCACHE=" + folders[1]}
}

// The listing that README.md shows is one: it is appraised, whole, and every
// kind of finding is in it.
func TestReadmeListing(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(text), "```toml\nformat = 1\ntitle")
	listing, _, ok := strings.Cut(rest, "```")
	if !ok {
		t.Fatal("there is none")
	}
	for _, key := range []string{"variant", "feature", "option", "state", "reading", "symptom", "present", "note", "trust", `by = "hidden"`} {
		if !strings.Contains(listing, "\n"+key) {
			t.Errorf("%s is not shown", key)
		}
	}
	s := newScreenful()
	s.In = strings.NewReader("format = 1\ntitle" + listing)
	if out := s.run(t, exitDone, "appraise", "--draws", "100", "-"); !strings.Contains(out, "restore and keep") || s.err.Len() > 0 {
		t.Errorf("%s\n%s", out, &s.err)
	}
}

// consoleLines are the commands in the console blocks of a Markdown file,
// without the prompt.
func consoleLines(t *testing.T, file string) []string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	inside := false
	for line := range strings.SplitSeq(string(text), "\n") {
		switch {
		case strings.HasPrefix(line, "```"):
			inside = strings.TrimPrefix(line, "```") == "console"
		case inside && strings.HasPrefix(line, "$ "):
			lines = append(lines, strings.TrimPrefix(line, "$ "))
		}
	}
	return lines
}

// ofThisProgram is a line as the shell is to run it, and whether it calls this
// program, under its name or from source.
func ofThisProgram(line string) (command string, ok bool) {
	if rest, ok := strings.CutPrefix(line, "go run ./cmd/lotgauge "); ok {
		return "lotgauge " + rest, true
	}
	return line, strings.HasPrefix(line, "lotgauge ")
}

// Every command of the program, and every form of an appraisal, is shown.
func TestReadmeShowsEveryCommand(t *testing.T) {
	shown := "\n" + strings.Join(consoleLines(t, "../../README.md"), "\n") + "\n"
	for _, c := range newRootCmd(newScreenful().streams).Commands() {
		if c.Name() != "help" && c.Name() != "completion" && !strings.Contains(shown, "lotgauge "+c.Name()+" ") {
			t.Errorf("README.md does not show lotgauge %s", c.Name())
		}
	}
	for _, form := range forms {
		if !strings.Contains(shown, " --"+form+" ") {
			t.Errorf("README.md does not show --%s", form)
		}
	}
}
