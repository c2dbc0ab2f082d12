package main

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation/diag"
)

// pricesCheckOptions is what the command line says of a check of prices.
type pricesCheckOptions struct {
	*environment
	JSON bool
}

const pricesCheckLong = `Prove the price table and the exchange rates sound: every row reads, names
something known and can be converted, every part has a price or a guide. Beyond
what lotgauge check says of them, it warns of rows that are there twice, are
dated in the future, do not fit the other prices of their item, or would be a
formula to a spreadsheet. Errors make the exit code 2, warnings alone do not.`

func newPricesCheckCmd(e *environment, runF func(*pricesCheckOptions) error) *cobra.Command {
	opts := &pricesCheckOptions{environment: e}
	cmd := &cobra.Command{
		Use:   "check",
		Short: "Prove the price table sound, and point at odd rows",
		Long:  pricesCheckLong,
		Example: `  lotgauge prices check
  lotgauge prices check --data ~/trains/data --json`,
		Args: between(0, 0, ""),
		RunE: func(*cobra.Command, []string) error { return runF(opts) },
	}
	cmd.Flags().BoolVar(&opts.JSON, "json", false, "print the list of what is wrong as JSON")
	return cmd
}

func runPricesCheck(opts *pricesCheckOptions) error {
	library, folder, err := opts.library()
	if err != nil {
		return err
	}
	done, diags := library.CheckPrices(opts.today())
	if folder.Demonstration {
		opts.note(table.DemonstrationNote)
	}
	name := filepath.Join(folder.Name, pricesFile)
	errors := countErrors(diags)
	switch {
	case opts.JSON:
		err = writeDiagnostics(opts.Out, diags)
	default:
		if err = diags.WriteText(opts.Out, 0); err == nil && errors == 0 {
			_, err = fmt.Fprintf(opts.Out, "%s is sound: %s%s\n", diag.Clean(name), counted(done.Rows, "row"), warnings(len(diags)))
		}
	}
	if err != nil {
		return unwritten(err)
	}
	if errors > 0 {
		return &badData{name + ": " + counted(errors, "error") + warnings(len(diags)-errors)}
	}
	return nil
}
