// Lotgauge tells a collector of vintage model locomotives what a second-hand lot
// is worth, and the bid at which to stop.
package main

import (
	"os"
	"runtime/debug"
)

func main() {
	collectLess()
	os.Exit(run(os.Args[1:], system()))
}

// Most commands end before memory is short: until so much of it is in use they
// collect garbage less often than Go would. Beyond, they would collect it nearly
// all the time; the largest table and the most draws are far from there.
const (
	garbage   = 400     // percent of what is in use
	plentiful = 1 << 30 // bytes
)

// collectLess leaves it to the user who has set GOGC or GOMEMLIMIT.
func collectLess() {
	if os.Getenv("GOGC") == "" && os.Getenv("GOMEMLIMIT") == "" {
		debug.SetGCPercent(garbage)
		debug.SetMemoryLimit(plentiful)
	}
}
