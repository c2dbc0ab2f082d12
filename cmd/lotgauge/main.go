// Lotgauge tells a collector of vintage model locomotives what a second-hand lot
// is worth, and the bid at which to stop.
package main

import "os"

func main() {
	os.Exit(run(os.Args[1:], system()))
}
