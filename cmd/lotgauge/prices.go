package main

import (
	"io"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/valuation"
)

const pricesLong = `Keep the price table, prices.csv of the data folder: add what you have seen,
take in what others export, look at what it says of an item, and find out which
price to look up next.

The table is yours and can be edited by hand and by spreadsheet too. What
lotgauge writes is added at its end and changes nothing else in it. The former
table is kept beside it as prices.csv.bak, and its last ten states in the hidden
folder .lotgauge-history.`

// newPricesCmd has the commands on the price table.
func newPricesCmd(e *environment) *cobra.Command {
	return group(&cobra.Command{
		Use:   "prices",
		Short: "Add to the price table, and see what it says",
		Long:  pricesLong,
		Example: `  lotgauge prices add tyre "4.50 EUR"
  lotgauge prices show tyre
  lotgauge prices due listings/`,
	},
		newPricesAddCmd(e, runPricesAdd), newPricesImportCmd(e, runPricesImport), newPricesShowCmd(e, runPricesShow),
		newPricesCheckCmd(e, runPricesCheck), newPricesDueCmd(e, runPricesDue), newPricesFitCmd(e, runPricesFit),
		newPricesExportCmd(e, runPricesExport))
}

// group makes a command of commands.
func group(cmd *cobra.Command, commands ...*cobra.Command) *cobra.Command {
	cmd.Args = cobra.ArbitraryArgs
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if len(args) > 0 {
			return unknownCommand(cmd, args[0])
		}
		return cmd.Help()
	}
	cmd.AddCommand(commands...)
	return cmd
}

// The files that these commands change.
const (
	pricesFile = "prices.csv"
	ratesFile  = "rates.csv"
)

// A store is a data folder that may be written to.
type store struct {
	*environment
	library *valuation.Library
	folder  load.Folder
	wait    time.Duration
}

// defaultWait is how long another process is waited for that changes the folder.
const defaultWait = 10 * time.Second

func addWaitFlag(cmd *cobra.Command, wait *time.Duration) {
	cmd.Flags().DurationVar(wait, "wait", defaultWait, "wait up to `TIME` while another lotgauge writes")
}

// store opens the data folder for writing. The built-in one cannot be written.
func (e *environment) store(wait time.Duration) (*store, error) {
	library, folder, err := e.library()
	if err != nil {
		return nil, err
	}
	if folder.Demonstration {
		return nil, usagef("the built-in demonstration data cannot be changed").
			hint("lotgauge init DIR writes a data folder of your own; name it with --data DIR or LOTGAUGE_DATA")
	}
	return &store{environment: e, library: library, folder: folder, wait: max(wait, 0)}, nil
}

// name is how messages name a file of the folder.
func (s *store) name(file string) string { return filepath.Join(s.folder.Name, file) }

// edit changes a file of the folder, safely. Who has it open in an office
// program is warned: what is saved there later takes the place of all this.
func (s *store) edit(file string, change func(text []byte) ([]byte, error)) error {
	path := filepath.Join(s.folder.Path, file)
	if by := load.OpenElsewhere(path); by != "" {
		s.note("warning: " + s.name(file) + " is open in " + by + ": close it there without saving, or what is added now is lost")
	}
	return load.Editor{Wait: s.wait, Now: s.Now}.Edit(path, change)
}

// A dayFlag is the day as of which something is asked; it is today unless it is
// given.
type dayFlag struct{ text string }

func (d *dayFlag) add(cmd *cobra.Command) {
	cmd.Flags().StringVar(&d.text, "date", "", "as of `DAY`, year-month-day (default: today)")
}

// day is the day, at midnight UTC as the days of a price table are.
func (d *dayFlag) day(now time.Time) (time.Time, error) {
	if d.text == "" {
		year, month, day := now.Date()
		return time.Date(year, month, day, 0, 0, 0, 0, time.UTC), nil
	}
	day, err := time.Parse(time.DateOnly, d.text)
	if err != nil {
		return day, usagef("--date %q is not a day", d.text).hint("expected year-month-day such as %s", now.Format(time.DateOnly))
	}
	return day, nil
}

// interactive tells whether there is somebody to ask.
func interactive(in io.Reader) bool {
	f, ok := in.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// itemNames completes an item.
func (e *environment) itemNames(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	library, _, err := e.library()
	if err != nil || len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return library.Items(), cobra.ShellCompDirectiveNoFileComp
}
