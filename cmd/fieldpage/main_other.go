//go:build !js

package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "fieldpage is a part of the phone page and runs nowhere else: lotgauge sheet --phone builds it in, as does\n"+
		"\tGOOS=js GOARCH=wasm go build ./cmd/fieldpage")
	os.Exit(2)
}
