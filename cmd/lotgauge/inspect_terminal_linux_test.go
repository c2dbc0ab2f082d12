package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
	"unsafe"
)

// A console is a pseudo-terminal with the program at its other end.
type console struct {
	t      *testing.T
	master *os.File
	cmd    *exec.Cmd
	shown  heard
}

// ioctl asks a device, as Linux' headers number the requests.
func ioctl(f *os.File, request uintptr, arg unsafe.Pointer) error {
	if _, _, errno := syscall.Syscall(syscall.SYS_IOCTL, f.Fd(), request, uintptr(arg)); errno != 0 {
		return errno
	}
	return nil
}

// openConsole runs the program at a terminal of 80 columns.
func openConsole(t *testing.T, args ...string) *console {
	t.Helper()
	master, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skip(err)
	}
	var number, unlock int32
	if err := ioctl(master, syscall.TIOCSPTLCK, unsafe.Pointer(&unlock)); err != nil {
		t.Skip(err)
	}
	if err := ioctl(master, syscall.TIOCGPTN, unsafe.Pointer(&number)); err != nil {
		t.Skip(err)
	}
	slave, err := os.OpenFile("/dev/pts/"+strconv.Itoa(int(number)), os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Skip(err)
	}
	defer slave.Close()
	size := [4]uint16{24, 80}
	if err := ioctl(slave, syscall.TIOCSWINSZ, unsafe.Pointer(&size)); err != nil {
		t.Fatal(err)
	}
	x := &console{t: t, master: master, cmd: exec.Command("lotgauge", args...)}
	x.cmd.Stdin, x.cmd.Stdout, x.cmd.Stderr = slave, slave, slave
	x.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	if err := x.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go io.Copy(&x.shown, master)
	t.Cleanup(func() { x.cmd.Process.Kill(); master.Close() })
	return x
}

