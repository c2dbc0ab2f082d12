// Generate writes the engine of the phone page into the folder engine, to be
// embedded in the command.
package main

import (
	"context"
	"fmt"
	"os"

	"lotgauge/cmd/lotgauge/field"
)

func main() {
	if err := field.WriteEngine(context.Background(), "engine"); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
