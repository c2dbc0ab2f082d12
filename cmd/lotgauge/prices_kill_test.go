package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"lotgauge/valuation/prices"
)

// adder is a program of the tests: lotgauge-adder FOLDER FIRST COUNT adds rows
// one after the other, with the numbers from FIRST on as their notes, and prints
// each number as soon as prices add says that the row is there.
func adder() {
	first, err1 := strconv.Atoi(os.Args[2])
	count, err2 := strconv.Atoi(os.Args[3])
	if err1 != nil || err2 != nil {
		os.Exit(exitBad)
	}
	s := system()
	s.Out = io.Discard
	for n := first; n < first+count; n++ {
		code := run([]string{"prices", "add", "--data", os.Args[1], "--wait", "1m",
			"--date", "2026-03-01", "--note", strconv.Itoa(n), "tyre", "1.00 EUR"}, s)
		if code != exitDone {
			os.Exit(code)
		}
		fmt.Println(n)
	}
}

// startAdder starts the program; reported gives the numbers it prints, and is
// closed when it has ended.
func startAdder(t *testing.T, dir string, first, count int) (*exec.Cmd, <-chan int) {
	t.Helper()
	cmd := exec.Command("lotgauge-adder", dir, strconv.Itoa(first), strconv.Itoa(count))
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	reported := make(chan int, 1<<16)
	go func() {
		defer close(reported)
		for lines := bufio.NewScanner(out); lines.Scan(); {
			if n, err := strconv.Atoi(lines.Text()); err == nil { // the last line may be cut off
				reported <- n
			}
		}
	}()
	return cmd, reported
}

// stocked is a sound data folder.
func stocked(t testing.TB) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "data")
	if err := os.CopyFS(dir, os.DirFS(base)); err != nil {
		t.Fatal(err)
	}
	return dir
}

// numbers reads a price table, which must be sound, and counts the rows by the
// numbers in their notes.
func numbers(t *testing.T, file string) map[int]int {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	table, diags := prices.ReadTable(file, bytes.NewReader(text))
	if len(diags) > 0 || !bytes.HasSuffix(text, []byte("\n")) {
		t.Fatalf("the table is not sound: %v", diags)
	}
	count := map[int]int{}
	for _, row := range table.Rows("tyre") {
		if n, err := strconv.Atoi(row.Note); err == nil {
			count[n]++
		}
	}
	return count
}

// kills is how many processes TestKills kills: LOTGAUGE_KILLS, else few.
func kills(t *testing.T) int {
	t.Helper()
	if n, err := strconv.Atoi(os.Getenv("LOTGAUGE_KILLS")); err == nil {
		return n
	}
	if testing.Short() {
		return 5
	}
	return 20
}

// A process that adds rows is killed, at any moment, again and again: every row
// that it reported is there, once, and the table grew at its end alone.
func TestKills(t *testing.T) {
	dir := stocked(t)
	file := filepath.Join(dir, pricesFile)
	random := rand.New(rand.NewPCG(7, uint64(kills(t))))
	reported, unreported := map[int]bool{}, 0
	before, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	const perProcess = 1_000_000 // more than one can add before it is killed
	for k := range kills(t) {
		cmd, lines := startAdder(t, dir, k*perProcess, perProcess)
		if k%4 > 0 { // else perhaps before the first row
			reported[<-lines] = true
		}
		time.Sleep(time.Duration(random.IntN(40_000)) * time.Microsecond)
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		for n := range lines {
			reported[n] = true
		}
		_ = cmd.Wait() // it was killed
		count := numbers(t, file)
		for n := range reported {
			if count[n] != 1 {
				t.Fatalf("kill %d: row %d was reported and is there %d times", k+1, n, count[n])
			}
		}
		if unreported = len(count) - len(reported); unreported > k+1 {
			t.Fatalf("kill %d: %d rows that were not reported", k+1, unreported)
		}
		after, err := os.ReadFile(file)
		if err != nil || !bytes.HasPrefix(after, before) {
			t.Fatalf("kill %d: what was there before is not the beginning of the table any more: %v", k+1, err)
		}
		before = after
	}
	began := time.Now()
	newScreenful().run(t, exitDone, "prices", "add", "--data", dir, "--date", "2026-03-01", "tyre", "1 EUR")
	t.Logf("%d kills: %d rows reported, each there once; %d more that were on the disk and not reported yet; the add after the last kill took %v",
		kills(t), len(reported), unreported, time.Since(began).Round(time.Millisecond))
	if len(reported) < kills(t)/2 {
		t.Errorf("only %d rows were added between the kills", len(reported))
	}
	leftovers(t, dir, len(reported)+unreported)
}

// leftovers fails where a file is left beside the table, or a kept state of it
// is not whole, or there are fewer of them than the ten last additions left.
func leftovers(t *testing.T, dir string, added int) {
	t.Helper()
	history := filepath.Join(dir, ".lotgauge-history")
	for _, d := range []string{dir, history} {
		entries, err := os.ReadDir(d)
		if err != nil {
			t.Fatal(err)
		}
		states := 0
		for _, e := range entries {
			if strings.HasSuffix(e.Name(), ".new") || strings.HasSuffix(e.Name(), ".tmp") {
				t.Errorf("%s is left", e.Name())
			}
			if strings.HasPrefix(e.Name(), "prices") {
				numbers(t, filepath.Join(d, e.Name()))
				states++
			}
		}
		if d == history && (states > 10 || states < min(added, 10)) {
			t.Errorf("%d former states are kept of %d additions", states, added)
		}
	}
}

// Eight processes add at once: each row is there, once.
func TestManyAddAtOnce(t *testing.T) {
	dir := stocked(t)
	const processes, each = 8, 15
	var all sync.WaitGroup
	var mu sync.Mutex
	reported := map[int]bool{}
	for p := range processes {
		cmd, lines := startAdder(t, dir, p*1000, each)
		all.Go(func() {
			for n := range lines {
				mu.Lock()
				reported[n] = true
				mu.Unlock()
			}
			if err := cmd.Wait(); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	count := numbers(t, filepath.Join(dir, pricesFile))
	if len(reported) != processes*each || len(count) != processes*each {
		t.Errorf("%d rows reported and %d there, want %d", len(reported), len(count), processes*each)
	}
	for n, times := range count {
		if times != 1 || !reported[n] {
			t.Errorf("row %d is there %d times", n, times)
		}
	}
	leftovers(t, dir, 10)
}

// Some of eight processes that add at once are killed: the others are not held
// up, and nothing that any of them reported is lost.
func TestKillsAmongMany(t *testing.T) {
	dir := stocked(t)
	const processes, each = 8, 10
	var all sync.WaitGroup
	var mu sync.Mutex
	reported := map[int]bool{}
	for p := range processes {
		cmd, lines := startAdder(t, dir, p*1000, each)
		all.Go(func() {
			for n := range lines {
				mu.Lock()
				reported[n] = true
				mu.Unlock()
				if p%2 == 0 && n%1000 == p/2 {
					_ = cmd.Process.Kill() // it may have ended
				}
			}
			if err := cmd.Wait(); err != nil && p%2 == 1 {
				t.Error(err)
			}
		})
	}
	all.Wait()
	count := numbers(t, filepath.Join(dir, pricesFile))
	for n := range reported {
		if count[n] != 1 {
			t.Errorf("row %d was reported and is there %d times", n, count[n])
		}
	}
	if extra := len(count) - len(reported); extra > processes/2 {
		t.Errorf("%d rows that were not reported", extra)
	}
}