// sees waits for a text, and forgets what was shown before it.
func (x *console) sees(want string) {
	x.t.Helper()
	for range 300 {
		if x.shown.past(want) {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	x.t.Fatalf("no %q in %q", want, x.shown.String())
}

func (x *console) types(keys string) { io.WriteString(x.master, keys) }

// line begins a line at the prompt of a check and types into it.
func (x *console) line(keys string) {
	x.sees("q stop: ")
	x.raw()
	x.types(":")
	x.sees("CHECK=ANSWER: ")
	x.types(keys)
}

// cooked tells whether the terminal hands over lines and shows what is typed.
func (x *console) cooked() bool {
	var state syscall.Termios
	if err := ioctl(x.master, syscall.TCGETS, unsafe.Pointer(&state)); err != nil {
		x.t.Fatal(err)
	}
	return state.Lflag&syscall.ICANON != 0 && state.Lflag&syscall.ECHO != 0
}

// raw waits for the terminal to hand over single keys.
func (x *console) raw() {
	x.t.Helper()
	for range 300 {
		if !x.cooked() {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	x.t.Fatal("it never waits for a key")
}

// ends waits for the end: the exit code, and the terminal as it was.
func (x *console) ends(code int) {
	x.t.Helper()
	_ = x.cmd.Wait() // the code says what is to be known
	if got := x.cmd.ProcessState.ExitCode(); got != code {
		x.t.Errorf("exit code %d, want %d", got, code)
	}
	if !x.cooked() {
		x.t.Error("the terminal is not as it was")
	}
}

// At a terminal one key answers, without a line end; the terminal is as it was
// whichever way it ends.
func TestInspectionAtTerminal(t *testing.T) {
	const prompt = "q stop: "
	begin := func(t *testing.T) (*console, string) {
		file := filepath.Join(t.TempDir(), "find.toml")
		x := openConsole(t, "inspect", "quillmore-t1", "--data", base, "--ask", "88", "--color", "never", "-o", file)
		x.sees("1. Which catalogue number it is")
		x.sees(prompt)
		x.raw()
		return x, file
	}
	for name, row := range map[string]struct {
		end  func(x *console)
		code int
	}{
		"stop":      {func(x *console) { x.types("q") }, exitDone},
		"Ctrl-C":    {func(x *console) { x.types("\x03") }, exitFailed},
		"Ctrl-D":    {func(x *console) { x.types("\x04") }, exitDone},
		"SIGINT":    {func(x *console) { x.cmd.Process.Signal(syscall.SIGINT) }, exitFailed},
		"SIGTERM":   {func(x *console) { x.cmd.Process.Signal(syscall.SIGTERM) }, exitFailed},
		"SIGHUP":    {func(x *console) { x.cmd.Process.Signal(syscall.SIGHUP) }, exitFailed},
		"typed out": {func(x *console) { x.types(":"); x.sees("CHECK=ANSWER: "); x.types("\x03") }, exitFailed},
	} {
		t.Run(name, func(t *testing.T) {
			x, file := begin(t)
			x.types("2")
			x.sees("Which catalogue number it is: green, black lamps.")
			x.sees(prompt)
			x.raw()
			row.end(x)
			x.ends(row.code)
			if text, err := os.ReadFile(file); err != nil || !strings.Contains(string(text), `variant = "118"`) {
				t.Errorf("%v: %s", err, text)
			}
		})
	}
}

// What is no answer, arrow keys and line ends do nothing; a whole answer can be
// typed.
func TestKeysAtTerminal(t *testing.T) {
	x := openConsole(t, "inspect", "quillmore-t1", "--data", base, "--ask", "88", "--color", "never", "-o", filepath.Join(t.TempDir(), "find.toml"))
	for _, row := range []struct{ keys, want string }{
		{"\x1b[A", ""}, {"\r", ""}, {"\x00", ""}, {"9", `No answer "9"`}, {"é", `No answer "é"`},
		{"m", `No answer "m"`}, {"b", "no answer to take back"}, {"g", ""}, {"?", "cannot be told"},
	} {
		x.sees("q stop: ")
		x.raw()
		x.types(row.keys)
		x.sees(row.want)
	}
	x.line("tyres=perished\n")
	x.sees("Traction tyres: perished.")
	x.sees("q stop: ")
	x.raw()
	x.types("q")
	x.ends(exitDone)
}

// After a mistake at the keyboard what was typed with it is no answer: a reading
// typed where nothing is measured chooses nothing. Escape leaves a line.
func TestMistakesAtTerminal(t *testing.T) {
	file := filepath.Join(t.TempDir(), "find.toml")
	x := openConsole(t, "inspect", "quillmore-t1", "--data", base, "--ask", "88", "--color", "never", "-o", file)
	x.sees(": CHECK=ANSWER, q stop: ")
	x.raw()
	for _, key := range []string{"m", "1", "3", " V\n"} { // as fast as a hand types
		x.types(key)
		time.Sleep(100 * time.Millisecond)
	}
	x.sees(`No answer "m"`)
	x.sees("q stop: ")
	x.raw()
	x.types("g")
	x.sees("A check is being asked for")
	x.line("tyres=perished")
	x.sees("tyres=perished")
	x.types("\x1b")
	x.sees("q stop: ")
	x.raw()
	x.types("q")
	x.ends(exitDone)
	if text, err := os.ReadFile(file); err != nil || strings.Contains(string(text), "finding") {
		t.Errorf("%v: %s", err, text)
	}
}

// A line can be mended before it is entered; arrow keys do nothing to it.
func TestLineAtTerminal(t *testing.T) {
	x := openConsole(t, "inspect", "quillmore-t1", "--data", base, "--ask", "88", "--color", "never", "-o", filepath.Join(t.TempDir(), "find.toml"))
	for _, row := range []struct{ keys, want string }{
		{"\x1b", ""}, {"\r", ""}, {"tyres=souné\x7f\bnd\x1b[Dg\x7f\r", "Traction tyres: sound."},
		{"motor=tired\x15tyres=\x1b[3~\tperished\n", "Traction tyres: perished."},
	} {
		x.line(row.keys)
		x.sees(row.want)
	}
	x.line("\x04")
	x.ends(exitDone)
}

// A reading that is rather a slip is asked back.
func TestSlipAtTerminal(t *testing.T) {
	file := filepath.Join(t.TempDir(), "find.toml")
	x := openConsole(t, "inspect", "pellworth-ce4", "--ask", "45", "--buy", "stall-cash", "--color", "never", "-o", file)
	for _, answer := range []string{"n", "y"} {
		x.sees("q stop")
		x.raw()
		x.types(":")
		x.sees("CHECK=ANSWER: ")
		x.types("wheels=40 mm\n")
		x.sees("far from what any state reads")
		x.sees("to type it again: ")
		x.raw()
		if text, _ := os.ReadFile(file); strings.Contains(string(text), "reading") {
			t.Errorf("kept before it was confirmed: %s", text)
		}
		x.types(answer)
	}
	x.sees("Wheels: 40 mm: above 14.1 mm, most likely exchanged (100%).")
	x.sees("q stop")
	x.raw()
	x.types("q")
	x.ends(exitDone)
}
